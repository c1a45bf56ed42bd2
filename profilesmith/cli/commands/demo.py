"""``demo``: the shipped scenario, laid out and derived."""

from __future__ import annotations

import shlex
import sys
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
    from profilesmith.cli.called_as import called_as
    from profilesmith.reports.demo import next_commands
    from profilesmith.review.render import render
    from profilesmith.workflows.demo import run_demo

    result = run_demo(folder)
    if quiet:
        return
    say(render(result.review, "terminal", look()))
    say("")
    say(f"Written to {folder}: {len(result.written)} files; soft.settings is the derived profile.")
    say("Try next:")
    calls = [f"{called_as()} {words}" for words in next_commands(folder)]
    for call in calls:
        say(f"  {call}")
    go_on(calls)


def go_on(calls: list[str]) -> None:
    """Offer to run what is proposed, one call after the other, on a terminal."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return
    for call in calls:
        say("")
        if not typer.confirm(f"Run the next one now?\n  {call}\n", default=False):
            return
        from profilesmith.cli.app import program

        words = shlex.split(call.partition(" ")[2])
        program(words[0])(words, standalone_mode=False)
