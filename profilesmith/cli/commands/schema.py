"""``schema``: JSON Schemas of the files, for editors and other programs."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.options import offered
from profilesmith.cli.terminal import say


def schema(
    name: Annotated[
        str,
        typer.Argument(
            metavar="[NAME]",
            autocompletion=offered("schemas"),
            help="recipe, keymap, facts, library, evidence, troubles, coupon, coupon-log, ledger or lint.",
        ),
    ] = "",
    quiet: opt.Quiet = False,
) -> None:
    """Print the JSON Schema of a kind of file.

    Without a name they are listed.

    \b
    Example:
      profilesmith schema recipe
    """
    from profilesmith.reports.schema import schemas_list
    from profilesmith.workflows.schema import schema_text

    text = schema_text(name) if name else schemas_list()
    if not quiet:
        say(text)
