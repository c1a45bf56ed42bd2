"""``python -m tests.benchmarks.patterns``: every pattern of the package on texts made to be hard, at growing lengths.

The figure is how much longer eight times the length takes: about 8 for a linear pattern, 64 for a quadratic one. It is
a ratio of one pattern with itself in this very run; lengths are those that a stranger's file can have.
"""

from __future__ import annotations

import ast
import re
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

PACKAGE = Path(__file__).parents[2] / "profilesmith"
LENGTHS = (1_000, 8_000)
PATIENCE = 5.0  # seconds for one text
QUADRATIC = 24.0
SLOW = 0.02  # seconds: below it, a ratio is noise
FUNCTIONS = {"compile", "match", "search", "fullmatch", "findall", "finditer", "split", "sub"}
PIECES = (
    " ",
    "\t",
    "a",
    "A",
    "1",
    "_",
    ".",
    "/",
    "-",
    '"',
    "'",
    "\\",
    "[",
    "]",
    "(",
    "#",
    ";",
    ",",
    "=",
    ":",
    "a ",
    "a.",
    "1.",
    "aA",
    "M104 ",
    "M104 S1",
    "mm/",
    "mm_s",
    "a_mm",
    '"a',
    '\\"',
    "[a",
    "# ",
    "1:",
    "\r",
    "\n",
    "\r\n",
    "x1 ",
    ", ",
    "at most ",
    "é",
    "²",
)


class Pattern(NamedTuple):
    """file, line: where it is written. methods: how that file uses it."""

    file: str
    line: int
    text: str
    flags: int
    methods: tuple[str, ...]


def patterns() -> Iterator[Pattern]:
    """Every literal pattern that a file of the package hands to ``re``, at once or late."""
    for path in sorted(PACKAGE.rglob("*.py")):
        source = path.read_text(encoding="utf-8")
        for node in ast.walk(ast.parse(source)):
            if not (isinstance(node, ast.Call) and node.args and isinstance(node.args[0], ast.Constant)):
                continue
            owner, _, function = ast.unparse(node.func).partition(".")
            if (owner, function) != ("late", "") and not (owner == "re" and function in FUNCTIONS):
                continue
            rest = [ast.unparse(item) for item in (*node.args[1:], *(word.value for word in node.keywords))]
            flags = re.IGNORECASE if "re.I" in rest else 0
            if isinstance(node.args[0].value, str):
                yield Pattern(
                    str(path.relative_to(PACKAGE)), node.lineno, node.args[0].value, flags, methods(source, node)
                )


def methods(source: str, node: ast.Call) -> tuple[str, ...]:
    """How a pattern is used: where it is written, or by its name anywhere in the file (by all ways when it has
    none).
    """
    if isinstance(node.func, ast.Attribute) and node.func.attr != "compile":
        return (node.func.attr,)
    name = re.match(r"(\w+)(?:: [^=]+)? = (?:re|late)\b", source.split("\n")[node.lineno - 1])
    found = set(re.findall(rf"\b{name[1]}\.(\w+)\(", source)) & FUNCTIONS if name else set()
    return tuple(sorted(found)) or ("match", "search")


def uses(pattern: Pattern) -> list[Callable[[str], object]]:
    made = re.compile(pattern.text, pattern.flags)
    ways: dict[str, Callable[[str], object]] = {
        "match": made.match,
        "fullmatch": made.fullmatch,
        "search": made.search,
        "split": made.split,
        "findall": made.findall,
        "sub": lambda text: made.sub("", text),
        "finditer": lambda text: sum(1 for _ in made.finditer(text)),
    }
    return [ways[name] for name in pattern.methods]


def seconds(use: Callable[[str], object], text: str) -> float:
    begun = time.perf_counter()
    use(text)
    return time.perf_counter() - begun


def hardest(pattern: Pattern) -> tuple[float, float, str]:
    """The largest ratio, the seconds of the longer text, and the piece that it was made of."""
    worst = (0.0, 0.0, "")
    for use in uses(pattern):
        for piece in PIECES:
            for head, tail in (("", "\x00"), ("a = ", "!")):
                short, long = (head + piece * (length // len(piece)) + tail for length in LENGTHS)
                first = min(seconds(use, short) for _ in range(2))
                if first > PATIENCE:
                    return (float("inf"), first, piece)
                later = seconds(use, long)
                if later > SLOW:  # once more: another program may have held this one up
                    later = min(later, seconds(use, long))
                if later > SLOW and later / max(first, 1e-6) > worst[0]:
                    worst = (later / max(first, 1e-6), later, piece)
                if worst[0] > QUADRATIC:
                    return worst
    return worst


def main() -> int:
    count = steep = 0
    for pattern in patterns():
        ratio, longest, piece = hardest(pattern)
        count += 1
        steep += ratio > QUADRATIC
        mark = "steep" if ratio > QUADRATIC else ""
        if ratio:
            print(
                f"{pattern.file}:{pattern.line:<5} {ratio:8.1f} times as long, {longest * 1000:9.1f} ms, "
                f"{piece!r:<10} {mark} {pattern.text[:60]}"
            )
    print(
        f"{count} patterns, {steep} that grow faster than their text; the others not named took "
        f"less than {SLOW * 1000:.0f} ms"
    )
    return 1 if steep else 0


if __name__ == "__main__":
    sys.exit(main())
