"""Headings with a number before their name: ``.--- 1 --- Nozzle ---.``, ``3. Walls``.

Comes in: lines. Goes out: forms of ``headings`` in ``[text]``, with ``{number}`` in place of the number.
"""

import re
from collections.abc import Iterator

from profilesmith.text.heading_forms import NUMBER, PLACE

_NUMBERED = re.compile(
    r"(?P<before>[^\w\s]{0,2}?(?:([-=*~#+.])\2+)?)\s*(?:\d{1,3}|[IVX]{1,5}|[A-Z](?=[.):]))"
    r"(?P<mid>[.):]?\s*(?:[-=*~]{2,}|[–—])?)\s*"
    r"(?P<name>[^\W\d_].*?)\s*(?P<after>(?:([-=*~])\6*[.+|]?)?)\Z"
)


def numbered_forms(body: str) -> Iterator[tuple[str, str]]:
    """The forms that a line may have and the name in it; a form that something closes is one without that too."""
    match = _NUMBERED.fullmatch(body)
    if match and (match["before"] + match["mid"]).strip():
        # Two blanks in a form would part the names of columns.
        before = " ".join(f"{_short(match['before'])} {NUMBER}{_short(match['mid'])} {PLACE}".split())
        yield f"{before} {_short(match['after'])}".strip(), match["name"]
        if match["after"]:
            yield before, match["name"]


def _short(signs: str) -> str:
    """Rows of signs as two of them."""
    text = re.sub(r"([^\w\s])\1+", r"\1\1", signs.rstrip())
    return f" {text.strip()}" if signs[:1].isspace() else text
