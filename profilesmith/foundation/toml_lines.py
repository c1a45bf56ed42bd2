"""In which line of a valid TOML text a key or table stands. Used when something is wrong, and for rules and bindings.

``tomllib`` keeps no lines and ``tomlkit`` merges arrays of tables that are written apart, so the headers are
followed here. The text is known to be valid TOML; only line starts, open brackets and multi-line texts matter.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from profilesmith.foundation.late_pattern import late

Path = tuple[str | int, ...]

# A text that is not closed reaches to the end of its line, so that no place is looked at twice.
_QUOTED = late(r"""\"(?:[^"\\]|\\.)*(?:"|\\?$)|'[^']*(?:'|$)|#.*""")
# Most lines: a bare key and a value that is whole in itself.
_WHOLE = late(r"""([A-Za-z0-9_-]++)[ \t]*+=[ \t]*+(?:"[^"\\]*+"[ \t\r]*+|[^"'\[\]{}]*+)""")
_KEY_PART = late(r"""\s*(?:"((?:[^"\\]|\\.)*)"|'([^']*)'|([A-Za-z0-9_-]+))\s*""")


def _header(line: str) -> tuple[str, tuple[str, ...]]:
    """The brackets that open a header and its dotted key; ("", ()) for any other line. No pattern: a long line of
    blanks and signs would make one try again from every place."""
    line = line.strip(" \t\r")
    opening = "[[" if line.startswith("[[") else "[" if line.startswith("[") else ""
    parts, rest = _key_parts(line[len(opening) :]) if opening else ((), "")
    return (opening, parts) if parts and rest.startswith("]") else ("", ())


def _key_parts(text: str) -> tuple[tuple[str, ...], str]:
    """The dotted key that a text begins with, and what follows it."""
    parts: list[str] = []
    at = 0
    while match := _KEY_PART.match(text, at):
        parts.append(next(group for group in match.groups() if group is not None))
        at = match.end()
        if text[at : at + 1] != ".":
            break
        at += 1
    return tuple(parts), text[at:]


class _Index:
    """Where the walk is: the table it is in, and what a value that began above has left open."""

    def __init__(self) -> None:
        self.lines: dict[Path, int] = {}
        self.counts: Counter[Path] = Counter()
        self.base: Path = ()
        self.quote = ""
        self.depth = 0

    def placed(self, parts: tuple[str, ...]) -> Path:
        """A header's path with the number of the last table wherever it leads through an array of tables."""
        path: Path = ()
        for part in parts:
            path = (*path, part)
            if path in self.counts and path != parts:
                path = (*path, self.counts[path] - 1)
        return path

    def header(self, number: int, opening: str, parts: tuple[str, ...]) -> None:
        path = self.placed(parts)
        if opening == "[[":
            path = path[:-1] if path and isinstance(path[-1], int) else path
            self.counts[path] += 1
            path = (*path, self.counts[path] - 1)
        self.base = path
        self.lines.setdefault(path, number)

    def value(self, text: str) -> None:
        """Follow the brackets and multi-line quotes that a value opens and closes in a line."""
        if not self.quote and '"""' not in text and "'''" not in text:
            bare = _QUOTED.sub("", text)
            self.depth += bare.count("[") + bare.count("{") - bare.count("]") - bare.count("}")
            return
        at = 0
        if self.quote:
            end = text.find(self.quote)
            if end < 0:
                return
            at, self.quote = end + 3, ""
        while at < len(text):
            sign, triple = text[at], text[at : at + 3]
            if triple in ('"""', "'''"):
                end = text.find(triple, at + 3)
                if end < 0:
                    self.quote = triple
                    return
                at = end + 2
            elif sign in "\"'":
                at = _quote_end(text, at)
            elif sign == "#":
                return
            self.depth += (sign in "[{") - (sign in "]}")
            at += 1


def _quote_end(text: str, at: int) -> int:
    """The offset of the quote that closes the one at an offset."""
    quote, end = text[at], at + 1
    while end < len(text) and text[end] != quote:
        end += 2 if text[end] == "\\" and quote == '"' else 1
    return end


def index_lines(text: str) -> dict[Path, int]:
    """The line, counted from 1, of every table header and every key at the start of a line."""
    index = _Index()
    for number, line in enumerate(text.split("\n"), 1):
        if index.quote or index.depth > 0:
            index.value(line)
            continue
        if whole := _WHOLE.fullmatch(line):
            index.lines.setdefault((*index.base, whole[1]), number)
            continue
        opening, header = _header(line)
        if opening:
            index.header(number, opening, header)
            continue
        parts, rest = _key_parts(line)
        if parts and rest.startswith("="):
            index.lines.setdefault((*index.base, *parts), number)
            index.value(rest[1:])
    return index.lines


def header_lines(text: str, key: str, count: int) -> tuple[int, ...]:
    """The lines of the headers ``[[key]]``, in a fiftieth of the time that all lines take; () where these are not the
    ``count`` tables of that array: some are written otherwise, or a text over several lines might look like one.
    """
    if _may_mislead(text):
        return ()
    header = f"[[{key}]]"
    lines = [at for at, line in enumerate(text.split("\n"), 1) if line[:2] == "[[" and line.rstrip(" \t\r") == header]
    return tuple(lines) if len(lines) == count else ()


def key_line(text: str, table: str, key: str) -> int:
    """The line of ``key = ...`` below ``[table]``, as short a way; 0 where it does not stand there plainly written."""
    header, below = f"[{table}]", False
    for number, line in enumerate(() if _may_mislead(text) else text.split("\n"), 1):
        if not below:
            below = line.rstrip(" \t\r") == header
        elif line.startswith(key) and line[len(key) :].lstrip(" \t")[:1] == "=":
            return number
        elif line[:1] == "[" or line.count("[") != line.count("]") or line.count("{") != line.count("}"):
            return 0  # another table, or a value that goes on below
    return 0


def _may_mislead(text: str) -> bool:
    """Whether a text over several lines may hold what looks like a header or a key."""
    return '"""' in text or "'''" in text


def line_of(lines: Mapping[Path, int], path: Path) -> int | None:
    """The line of the longest beginning of ``path`` that is in an index; None for none."""
    for length in range(len(path), 0, -1):
        if path[:length] in lines:
            return lines[path[:length]]
    return None
