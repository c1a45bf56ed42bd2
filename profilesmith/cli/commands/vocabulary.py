"""``vocabulary``: the settings and what they mean."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import complete
from profilesmith.cli.terminal import say


def vocabulary(
    word: Annotated[
        str,
        typer.Argument(
            metavar="[WORD]", autocompletion=complete.words, help="A setting, a group, or any word of the trade."
        ),
    ] = "",
) -> None:
    """Find settings and facts by name or word.

    Meaning, unit, plausible range, words of the trade.

    \b
    Example:
      profilesmith vocabulary overhang
    """
    from profilesmith.workflows.vocabulary import describe

    say(describe(word))
