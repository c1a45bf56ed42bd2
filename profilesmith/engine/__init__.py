"""Names and bytes in, bytes and data out: what every door (the command line, a page in a browser) is a door to.

Nothing here or below knows a path, a file, a process or an option; ``tests/house/test_engine.py`` holds that.
"""
