"""Proposals for a words map, from the shape of what follows each remark. Shape never judges by itself."""
