"""A command of this program, for messages that tell somebody to run it: as it stands, it works."""

from __future__ import annotations

import shlex


def command(words: str, *names: object, library: object = None) -> str:
    """``profilesmith recipe check slow --library club``. names: as they were given; None is left out. library: as it
    was given.
    """
    given = [*(name for name in names if name is not None), *(("--library", library) if library is not None else ())]
    return " ".join(["profilesmith", words, *(shlex.quote(str(item)) for item in given)])
