"""Which of several tools carries the spool: an option, else a question on a terminal."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Annotated

import typer

from profilesmith.cli.terminal import say_error

if TYPE_CHECKING:
    from profilesmith.engine.derive import Derivation
    from profilesmith.workflows.request import Request

Tools = Annotated[
    int,
    typer.Option(
        "--tools",
        metavar="N",
        min=0,
        help="The tool that carries the spool, from 1; the others stay. Else asked on a terminal, and all are changed.",
        show_default=False,
    ),
]


def with_tool(request: Request, tool: int) -> Request:
    """The request with the tool in it, as an answer like any other; 0 for none said."""
    from profilesmith.ledger.tools import TOOL

    return request._replace(answers={**request.answers, TOOL: str(tool)}) if tool else request


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
