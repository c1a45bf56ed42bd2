"""In which line of a valid TOML text a key or table stands. Used when something is wrong, and by lint.

``tomllib`` keeps no lines and ``tomlkit`` merges arrays of tables that are written apart, so the headers
are followed here. The text is known to be valid TOML; only line starts and multi-line texts matter.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping

_HEADER = re.compile(r"\s*(\[\[?)\s*(.+?)\s*\]\]?\s*(?:#.*)?$")
_KEY_PART = re.compile(r"""\s*(?:"((?:[^"\\]|\\.)*)"|'([^']*)'|([A-Za-z0-9_-]+))\s*""")
_MULTILINE = ('"""', "'''")


def _key_parts(text: str) -> tuple[tuple[str, ...], str]:
    """The dotted key that a text begins with, and what follows it."""
    parts: list[str] = []
    at = 0
    while found := _KEY_PART.match(text, at):
        parts.append(next(group for group in found.groups() if group is not None))
        at = found.end()
        if text[at : at + 1] != ".":
            break
        at += 1
    return tuple(parts), text[at:]


def index_lines(text: str) -> dict[tuple[str | int, ...], int]:
    """The line, counted from 1, of every table header and every key at the start of a line."""
    lines: dict[tuple[str | int, ...], int] = {}
    seen: Counter[tuple[str | int, ...]] = Counter()
    base: tuple[str | int, ...] = ()
    open_quote = ""
    for number, line in enumerate(text.split("\n"), 1):
        if open_quote:
            open_quote = "" if line.count(open_quote) % 2 else open_quote
            continue
        header = _HEADER.match(line)
        if header and "=" not in re.sub(r'"[^"]*"', "", header.group(2)):
            base, _ = _key_parts(header.group(2))
            if header.group(1) == "[[":
                seen[base] += 1
                base = (*base, seen[base] - 1)
            lines.setdefault(base, number)
            continue
        parts, rest = _key_parts(line)
        if parts and rest.startswith("="):
            lines.setdefault((*base, *parts), number)
        open_quote = next((quote for quote in _MULTILINE if rest.count(quote) % 2), "")
    return lines


def line_of(lines: Mapping[tuple[str | int, ...], int], path: tuple[str | int, ...]) -> int | None:
    """The line of the longest beginning of ``path`` that is in an index; None for none."""
    for length in range(len(path), 0, -1):
        if path[:length] in lines:
            return lines[path[:length]]
    return None
