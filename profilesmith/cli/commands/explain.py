"""``explain``: one setting, every rule that speaks of it."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import say


def explain(
    setting: Annotated[
        str, typer.Argument(metavar="SETTING", help="A setting, such as support.density.", show_default=False)
    ],
    bases: opt.Bases,
    keymap: opt.KeyMap,
    recipe: opt.Recipes = None,
    facts: opt.FactFiles = None,
    answer: opt.Answers = None,
    library: opt.Library = None,
) -> None:
    """Say how one setting came to its value: the text, every rule, every limit."""
    from profilesmith.workflows.explain import explain as run

    say(run(setting, opt.request(bases, keymap, recipe, facts, answer, library)))
