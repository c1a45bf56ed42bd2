"""A safe and unique file name for a stranger's name, such as a recipe's.

A name of small letters, digits and hyphens stays as it is. Any other (``../x``, ``con``, ``Slow`` beside ``slow``) gets
a part of its own hash, so that two names never share a file, also where a disk does not tell large letters from small.
"""

from __future__ import annotations

import hashlib
import re

_PLAIN = re.compile(r"[a-z0-9]+(?:[-_][a-z0-9]+)*")
_HASHED = re.compile(r".*-[0-9a-f]{10}")
# Names that some systems give to devices, whatever ending they have; and the one that a folder of pages begins with.
RESERVED = {
    "con",
    "prn",
    "aux",
    "nul",
    "index",
    *(f"{port}{number}" for port in ("com", "lpt") for number in range(10)),
}
LONGEST = 60


def safe_stem(name: str) -> str:
    """The stem of a file for a name. Plain names that look as if they had a hash get one too, so none collides."""
    if len(name) <= LONGEST and _PLAIN.fullmatch(name) and name not in RESERVED and not _HASHED.fullmatch(name):
        return name
    words = re.sub(r"[^a-z0-9]+", "-", name.casefold())[:LONGEST].strip("-") or "recipe"
    return f"{words}-{hashlib.sha256(name.encode('utf-8', 'surrogatepass')).hexdigest()[:10]}"
