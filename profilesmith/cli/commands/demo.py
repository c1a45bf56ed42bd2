"""``demo``: the shipped scenario, laid out and derived."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import look, say


def demo(
    folder: Annotated[
        str, typer.Argument(metavar="[FOLDER]", help="Where to lay it out; made when it does not exist.")
    ] = "profilesmith-demo",
    quiet: opt.Quiet = False,
) -> None:
    """Lay out a demo and derive a soft profile in it.

    \b
    Example:
      profilesmith demo heron
    """
    from profilesmith.review.render import render
    from profilesmith.workflows.demo import run_demo

    result = run_demo(folder)
    if quiet:
        return
    say(render(result.review, "terminal", look()))
    say("")
    say("Written:")
    for path in result.written:
        say(f"  {path}")
    say("")
    say(f"Try next, after 'cd {folder}':")
    for command in result.next_commands:
        say(f"  {command}")
