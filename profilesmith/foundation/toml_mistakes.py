"""What to say of a file that is not the TOML that was asked for: the line that breaks it, or the kind that it is
instead; and how large, deep, long and many its entries may be: it may be a stranger's, and hostile.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem

LARGEST_FILE = 1_000_000  # bytes; a recipe, map or facts file is a page or two
DEEPEST = 12
MOST_ENTRIES = 50_000  # keys and list items; 2,000 bindings of ten keys each are 20,000
LONGEST_KEY = 200
LARGEST_WHOLE = 10**18  # TOML 1.0: whole numbers of 64 bits; longer ones cannot even be shown
MOST_PARTS = 40  # of a dotted key; more are nested too deeply anyway, and readers take time by the square of them


def most_parts(text: str) -> int:
    """How many parts the longest dotted key of a text may have; words joined in a text count as well. 0: too few to
    look at.
    """
    if max(line.count(".") for line in text.split("\n")) <= MOST_PARTS:  # a key ends with its line
        return 0

    chain = re.compile(r"""(?:[\w-]++|"[^"\n]*+"|'[^'\n]*+')(?:[ \t]*+\.[ \t]*+(?:[\w-]++|"[^"\n]*+"|'[^'\n]*+'))*+""")
    return max((match.group().count(".") for match in chain.finditer(text) if match.group()[0] not in "\"'"), default=0)


def out_of_bounds(content: dict[str, Any], name: str, form: str) -> Problem | None:
    """What is nested too deeply, too long or too many, whatever the form."""
    level: list[Any] = [content]
    count = 0
    for depth in range(1, DEEPEST + 1):
        below: list[Any] = []
        for item in level:
            if isinstance(item, int) and abs(item) > LARGEST_WHOLE:
                return Problem("toml", f"The {form} holds a number that is far too long.", Place(name), "Shorten it.")
            if not item or not isinstance(item, dict | list):
                continue
            if isinstance(item, dict) and max(map(len, item)) > LONGEST_KEY:
                message = f"The {form} has a key of more than {LONGEST_KEY} letters."
                return Problem("too-long", message, Place(name), "Shorten it.")
            if depth == DEEPEST:
                return Problem("too-deep", f"The {form} is nested too deeply.", Place(name), "Flatten it.")
            count += len(item)
            children = item.values() if isinstance(item, dict) else item
            below += [child for child in children if not isinstance(child, str)]  # most are texts
        if count > MOST_ENTRIES:
            message = f"The {form} has more than {MOST_ENTRIES:,} entries."
            return Problem("too-many", message, Place(name), f"A {form} is a page or two of TOML.")
        level = below
    return None


KINDS: Mapping[str, tuple[str, ...]] = {
    "recipe": ("recipe", "rule"),
    "key map": ("keymap", "binding"),
    "facts file": ("machine", "spool", "part"),
    "library description": ("library", "profile"),
    "order": ("order", "job"),
    "words map": ("words", "line", "word", "practice"),
    "plan": ("plan", "factor"),
}
"""The word for each kind of file of ours, and the tables that it alone has; the first is the telling one."""
GIVEN_BY = {"recipe": "--recipe", "key map": "--keymap", "facts file": "--facts"}
LONGEST_LINE = 80
_BARE = r"^\s*([\w.\"-]+)\s*=\s*([^\s\"'\[{#][^#]*?)\s*(#.*)?$"  # compiled when a file has a mistake


def kind_of(tables: Iterable[str]) -> str:
    """Which kind of file has these tables at its top; "" for none."""
    present = set(tables)
    return next((kind for kind, (telling, *_) in KINDS.items() if telling in present), _by_others(present))


def _by_others(present: set[str]) -> str:
    return next((kind for kind, tables in KINDS.items() if present & set(tables)), "")


def another_kind(content: Mapping[str, Any], name: str, form: str) -> Problem | None:
    """The problem of a file of ours that is of another kind than the one that was asked for."""
    if form not in KINDS or set(KINDS[form]) & content.keys():
        return None
    kind = kind_of(content)
    if not kind:
        return None
    hint = f"Give it with {GIVEN_BY[kind]}." if kind in GIVEN_BY else f"Name a {form} here."
    return Problem("wrong-kind", f"This is {_a(kind)}, not {_a(form)}.", Place(name), hint)


def empty_file(content: Mapping[str, Any], name: str, form: str) -> Problem:
    """The problem of a file in which nothing stands. content: so, empty."""
    message = f"The {form} says nothing: it is empty, or all of it is remarks."
    hint = f"Name {_a(form)} here; it begins with format = 1{_proposed('TEXT', form)}."
    return Problem("empty-file", message, Place(name), hint)


def _proposed(name: str, form: str) -> str:
    return f"; 'profilesmith keymap suggest {name}' proposes one for a settings text" if form == "key map" else ""


def broken_line(text: str, name: str, form: str, message: str) -> Problem:
    """The problem of a text that is no TOML. message: the reader's own, ``... (at line 3, column 8)``."""
    spot = re.search(r"\(at line (\d+), column (\d+)\)", message)
    words = message.partition(" (at ")[0]
    lines = text.split("\n")
    number = int(spot.group(1)) if spot else len(lines)
    line = lines[number - 1].strip() if number <= len(lines) else ""
    shown = line if len(line) <= LONGEST_LINE else line[: LONGEST_LINE - 1] + "…"
    if not re.search(r"^\s*format\s*=", text, re.M):
        message = f"This is not {_a(form)}: it does not say format = 1, and this line is not TOML: {shown!r}."
        return Problem("toml", message, Place(name, number), f"Name {_a(form)} here{_proposed(name, form)}.")
    if words == "Cannot overwrite a value":
        twice = _twice(lines, number)
        if twice:
            message = f"The key {twice[0]!r} is there twice, in line {twice[1]} and here."
            return Problem("toml", message, Place(name, number), "Take one of the two lines out.")
    return Problem("toml", f"This line is not valid TOML ({words}): {shown!r}.", Place(name, number), _fix(line))


def _twice(lines: list[str], number: int) -> tuple[str, int] | None:
    """The key of a line, and the earlier line of the same table with that key."""
    key = lines[number - 1].partition("=")[0].strip() if number <= len(lines) else ""
    for earlier in range(number - 1, 0, -1):
        line = lines[earlier - 1].lstrip()
        if line.startswith("["):
            return None
        if key and "=" in line and line.partition("=")[0].strip() == key:
            return key, earlier
    return None


def _fix(line: str) -> str:
    bare = re.match(_BARE, line)
    if bare:
        value = bare.group(2).replace("\\", "\\\\").replace('"', '\\"')
        return f'Text needs quotes, as in {bare.group(1)} = "{value}".'
    if line.count('"') % 2:
        return "A quote is opened and not closed: close it."
    return 'Write the line as key = "text", key = 1.5, key = ["a", "b"] or [table].'


def _a(kind: str) -> str:
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"
