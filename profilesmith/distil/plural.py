"""Counts in words."""


def plural(count: int, one: str) -> str:
    """``1 pair``, ``3 pairs``."""
    return f"{count} {one if count == 1 else one + 's'}"
