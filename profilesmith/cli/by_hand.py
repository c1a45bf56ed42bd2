"""What is set by hand on the command line: settings with values, and why."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from profilesmith.cli.options import offered
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused

if TYPE_CHECKING:
    from pathlib import Path

    from profilesmith.workflows.request import Request

Sets = Annotated[
    list[str] | None,
    typer.Option(
        "--set",
        metavar="SETTING=VALUE",
        help="Aim at this value after all recipes, inside all bounds; needs --why. May be given several times.",
        autocompletion=offered("set_values"),
        show_default=False,
    ),
]
Whys = Annotated[
    list[str] | None,
    typer.Option("--why", metavar="TEXT", help="Why it is set: one for all, or one behind each.", show_default=False),
]


def with_by_hand(request: Request, sets: list[str] | None, whys: list[str] | None) -> Request:
    """The request with what was set by hand laid over its recipes. Raises Refused."""
    if not (sets or whys):
        return request
    from profilesmith.workflows.by_hand import by_hand

    return request._replace(laid=by_hand(sets or (), whys or ()) or None)


def need_recipe(request: Request, library: Path | None) -> None:
    """Raises Refused for a call that would change nothing, with the recipes that there are."""
    from profilesmith.library.find import names

    if request.recipes or request.laid:
        return
    known = ", ".join(name for name, _ in names("recipe", library))
    hint = f"Write --recipe NAME, one of {known}; 'profilesmith recipe list' says what each does."
    raise Refused([Problem("no-recipe", "No recipe was named, so nothing would change.", Place("--recipe"), hint)])
