"""``mend``: what to change after a print, by how much and why; remembers what was tried."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import say, say_error
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if


def mend(
    derived: Annotated[
        str,
        typer.Argument(
            metavar="DERIVED", help="The derived file that was printed; its ledger lies beside it.", show_default=False
        ),
    ] = "",
    saw: Annotated[
        list[str] | None,
        typer.Option(
            "--saw", metavar="TROUBLE=GRADE", help="What the print showed: good, fair or poor.", show_default=False
        ),
    ] = None,
    look: Annotated[
        list[str] | None,
        typer.Option(
            "--look", metavar="SIGN=yes|no", help="The answer to a look that was asked for.", show_default=False
        ),
    ] = None,
    did: Annotated[
        list[str] | None,
        typer.Option(
            "--did",
            metavar="DOING",
            help="What was done before this print, such as 'dry the spool'.",
            show_default=False,
        ),
    ] = None,
    last: Annotated[
        str, typer.Option("--last", metavar="better|same|worse", help="What came of the last mend.", show_default=False)
    ] = "",
    rest_good: Annotated[
        bool, typer.Option("--rest-good", help="All other troubles were looked for, and not there.")
    ] = False,
    changes: Annotated[
        int, typer.Option("--changes", metavar="N", help="How many settings at once.", min=1, max=5)
    ] = 1,
    undo: Annotated[bool, typer.Option("--undo", help="Take the last mend back.")] = False,
    troubles: Annotated[bool, typer.Option("--troubles", help="List troubles, looks and doings.")] = False,
    out: Annotated[
        str,
        typer.Option("-o", "--out", metavar="OUT", help="Write the mended file, and its ledger.", show_default=False),
    ] = "",
    form: Annotated[str, typer.Option("--as", metavar="FORM", help="terminal or json.")] = "terminal",
    date: Annotated[
        str, typer.Option("--date", metavar="DAY", help="The day, such as 2030-01-31.", show_default="today")
    ] = "",
    overwrite: opt.Overwrite = False,
    library: opt.Library = None,
    quiet: opt.Quiet = False,
) -> None:
    """Say what to change after a print, and why.

    One change with its size; -o writes it. What was tried is remembered beside the file.

    \b
    Example:
      profilesmith mend soft.settings --saw stringing=poor --look hiss=no --look drops=yes -o soft-2.settings
    """
    from profilesmith.reports.mend import trouble_lines
    from profilesmith.workflows.troubles import known_troubles

    known = known_troubles(library)
    if troubles:
        say("\n".join(trouble_lines(known)) + "\n")
        return
    _check(derived, form, bool(saw or last or undo), undo, out)
    said = _said(known, saw or [], look or [], did or [], last, rest_good, changes, date)
    if not undo:
        _advise(derived, known, said, library, out, overwrite, form, quiet)
    else:
        from profilesmith.workflows.write_mend import undo as take_back

        _write(take_back(derived, said, library), out, overwrite, quiet)


def _check(derived: str, form: str, is_said: bool, undo: bool, out: str) -> None:
    """Raises Refused for a call that cannot be meant."""

    problems = []
    if not derived:
        problems.append(
            Problem("no-file", "No derived file is named.", Place("mend"), "Name the file that was printed.")
        )
    if form not in ("terminal", "json"):
        problems.append(Problem("form", f"Advice has no form {form!r}.", Place("--as"), "Known: terminal, json."))
    if not is_said:
        hint = "Say it with --saw stringing=poor; 'profilesmith mend --troubles' lists what there is."
        problems.append(Problem("saw", "It is not said what the print showed.", Place("--saw"), hint))
    if undo and not out:
        problems.append(Problem("undo", "Nothing would be written.", Place("--undo"), "Name the new file with -o OUT."))
    refuse_if(problems)


def _said(known, saw, look, did, last, rest_good, changes, date: str):  # type: ignore[no-untyped-def]
    from profilesmith.engine.mend import Said
    from profilesmith.workflows.coupon.files import day
    from profilesmith.workflows.mend_said import read_did, read_last, read_looks, read_seen

    return Said(
        read_seen(saw, known),
        read_looks(look, known),
        read_did(did, known),
        read_last(last),
        rest_good,
        changes,
        day(date),
    )


def _advise(  # type: ignore[no-untyped-def]
    derived, known, said, library, out: str, overwrite: bool, form: str, quiet: bool
) -> None:
    from profilesmith.engine.advice import advice_json
    from profilesmith.ledger.json_text import json_text
    from profilesmith.reports.mend import advice_lines
    from profilesmith.workflows.mend import mend as run

    mended = run(derived, said, known, library)
    if not quiet:
        say(json_text(advice_json(mended)) if form == "json" else "\n".join(advice_lines(mended, known)) + "\n")
    if out:
        from profilesmith.workflows.write_mend import write_mend

        _write(write_mend(mended, said, library), out, overwrite, quiet)
    elif not mended.proposals and any(grade != "good" for grade in mended.so_far.seen.values()):
        raise typer.Exit(1)


def _write(made, out: str, overwrite: bool, quiet: bool) -> None:  # type: ignore[no-untyped-def]
    from profilesmith.review.consequences import look_first
    from profilesmith.review.render.command import command
    from profilesmith.workflows.derive import write

    written = write(made, out, overwrite)
    if quiet:
        return
    if look_first(made.review):
        say(f"{look_first(made.review)}\n")
    if made.review.literals:
        number = len(made.review.literals)
        say_error(f"Machine commands in start blocks that need a look: {number}. See {command('review', out)}")
    for path in written:
        say_error(f"wrote {path}")
