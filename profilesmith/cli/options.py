"""Options that several commands share, and how they become a Request."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from profilesmith.cli.terminal import say_error
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if

if TYPE_CHECKING:
    from profilesmith.workflows.request import Request


_A_SHELL_ASKS = any(name.endswith("_COMPLETE") for name in os.environ)


def offered(words: str) -> Callable[..., list[str]] | None:
    """What a shell offers behind an option: a function of complete.py, by its name. None where no shell asks: typer
    looks through the signature of each at every start.
    """
    if not _A_SHELL_ASKS:
        return None
    from profilesmith.cli import complete

    offers: Callable[..., list[str]] = getattr(complete, words)
    return offers


Bases = Annotated[
    list[str],
    typer.Argument(metavar="BASE...", help="The settings text, or several of one machine.", show_default=False),
]
KeyMap = Annotated[
    str,
    typer.Option(
        "--keymap",
        metavar="K",
        help="The key map: a file, or a name in the library.",
        autocompletion=offered("key_maps"),
        show_default=False,
    ),
]
MapIfUnknown = Annotated[
    str,
    typer.Option(
        "--keymap",
        metavar="K",
        help="The key map; a derived file's ledger beside it knows it.",
        autocompletion=offered("key_maps"),
        show_default=False,
    ),
]
Recipes = Annotated[
    list[str] | None,
    typer.Option(
        "--recipe",
        metavar="R",
        help="A recipe: a file or a name. May be given several times; later ones are more specific.",
        autocompletion=offered("recipes"),
        show_default=False,
    ),
]
FactFiles = Annotated[
    list[str] | None,
    typer.Option(
        "--facts",
        metavar="F",
        help="Facts on machine, spool or part: a file or a name. May be given several times.",
        autocompletion=offered("fact_files"),
        show_default=False,
    ),
]
Answers = Annotated[
    list[str] | None,
    typer.Option(
        "--answer",
        metavar="NAME=VALUE",
        help="Answer a recipe's question.",
        autocompletion=offered("answers"),
        show_default=False,
    ),
]


def _a_library(value: Path | None) -> Path | None:
    """Any command refuses a library that is named and is none, also one that comes to look nothing up in it."""
    from profilesmith.library.find import named_library

    named_library(value)
    return value


Library = Annotated[
    Path | None,
    typer.Option(
        "--library",
        callback=_a_library,
        metavar="FOLDER",
        help="A folder of recipes, maps and facts to look in first. [env: PROFILESMITH_LIBRARY]",
        show_default=False,
    ),
]
Form = Annotated[
    str,
    typer.Option(
        "--as",
        metavar="FORM",
        autocompletion=offered("forms"),
        help="How to show it: terminal, html, md, json, checklist or sheet (every value).",
    ),
]
Reports = Annotated[
    list[str] | None,
    typer.Option(
        "--report",
        metavar="FILE",
        help="Write the review to a file too; its ending (.html, .md, .json, .txt) says the form, and the word"
        " before it: x-checklist.html or checklist.md is a checklist to type in by hand, x-sheet.html holds"
        " every value."
        " May be given several times.",
        show_default=False,
    ),
]
Motion = Annotated[
    str,
    typer.Option(
        "--motion", metavar="FILE", help="The motion file of this print: its hours, grams and flow.", show_default=False
    ),
]
OldMotion = Annotated[
    str,
    typer.Option(
        "--motion", metavar="FILE", help="The motion file of the print with BASE: its hours, grams.", show_default=False
    ),
]
MotionWords = Annotated[
    str, typer.Option("--words", metavar="W", help="The words map of the motion file.", show_default=False)
]
Quiet = Annotated[bool, typer.Option("--quiet", "-q", help="Print nothing but errors.")]
Full = Annotated[bool, typer.Option("--full", help="Show every list in full.")]
Shares = Annotated[
    str,
    typer.Option(
        "--shares",
        metavar="keep|follow",
        help=(
            "A share whose reference moves: rewrite it so that its value stays, or let it follow. Else as the map says."
        ),
        show_default=False,
    ),
]
Sources = Annotated[bool, typer.Option("--sources", help="Name the source behind each consequence and caution.")]
DryRun = Annotated[bool, typer.Option("--dry-run", help="Show the review, write nothing.")]
DRY = "Dry run: nothing was written."
Overwrite = Annotated[bool, typer.Option("--overwrite", help="Replace outputs that exist.")]
DiscardEdits = Annotated[
    bool, typer.Option("--discard-edits", help="With --overwrite: lose hand edits in them, and say which.")
]


def request(
    bases: list[str],
    key_map: str,
    recipes: list[str] | None = None,
    facts: list[str] | None = None,
    answers: list[str] | None = None,
    library: Path | None = None,
    follow_literals: bool = False,
    shares: str = "",
) -> "Request":
    """The Request of a call. Raises Refused for an answer without a name."""
    from profilesmith.workflows.request import Request

    named: dict[str, str] = {}
    problems = []
    for answer in answers or ():
        name, sign, value = answer.partition("=")
        if not sign:
            message = f"{answer!r} is not an answer."
            problems.append(
                Problem(
                    "answer", message, Place("--answer"), "Write NAME=VALUE, such as --answer machine.drive=direct."
                )
            )
        named[name.strip()] = value.strip()
    refuse_if(problems)
    return Request(
        bases=tuple(bases),
        key_map=key_map,
        recipes=tuple(recipes or ()),
        facts=tuple(facts or ()),
        answers=named,
        library=library,
        follow_literals=follow_literals,
        shares=shares_way(shares),
    )


def shares_way(way: str) -> str:
    """What becomes of shares, as it was asked. Raises Refused."""
    from profilesmith.translation.key_map import WAYS

    if way and way not in WAYS:
        raise Refused([Problem("shares", f"{way!r} is not known.", Place("--shares"), "Write keep or follow.")])
    return way


def refuse_idle(quiet: bool, named: bool, dry_run: bool) -> None:
    """Raises Refused for a call that would neither write nor print. named: there is a file to be written."""

    if quiet and not named and not dry_run:
        message, hint = (
            "This call would neither write nor print.",
            "Name the derived file with -o OUT, or leave -q out.",
        )
        raise Refused([Problem("idle-call", message, Place("--quiet"), hint)])


def measured(request: "Request", motion: str, words: str, old: bool) -> "Request":
    """The request with what a motion file tells, and words on what it does not. Raises Refused.

    Where none is named, its forty files are not loaded.
    """
    if not motion:
        return request
    from profilesmith.review.motion.left_out import left_out
    from profilesmith.workflows.motion.measured import with_motion

    with_figures = with_motion(request, motion, words, old)
    for text in left_out(motion, with_figures.measured.before if old else with_figures.measured.after):
        say_error(text)
    return with_figures
