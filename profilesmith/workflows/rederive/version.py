"""Which of two semantic versions is the newer one (Semantic Versioning 2.0.0, item 11)."""

from __future__ import annotations

Rank = tuple[tuple[int, ...], bool, tuple[tuple[bool, int, str], ...]]


def rank(version: str) -> Rank:
    """Something to compare by. Build metadata (``+...``) counts for nothing; ``1.0.0-rc.1`` comes before ``1.0.0``."""
    core, _, early = version.partition("+")[0].partition("-")
    numbers = tuple(int(part) if part.isascii() and part.isdigit() else 0 for part in core.split("."))
    parts = tuple(
        (False, int(part), "") if part.isascii() and part.isdigit() else (True, 0, part)  # numbers come before words
        for part in early.split(".")
    )
    return numbers, not early, parts if early else ()


def newer(version: str, than: str) -> bool:
    """Whether a version is newer than another."""
    return rank(version) > rank(than)
