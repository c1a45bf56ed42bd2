"""Options that are asked for on a terminal where nobody gives them: which of several tools carries the spool, and
what becomes of machine commands in start blocks that heat to the old temperature.
"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Annotated

import typer

from profilesmith.cli.terminal import say_error
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused

if TYPE_CHECKING:
    from profilesmith.engine.derive import Derivation
    from profilesmith.workflows.request import Request

Tools = Annotated[
    int | None,
    typer.Option(
        "--tools",
        metavar="N",
        help="The tool that carries the spool, from 1; the others stay. Else asked on a terminal, and all are changed.",
        show_default=False,
    ),
]


def with_tool(request: Request, tool: int | None) -> Request:
    """The request with the tool in it, as an answer like any other; None for none said. Raises Refused below 1."""
    if tool is None:
        return request
    if tool < 1:
        hint = "Tools are counted from 1; without --tools all are changed."
        raise Refused([Problem("no-such-tool", f"There is no tool {tool}.", Place("--tools"), hint)])
    from profilesmith.ledger.ledger import TOOL

    return request._replace(answers={**request.answers, TOOL: str(tool)})


def asked_tool(derivation: Derivation) -> int:
    """Ask where somebody sits at a terminal and tools were changed that nobody named; 0 for all of them."""
    tools = derivation.review.tools
    if tools is None or tools.chosen or not tools.own or derivation.problems:
        return 0
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        return 0
    say_error(f"The text has {tools.many} tools, and the recipes change {', '.join(tools.own)} for all of them.")
    if tools.shared:
        say_error(f"Whichever it is, these change for all, which share them: {', '.join(tools.shared)}.")
    while True:
        number = typer.prompt(
            f"Which tool carries the spool? (1 to {tools.many}, 0 for all)", default=0, err=True, type=int
        )
        if 0 <= number <= tools.many:
            return int(number)


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
