"""Numbered rules for the files of a library: what a keeper would say of a recipe, map or facts file before it is passed
on.
"""
