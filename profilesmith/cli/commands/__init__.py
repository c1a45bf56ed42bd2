"""One command a file, listed in ``cli/app.py``."""
