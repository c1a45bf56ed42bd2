"""``evidence``: record how a print went, and list what is recorded."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.commands.evidence_withdraw import withdraw
from profilesmith.cli.terminal import say, say_error

if TYPE_CHECKING:
    from profilesmith.workflows.request import Request

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="Record how prints went.")
GRADE = {"metavar": "good|fair|poor", "show_default": False}


@app.command()
def add(
    outcome: Annotated[
        str,
        typer.Option("--outcome", metavar="worked|partly|failed", help="How the print came out.", show_default=False),
    ],
    recipe: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[RECIPE]...",
            help=(
                "The recipes that were printed with: files or names. With --derived: those of its ledger "
                "when none is named."
            ),
            show_default=False,
        ),
    ] = None,
    derived: Annotated[
        str,
        typer.Option(
            "--derived",
            metavar="FILE",
            help="The derived file that was printed, as it is now: its ledger knows recipes, base and facts.",
            show_default=False,
        ),
    ] = "",
    values: Annotated[
        str,
        typer.Option(
            "--values",
            metavar="printed|now",
            help=(
                "Of a file that was edited since: the print was made before (printed) or with the edits "
                "(now). Else asked on a terminal."
            ),
            show_default=False,
        ),
    ] = "",
    bases: Annotated[
        list[str] | None,
        typer.Option(
            "--base",
            metavar="FILE",
            help="Without --derived: the settings text that it was derived from.",
            show_default=False,
        ),
    ] = None,
    keymap: Annotated[
        str,
        typer.Option(
            "--keymap",
            metavar="K",
            help="The key map; with --derived that of the ledger when none is named.",
            show_default=False,
        ),
    ] = "",
    facts: opt.FactFiles = None,
    answer: opt.Answers = None,
    adhesion: Annotated[str, typer.Option("--adhesion", help="How the part held on the bed.", **GRADE)] = "",
    stringing: Annotated[str, typer.Option("--stringing", help="How free of strings it came out.", **GRADE)] = "",
    supports: Annotated[str, typer.Option("--supports", help="How the supports held and came off.", **GRADE)] = "",
    softness: Annotated[str, typer.Option("--softness", help="How well it bends as it should.", **GRADE)] = "",
    sanding: Annotated[str, typer.Option("--sanding", help="How well it could be sanded.", **GRADE)] = "",
    saw: Annotated[
        list[str] | None,
        typer.Option(
            "--saw",
            metavar="TROUBLE=GRADE",
            help="What the print showed: good, fair or poor; for any trouble that 'mend --troubles' lists.",
            show_default=False,
        ),
    ] = None,
    last: Annotated[
        str,
        typer.Option(
            "--last",
            metavar="better|same|worse",
            help="What came of the newest mend. The mends of the file's ledger are recorded with it.",
            show_default=False,
        ),
    ] = "",
    note: Annotated[
        str,
        typer.Option(
            "--note",
            metavar="TEXT",
            help="Your own words. Everybody who has the library reads them.",
            show_default=False,
        ),
    ] = "",
    by: Annotated[
        str,
        typer.Option(
            "--by",
            metavar="NAME",
            help="A name to stand beside the record; none is recorded without it.",
            show_default=False,
        ),
    ] = "",
    date: Annotated[
        str,
        typer.Option("--date", metavar="DAY", help="The day of the print, such as 2030-01-31.", show_default="today"),
    ] = "",
    again: Annotated[
        bool, typer.Option("--again", help="A second print, though the same was recorded a moment ago.")
    ] = False,
    form: Annotated[
        str, typer.Option("--as", metavar="FORM", help="How to show what was recorded: terminal or json.")
    ] = "terminal",
    library: opt.Library = None,
    quiet: opt.Quiet = False,
) -> None:
    """Record in a library how a print came out.

    For each of its recipes. No name, file or path is recorded.

    \b
    Example:
      profilesmith evidence add --derived soft.settings --outcome worked --stringing fair --library club
    """
    from profilesmith.cli.forms import form_called
    from profilesmith.reports.evidence import added_notes, show_added
    from profilesmith.workflows.evidence import FORMS, JudgedPrint, add_evidence

    form = form_called(form, FORMS)
    grades = {
        "adhesion": adhesion,
        "stringing": stringing,
        "supports": supports,
        "softness": softness,
        "sanding": sanding,
    }
    given = {word: grade for word, grade in grades.items() if grade}
    judged = JudgedPrint(outcome, given, note, by, date, tuple(saw or ()), last)
    request = opt.request(bases or [], keymap, recipe, facts, answer, library)
    which = values or which_values(derived, request, quiet)
    done = add_evidence(request, judged, derived, which, again or _is_second)
    if quiet:
        return
    say(show_added(done, form))
    for line in added_notes(done, public=bool(note or by)):
        say_error(line)


def which_values(derived: str, request: Request, quiet: bool) -> str:
    """Ask what was printed, where the file was edited since and somebody sits at a terminal; else ""."""
    if quiet or not derived or not (sys.stdin.isatty() and sys.stderr.isatty()):
        return ""
    from profilesmith.workflows.printed import NOW, PRINTED, edited_values

    edits = edited_values(derived, request)
    if not edits:
        return ""
    say_error("Edited since it was derived:")
    for text in edits:
        say_error(f"  - {text}.")
    return NOW if typer.confirm("Was it printed with these edits?", default=None, err=True) else PRINTED


def _is_second(message: str) -> bool:
    """Whether an equal record is a second print: asked where somebody sits at a terminal."""
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        return False
    say_error(message)
    return typer.confirm("Is this a second print?", default=False, err=True)


app.command()(withdraw)


@app.command("list")
def list_records(
    recipe: Annotated[
        str,
        typer.Argument(metavar="[RECIPE]", help="A recipe; all of the library when none is named.", show_default=False),
    ] = "",
    by: Annotated[
        str,
        typer.Option("--by", metavar="recipe|machine|spool", help="What prints are summed up by."),
    ] = "recipe",
    form: Annotated[str, typer.Option("--as", metavar="FORM", help="terminal or json.")] = "terminal",
    library: opt.Library = None,
) -> None:
    """List how prints went, the newest first.

    And what may be expected from that. Exit 1: a line of the evidence cannot be read; it is named, and not counted.

    \b
    Example:
      profilesmith evidence list flexible-pla --library club
    """
    from profilesmith.cli.forms import form_called
    from profilesmith.reports.evidence import evidence_text
    from profilesmith.workflows.evidence import FORMS
    from profilesmith.workflows.evidence_list import list_evidence

    form = form_called(form, FORMS)
    listed = list_evidence(recipe, library, by)
    if text := evidence_text(listed, form):
        say(text)
    for problem in listed.problems:
        say_error(f"Not counted: {problem}")
    if listed.problems:
        raise typer.Exit(1)
