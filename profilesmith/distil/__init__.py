"""From before/after pairs of settings to the recipe that explains them. Works on neutral profiles; reads and writes no
files.
"""
