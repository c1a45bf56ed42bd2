"""``recipe``: list, show and check recipes."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import say

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="List, show, check and compare recipes.")


@app.command("list")
def list_recipes(library: opt.Library = None) -> None:
    """List the recipes.

    \b
    Example:
      profilesmith recipe list
    """
    from profilesmith.workflows.recipes import list_recipes as run

    say(run(library))


@app.command()
def show(
    recipe: Annotated[str, typer.Argument(metavar="R", help="A recipe: a file or a name.", show_default=False)],
    form: Annotated[
        str, typer.Option("--as", metavar="FORM", help="terminal or checklist: for typing in by hand.")
    ] = "terminal",
    library: opt.Library = None,
) -> None:
    """Show every rule with its reason and source.

    \b
    Example:
      profilesmith recipe show flexible-pla
    """
    from profilesmith.cli.forms import form_called
    from profilesmith.workflows.recipes import RECIPE_FORMS, show_recipe

    say(show_recipe(recipe, library, form_called(form, RECIPE_FORMS)))


@app.command()
def check(
    recipes: Annotated[
        list[str] | None,
        typer.Argument(metavar="[R...]", help="Recipes; all of the library when none is named.", show_default=False),
    ] = None,
    library: opt.Library = None,
) -> None:
    """Read recipes strictly and run their examples.

    \b
    Example:
      profilesmith recipe check flexible-pla
    """
    from profilesmith.workflows.recipes import check_recipes

    text, code = check_recipes(tuple(recipes or ()), library)
    say(text)
    if code:
        raise typer.Exit(code)
