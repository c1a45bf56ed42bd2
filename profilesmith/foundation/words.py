"""Counts and lists in words."""

from collections.abc import Iterable


def plural(count: int, one: str, many: str = "") -> str:
    """``1 setting``, ``3 settings``."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def listed(words: Iterable[str], joint: str = "and") -> str:
    """``a, b and c``."""
    items = list(words)
    return f"{', '.join(items[:-1])} {joint} {items[-1]}" if len(items) > 1 else "".join(items)
