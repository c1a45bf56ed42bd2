"""What becomes of machine commands in start blocks that heat to the old temperature: an option, else a question."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Annotated

import typer

from profilesmith.cli.terminal import say_error
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused

if TYPE_CHECKING:
    from profilesmith.engine.derive import Derivation

FOLLOW, KEEP = "follow", "keep"
StartBlock = Annotated[
    str,
    typer.Option(
        "--start-block",
        metavar="follow|keep",
        help="Machine commands in start blocks that heat to the old temperature: change them too, or leave them. "
        "Else asked on a terminal, and left elsewhere.",
        show_default=False,
    ),
]
FollowLiterals = Annotated[bool, typer.Option("--follow-literals", hidden=True)]


def start_block_way(way: str, follow_literals: bool) -> str:
    """``follow``, ``keep`` or "" where nobody said it. Raises Refused."""

    if way not in ("", FOLLOW, KEEP):
        raise Refused(
            [Problem("start-block", f"{way!r} is not known.", Place("--start-block"), "Write follow or keep.")]
        )
    return way or (FOLLOW if follow_literals else "")


def wants_to_follow(derivation: Derivation) -> bool:
    """Ask, with the lines shown, where somebody sits at a terminal and a command could follow."""

    lines = [str(item) for item in derivation.review.literals if item.can_follow]
    if not lines or derivation.problems or not (sys.stdin.isatty() and sys.stderr.isatty()):
        return False
    say_error("These machine commands in start blocks still heat to the old temperature:")
    for line in lines:
        say_error(f"  {line}")
    return typer.confirm("Change them too?", default=True, err=True)
