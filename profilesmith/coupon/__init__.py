"""Coupons: how far can I go, which of these matters, is it really better - with few prints. Pure statistics apart from
files.
"""
