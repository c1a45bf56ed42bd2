"""``evidence``: record how a print went, and list what is recorded."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import say, say_error

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="Record how prints went, and list what is recorded.")
GRADE = {"metavar": "good|fair|poor", "show_default": False}


@app.command()
def add(
    recipe: Annotated[str, typer.Argument(metavar="RECIPE", help="The recipe that was printed with: a file or a name.", show_default=False)],
    bases: Annotated[list[str], typer.Option("--base", metavar="FILE", help="The settings text that it was derived from.", show_default=False)],
    keymap: opt.KeyMap,
    outcome: Annotated[str, typer.Option("--outcome", metavar="worked|partly|failed", help="How the print came out.", show_default=False)],
    facts: opt.FactFiles = None,
    answer: opt.Answers = None,
    adhesion: Annotated[str, typer.Option("--adhesion", help="How the part held on the bed.", **GRADE)] = "",
    stringing: Annotated[str, typer.Option("--stringing", help="How free of strings it came out.", **GRADE)] = "",
    supports: Annotated[str, typer.Option("--supports", help="How the supports held and came off.", **GRADE)] = "",
    softness: Annotated[str, typer.Option("--softness", help="How well it bends as it should.", **GRADE)] = "",
    sanding: Annotated[str, typer.Option("--sanding", help="How well it could be sanded.", **GRADE)] = "",
    note: Annotated[str, typer.Option("--note", metavar="TEXT", help="Your own words. Everybody who has the library reads them.", show_default=False)] = "",
    by: Annotated[str, typer.Option("--by", metavar="NAME", help="A name to stand beside the record; none is recorded without it.", show_default=False)] = "",
    date: Annotated[str, typer.Option("--date", metavar="DAY", help="The day of the print, such as 2030-01-31.", show_default="today")] = "",
    library: opt.Library = None,
    quiet: opt.Quiet = False,
) -> None:
    """Record in a library how a print with a recipe came out. No name, file or path is recorded."""
    from profilesmith.workflows.evidence import Judged, add_evidence

    grades = {"adhesion": adhesion, "stringing": stringing, "supports": supports, "softness": softness, "sanding": sanding}
    judged = Judged(outcome, {word: grade for word, grade in grades.items() if grade}, note, by, date)
    added = add_evidence(opt.request(bases, keymap, [recipe], facts, answer, library), judged)
    if quiet:
        return
    from profilesmith.evidence.record import record_line
    from profilesmith.evidence.tally import says
    from profilesmith.review.wording import visible

    say(visible(says(added.tally)))
    say_error(f"recorded in {added.path}:\n{record_line(added.record).rstrip()}")
    for text in added.left_out:
        say_error(text)
    if added.again:
        say_error("An equal record of that day was there already: this one counts as a second print. Take its line out if it is none.")
    if note or by:
        say_error("The note and the name are public to everybody who has the library.")


@app.command("list")
def list_records(
    recipe: Annotated[str, typer.Argument(metavar="[RECIPE]", help="A recipe; all of the library when none is named.", show_default=False)] = "",
    form: Annotated[str, typer.Option("--as", metavar="FORM", help="terminal or json.")] = "terminal",
    library: opt.Library = None,
) -> None:
    """List how prints with a recipe went, and what may be expected from that."""
    from profilesmith.workflows.evidence import list_evidence

    say(list_evidence(recipe, library, form))
