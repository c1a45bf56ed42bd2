"""``evidence withdraw``: a print that counts no more, and why."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import say


def withdraw(
    record: Annotated[
        str,
        typer.Argument(
            metavar="ID", help="The id of one of the print's records, as 'evidence list' shows it.", show_default=False
        ),
    ],
    why: Annotated[str, typer.Option("--why", metavar="TEXT", help="Why it counts no more.", show_default=False)],
    by: Annotated[
        str,
        typer.Option("--by", metavar="NAME", help="A name to stand beside it; none without it.", show_default=False),
    ] = "",
    library: opt.Library = None,
    quiet: opt.Quiet = False,
) -> None:
    """Say that a print counts no more, and why.

    Its records stay; a record of its own names them. For all recipes of the print.

    \b
    Example:
      profilesmith evidence withdraw 3f2a --why "It was another spool." --library club
    """
    from profilesmith.reports.evidence import withdrawn_sentence
    from profilesmith.workflows.evidence_withdraw import withdraw as run

    withdrawn = run(record, why, by, library)
    if not quiet:
        say(withdrawn_sentence(withdrawn))
