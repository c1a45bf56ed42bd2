"""``keymap``: proposals for a map of a stranger's text, and what a map makes of a text."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import is_terminal, say, say_error

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="Propose and check key maps.")


@app.command()
def suggest(
    bases: opt.Bases,
    out: Annotated[
        Path | None,
        typer.Option(
            "-o",
            "--out",
            metavar="K",
            help="Write the map here; one that exists is brought up to date.",
            show_default=False,
        ),
    ] = None,
    facts: opt.FactFiles = None,
    ask: Annotated[bool, typer.Option("--ask", help="Go through what is to be checked, on a terminal.")] = False,
    accept_checks: Annotated[
        bool, typer.Option("--accept-checks", help="Make what is to be checked active too.")
    ] = False,
    overwrite: Annotated[bool, typer.Option("--overwrite", help="Write a map that exists anew.")] = False,
    form: Annotated[str, typer.Option("--as", metavar="FORM", help="terminal or json.")] = "terminal",
    library: opt.Library = None,
) -> None:
    """Propose a key map for a settings text.

    Which key holds which setting, in which unit, and how sure that is.

    \b
    Example:
      profilesmith keymap suggest base.settings -o my-bench.toml
    """
    import sys

    from profilesmith.cli.forms import form_called
    from profilesmith.reports.key_map import suggestion_json, suggestion_text
    from profilesmith.workflows.suggest import FORMS, MapOrder, suggest, write

    form = form_called(form, FORMS)
    order = MapOrder(tuple(bases), out, tuple(facts or ()), library, accept_checks, overwrite)
    outcome = suggest(order)
    if ask and is_terminal(sys.stdin):
        from profilesmith.cli.ask import gone_through

        outcome = gone_through(outcome)
    elif ask:
        say_error("There is no terminal to ask on: nothing was asked.")
    update = write(order, outcome) if out else None
    written = str(out) if out else ""
    say(
        suggestion_json(outcome, written)
        if form == "json"
        else suggestion_text(outcome, written, update, accept_checks)
    )


@app.command()
def check(
    keymap: Annotated[
        str, typer.Argument(metavar="K", help="The key map: a file, or a name in the library.", show_default=False)
    ],
    bases: opt.Bases,
    form: Annotated[str, typer.Option("--as", metavar="FORM", help="terminal or json.")] = "terminal",
    library: opt.Library = None,
) -> None:
    """Show what a key map makes of a settings text.

    Every binding's value, what is missing, what no binding knows.

    \b
    Example:
      profilesmith keymap check keymap.toml base.settings
    """
    from profilesmith.cli.forms import form_called
    from profilesmith.workflows.keymap import FORMS, check_key_map, in_order

    keymap, texts = in_order(keymap, bases)
    report = check_key_map(opt.request(list(texts), keymap, library=library), form_called(form, FORMS))
    say(report.text)
    if report.code:
        raise typer.Exit(report.code)
