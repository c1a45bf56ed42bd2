"""``recipe``: list, show, check and compare recipes."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.options import offered
from profilesmith.cli.terminal import say

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="List, show, check and compare recipes.")


@app.command("list")
def list_recipes(library: opt.Library = None) -> None:
    """List the recipes.

    \b
    Example:
      profilesmith recipe list
    """
    from profilesmith.reports.recipes import recipes_list
    from profilesmith.workflows.recipes import all_recipes

    say(recipes_list(all_recipes(library), library))


@app.command()
def show(
    recipes: Annotated[
        list[str],
        typer.Argument(
            metavar="R...",
            autocompletion=offered("recipes"),
            help="A recipe: a file or a name. Several make one sheet of the combination.",
            show_default=False,
        ),
    ],
    form: Annotated[
        str, typer.Option("--as", metavar="FORM", help="terminal, or checklist or sheet: for typing in by hand.")
    ] = "terminal",
    library: opt.Library = None,
) -> None:
    """Show every rule with its reason and source.

    \b
    Example:
      profilesmith recipe show flexible-pla
    """
    from profilesmith.cli.forms import form_called
    from profilesmith.reports.recipes import RECIPE_FORMS, recipe_in_full, recipes_sheet
    from profilesmith.workflows.evidence_of import tally_of
    from profilesmith.workflows.recipes import recipes_called

    form = form_called(form, RECIPE_FORMS)
    meant = recipes_called(recipes, library)
    if form == "terminal" and len(meant) == 1:
        say(recipe_in_full(meant[0], recipes[0], tally_of(meant[0], library), library))
    else:
        say(recipes_sheet(meant, form))


@app.command("from-ledger")
def from_ledger(
    derived: Annotated[
        str, typer.Argument(metavar="DERIVED", help="A mended file; its ledger lies beside it.", show_default=False)
    ],
    out: Annotated[str, typer.Option("-o", "--out", metavar="R", help="The recipe's file.", show_default=False)],
    last: Annotated[
        str,
        typer.Option("--last", metavar="better|same|worse", help="What came of the newest mend.", show_default=False),
    ] = "",
    overwrite: opt.Overwrite = False,
    quiet: opt.Quiet = False,
) -> None:
    """Write what helped here as a recipe for others.

    In steps that are applied once.

    \b
    Example:
      profilesmith recipe from-ledger soft-2.settings --last better -o what-helped.toml
    """
    from profilesmith.workflows.from_ledger import recipe_from_ledger

    recipe = recipe_from_ledger(derived, out, last, overwrite)
    if not quiet:
        say("".join(f"{', '.join(rule.named)}: {rule.demand()}\n" for rule in recipe.rules) + f"wrote {out}\n")


@app.command()
def check(
    recipes: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[R...]",
            autocompletion=offered("recipes"),
            help="Recipes; all of the library when none is named.",
            show_default=False,
        ),
    ] = None,
    library: opt.Library = None,
) -> None:
    """Read recipes strictly and run their examples.

    \b
    Example:
      profilesmith recipe check flexible-pla
    """
    from profilesmith.reports.recipes import checked_lines
    from profilesmith.workflows.recipes import check_recipes, exit_code

    checked = check_recipes(tuple(recipes or ()), library)
    say("\n".join(checked_lines(checked)) + "\n")
    if code := exit_code(checked):
        raise typer.Exit(code)


@app.command()
def compare(
    old: Annotated[
        str,
        typer.Argument(
            metavar="OLD",
            autocompletion=offered("recipes"),
            help="The version before: a file or a name.",
            show_default=False,
        ),
    ],
    new: Annotated[
        str,
        typer.Argument(
            metavar="NEW",
            autocompletion=offered("recipes"),
            help="The version now: a file or a name.",
            show_default=False,
        ),
    ],
    on: Annotated[
        list[str] | None,
        typer.Option(
            "--on",
            metavar="PROFILE",
            help="Try both on a profile: a settings text (with --keymap), the name of a reference profile, or 'library'"
            " for all of the library's. May be given several times.",
            show_default=False,
        ),
    ] = None,
    keymap: Annotated[
        str, typer.Option("--keymap", metavar="K", help="The key map that reads the texts of --on.", show_default=False)
    ] = "",
    facts: opt.FactFiles = None,
    answer: opt.Answers = None,
    exit_code: Annotated[bool, typer.Option("--exit-code", help="Exit 1 when they differ.")] = False,
    library: opt.Library = None,
) -> None:
    """Show which rules of a recipe changed.

    Which came, went or changed, in words for a pull request, and what that does to profiles.

    \b
    Example:
      profilesmith recipe compare tpu-95a tpu-85a
    """
    from profilesmith.reports.recipe_changes import compared_text
    from profilesmith.workflows.recipe_compare import compare_recipes

    compared = compare_recipes(old, new, opt.request([], keymap, None, facts, answer, library), on or ())
    say(compared_text(compared))
    if compared.changes.any and exit_code:
        raise typer.Exit(1)
