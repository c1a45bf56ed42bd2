"""Lossless key=value text. Knows bytes, lines and spans; never what a key means."""
