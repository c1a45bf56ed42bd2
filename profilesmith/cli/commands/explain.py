"""``explain``: one setting, every rule that speaks of it."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.options import offered
from profilesmith.cli.terminal import say


def explain(
    setting: Annotated[
        str,
        typer.Argument(
            metavar="SETTING",
            autocompletion=offered("settings"),
            help="A setting, such as support.density.",
            show_default=False,
        ),
    ],
    bases: opt.Bases,
    keymap: opt.MapIfUnknown = "",
    recipe: opt.Recipes = None,
    facts: opt.FactFiles = None,
    answer: opt.Answers = None,
    shares: opt.Shares = "",
    library: opt.Library = None,
) -> None:
    """Tell how one setting came to its value.

    The text, every rule, every limit. Of a derived file its ledger tells it.

    \b
    Example:
      profilesmith explain support.density base.settings --keymap keymap.toml --recipe flexible-pla
    """
    from profilesmith.reports.explain import explained_text
    from profilesmith.workflows.explain import explain as run

    asked = opt.request(bases, keymap, recipe, facts, answer, library, shares=shares)
    say(explained_text(run(setting, asked)))
