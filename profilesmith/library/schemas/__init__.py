"""JSON Schemas of our files: templates from ``knowledge/``, filled with what the vocabulary, the facts and the units
know.

What depends on no vocabulary stands in the templates. So a new setting is in the schemas at once, and nothing has to be
kept up by hand. Whether a file is right is decided by the loaders; ``tests/library`` holds schemas and loaders
together.
"""
