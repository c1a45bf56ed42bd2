"""``vocabulary``: the settings and what they mean, and what a trouble may come of."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli.options import offered
from profilesmith.cli.terminal import say


def vocabulary(
    words: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[WORD]...",
            autocompletion=offered("words"),
            help="A setting, a group, a fact, a trouble, or any words of the trade; of several each must be found.",
            show_default=False,
        ),
    ] = None,
) -> None:
    """Find settings, facts and troubles by name or word.

    Meaning, unit, plausible range, words of the trade; of a trouble, what its causes move.

    \b
    Example:
      profilesmith vocabulary stringing
    """
    from profilesmith.reports.vocabulary import described, whole_vocabulary
    from profilesmith.workflows.vocabulary import meant_by

    word = " ".join(words or ())
    say(described(meant_by(word)) if word.strip() else whole_vocabulary())
