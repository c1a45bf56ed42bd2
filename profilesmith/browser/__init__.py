"""A page that derives in a browser: one file, nothing is uploaded. Its parts, its worker, its words, and what makes the
file.
"""
