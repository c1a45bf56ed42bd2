"""``review``: a stored ledger, shown again."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import look, say, say_error


def review(
    derived: Annotated[
        str,
        typer.Argument(
            metavar="DERIVED", help="A file that 'derive' wrote, with its ledger beside it.", show_default=False
        ),
    ],
    motion: opt.Motion = "",
    words: opt.MotionWords = "",
    form: opt.Form = "terminal",
    full: opt.Full = False,
    exit_code: Annotated[bool, typer.Option("--exit-code", help="Exit with 1 when the file was edited since.")] = False,
) -> None:
    """Show a derived file again, its edits named.

    From the ledger beside it.

    \b
    Example:
      profilesmith review soft.settings
    """
    from profilesmith.cli.forms import form_called
    from profilesmith.review.consequences import lower_first
    from profilesmith.review.reading_notes import since
    from profilesmith.review.render import render
    from profilesmith.workflows.review import review_again

    shown = form_called(form)
    again = review_again(derived, motion, words)
    say(render(again.review, shown, look(full)))
    for text in again.left_out:
        say_error(text)
    for text in again.edited:
        say_error(lower_first(since(text, again.of_hand)))
    if exit_code and again.edited:
        raise typer.Exit(1)
