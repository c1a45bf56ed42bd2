"""Options that several commands share, and how they become a Request."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from profilesmith.workflows.request import Request

Bases = Annotated[
    list[str],
    typer.Argument(metavar="BASE...", help="The settings text, or several of one machine.", show_default=False),
]
KeyMap = Annotated[
    str,
    typer.Option("--keymap", metavar="K", help="The key map: a file, or a name in the library.", show_default=False),
]
Recipes = Annotated[
    list[str] | None,
    typer.Option(
        "--recipe",
        metavar="R",
        help="A recipe: a file or a name. May be given several times; later ones are more specific.",
        show_default=False,
    ),
]
FactFiles = Annotated[
    list[str] | None,
    typer.Option(
        "--facts",
        metavar="F",
        help="Facts on machine, spool or part: a file or a name. May be given several times.",
        show_default=False,
    ),
]
Answers = Annotated[
    list[str] | None,
    typer.Option("--answer", metavar="NAME=VALUE", help="Answer a recipe's question.", show_default=False),
]
Library = Annotated[
    Path | None,
    typer.Option(
        "--library",
        metavar="FOLDER",
        help="A folder of recipes, maps and facts to look in first. [env: PROFILESMITH_LIBRARY]",
        show_default=False,
    ),
]
Form = Annotated[
    str,
    typer.Option(
        "--as", metavar="FORM", help="How to show it: terminal, markdown, page, json, checklist or checklist-page."
    ),
]
Report = Annotated[
    str,
    typer.Option(
        "--report",
        metavar="FILE",
        help="Write the review to a file too; its ending (.html, .md, .json, .txt) says the form. A name with"
        " 'checklist' in it (checklist.html, checklist.md) asks for a checklist to type in by hand.",
        show_default=False,
    ),
]
Quiet = Annotated[bool, typer.Option("--quiet", "-q", help="Print nothing but errors.")]
Full = Annotated[bool, typer.Option("--full", help="Show every list in full.")]
Sources = Annotated[bool, typer.Option("--sources", help="Name the source behind each consequence and caution.")]
Overwrite = Annotated[bool, typer.Option("--overwrite", help="Replace outputs that exist.")]


def request(
    bases: list[str], key_map: str, recipes: list[str] | None = None, facts: list[str] | None = None,
    answers: list[str] | None = None, library: Path | None = None, follow_literals: bool = False,
) -> Request:  # fmt: skip
    """The Request of a call. Raises Refused for an answer without a name."""
    from profilesmith.foundation.place import Place
    from profilesmith.foundation.problem import Problem, refuse_if
    from profilesmith.workflows.request import Request

    named: dict[str, str] = {}
    problems = []
    for answer in answers or ():
        name, found, value = answer.partition("=")
        if not found:
            message = f"{answer!r} is no answer."
            problems.append(Problem("answer", message, Place("--answer"), "Write NAME=VALUE."))
        named[name.strip()] = value.strip()
    refuse_if(problems)
    return Request(
        bases=tuple(bases), key_map=key_map, recipes=tuple(recipes or ()), facts=tuple(facts or ()), answers=named,
        library=library, follow_literals=follow_literals,
    )  # fmt: skip


def form_of(form: str) -> str:
    """A form that exists. Raises Refused."""
    from profilesmith.foundation.place import Place
    from profilesmith.foundation.problem import Problem, Refused, did_you_mean
    from profilesmith.review.render import RENDERERS

    if form not in RENDERERS:
        hint = did_you_mean(form, RENDERERS, f"Known: {', '.join(RENDERERS)}.")
        raise Refused([Problem("form", f"There is no form {form!r}.", Place("--as"), hint)])
    return form


def report_form(report: str) -> str:
    """The form that a report's name asks for; "" for no report. Raises Refused."""
    from profilesmith.foundation.place import Place
    from profilesmith.foundation.problem import Problem, Refused
    from profilesmith.review.render import ENDINGS, form_of_name

    form = form_of_name(report) if report else ""
    if report and not form:
        hint = f"Known endings: {', '.join(ENDINGS)}."
        raise Refused([Problem("form", f"The ending {Path(report).suffix!r} names no form.", Place("--report"), hint)])
    return form
