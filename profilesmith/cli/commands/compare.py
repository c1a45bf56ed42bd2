"""``compare``: two profiles, also through two maps."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.options import offered
from profilesmith.cli.terminal import look, say


def compare(
    old: Annotated[str, typer.Argument(metavar="OLD", help="One settings text.", show_default=False)],
    new: Annotated[str, typer.Argument(metavar="NEW", help="The other settings text.", show_default=False)],
    keymap: opt.MapIfUnknown = "",
    facts: opt.FactFiles = None,
    new_keymap: Annotated[
        str, typer.Option("--new-keymap", metavar="K2", help="The map of NEW, where it differs.", show_default=False)
    ] = "",
    only: Annotated[
        str,
        typer.Option(
            "--only",
            metavar="GROUP",
            autocompletion=offered("groups"),
            help="Only one area (speeds, heat, supports, ...) or group.",
            show_default=False,
        ),
    ] = "",
    form: opt.Form = "terminal",
    quiet: opt.Quiet = False,
    full: opt.Full = False,
    sources: opt.Sources = False,
    exit_code: Annotated[bool, typer.Option("--exit-code", help="Exit with 1 when anything differs.")] = False,
    library: opt.Library = None,
) -> None:
    """Show what differs between two settings texts.

    In the same words and units, also through two maps, and what follows for the print.

    \b
    Example:
      profilesmith compare base.settings soft.settings --keymap keymap.toml --only heat
    """
    from profilesmith.cli.forms import form_called
    from profilesmith.cli.terminal import busy
    from profilesmith.review.render import render
    from profilesmith.workflows.compare import compare as run

    shown = form_called(form)
    sides = (
        opt.request([old], keymap, facts=facts, library=library),
        opt.request([new], new_keymap or keymap, library=library),
    )
    with busy("comparing", quiet):
        review = run(*sides, only)
    if not quiet:
        say(render(review, shown, look(full)._replace(sources=sources)))
    if exit_code and (review.count() or review.others):
        raise typer.Exit(1)
