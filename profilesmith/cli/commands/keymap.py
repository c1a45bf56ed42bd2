"""``keymap``: what a map makes of a text."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import say

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="Check key maps.")


@app.command()
def check(
    keymap: Annotated[str, typer.Argument(metavar="K", help="The key map: a file, or a name in the library.", show_default=False)],
    bases: opt.Bases,
    form: Annotated[str, typer.Option("--as", metavar="FORM", help="terminal or json.")] = "terminal",
    library: opt.Library = None,
) -> None:
    """Read a text through a map: every binding's value, what is missing, what no binding knows."""
    from profilesmith.workflows.keymap import check_key_map

    report = check_key_map(opt.request(bases, keymap, library=library), form)
    say(report.text)
    if report.code:
        raise typer.Exit(report.code)
