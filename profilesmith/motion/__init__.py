"""Motion files: what the printer is really told to do, read from G and M words and held against a ledger.

The data walks: bytes -> lines -> blocks of words -> modal state -> rows of moves -> kinds of line -> figures -> judged
settings. Knows no recipes and no program's remarks; words for people are made by ``review``.
"""
