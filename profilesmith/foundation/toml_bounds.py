"""How large, deep, long and many the entries of a TOML file of ours may be: it may be a stranger's, and hostile."""

from __future__ import annotations

import re
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
