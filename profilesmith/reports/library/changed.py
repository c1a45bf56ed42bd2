"""What was laid out for a library, or taken out of it, in sentences."""

from __future__ import annotations

import shlex
from collections.abc import Iterator

from profilesmith.library.lay_out import EXAMPLE
from profilesmith.library.library import DESCRIPTION
from profilesmith.workflows.library.new_library import LaidOut
from profilesmith.workflows.library.without_example import TakenOut


def laid_out_text(made: LaidOut) -> str:
    return (
        f"{made.name}: {made.number} files in {made.folder}. README.md there says how to go on.\n"
        f"  profilesmith library check {shlex.quote(str(made.folder))}\n"
    )


def taken_out_lines(taken: TakenOut) -> Iterator[str]:
    """What was done and what was kept, file by file."""
    yield from (f"took the reference profile {name!r} out of {DESCRIPTION}" for name in taken.profiles)
    for place in EXAMPLE:
        if place in taken.files:
            yield f"took out {place}"
        elif place in taken.used:
            yield f"kept {place}: another reference profile uses it"
        elif place in taken.changed:
            yield f"kept {place}: it was changed"
