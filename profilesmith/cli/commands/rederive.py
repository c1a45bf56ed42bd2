"""``rederive``: a derived profile onto a newer base, with the edits that hands made of it; ``--check``: which are
stale.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import is_terminal, look, say, say_error
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, Problem, Refused, refuse_if

if TYPE_CHECKING:
    from pathlib import Path

    from profilesmith.engine.derive import Derivation
    from profilesmith.ledger import Decision
    from profilesmith.merge.decision import Choose
    from profilesmith.workflows.derive import Reports

UNNAMED = "Nothing was written: name the new file with -o OUT. This is what would stand in it:"
PREFER = ("ask", "base", "derived")


def rederive(
    derived: Annotated[
        list[str],
        typer.Argument(
            metavar="DERIVED...",
            help="Files that 'derive' wrote, with their ledgers beside them; folders and patterns of such.",
            show_default=False,
        ),
    ],
    onto: Annotated[
        list[str] | None,
        typer.Option(
            "--onto",
            metavar="NEWBASE",
            help="The new base, one for each base of the derivation, or a folder of bases with the same names;"
            " without it the base that the ledger names.",
            show_default=False,
        ),
    ] = None,
    keymap: Annotated[
        str, typer.Option("--keymap", metavar="K", help="Another key map than the ledger's.", show_default=False)
    ] = "",
    recipe: opt.Recipes = None,
    facts: opt.FactFiles = None,
    answer: opt.Answers = None,
    prefer: Annotated[
        str,
        typer.Option(
            "--prefer", metavar="SIDE", help="What counts where both moved: base, derived (the hand edit), or ask."
        ),
    ] = "ask",
    check: Annotated[
        bool, typer.Option("--check", help="Only say which files are behind their base or recipe; exit 1 when any is.")
    ] = False,
    in_place: Annotated[
        bool, typer.Option("--in-place", help="Into the files themselves; each old one stays as NAME.before.")
    ] = False,
    keep_facts: Annotated[
        bool, typer.Option("--keep-facts", help="Facts as the ledger holds them, whatever their files say now.")
    ] = False,
    jobs: Annotated[
        int,
        typer.Option("--jobs", "-j", metavar="N", min=0, max=256, help="Processes; 0 for as many as there are cores."),
    ] = 0,
    out: Annotated[
        str,
        typer.Option(
            "-o", "--out", metavar="OUT", help="The new derived file; a folder for several.", show_default=False
        ),
    ] = "",
    form: opt.Form = "terminal",
    report: opt.Reports = None,
    full: opt.Full = False,
    quiet: opt.Quiet = False,
    sources: opt.Sources = False,
    shares: opt.Shares = "",
    dry_run: opt.DryRun = False,
    overwrite: opt.Overwrite = False,
    discard_edits: opt.DiscardEdits = False,
    library: opt.Library = None,
) -> None:
    """Bring a derived profile onto a better base.

    Or onto newer recipes; what was edited by hand since is kept. With --check: which files are behind.

    \b
    Example:
      profilesmith rederive soft.settings --onto base.settings --dry-run
    """
    asked = opt.request(onto or [], keymap, recipe, facts, answer, library, shares=shares)
    if check:
        _check(derived, onto or [], form, quiet, library, keep_facts)
        return
    from profilesmith.workflows.rederive.forward.targets import is_several

    if in_place or is_several(derived):
        from profilesmith.cli.forward import forward
        from profilesmith.workflows.rederive.forward.work import ForwardOrder

        _chooser(prefer)
        side = "" if prefer == "ask" else prefer
        wanted = ForwardOrder(
            asked, side, keep_facts, "" if dry_run else out, in_place and not dry_run, overwrite, discard_edits
        )
        forward(derived, wanted, jobs, form, report or [], full, quiet, dry_run)
        return
    from profilesmith.cli.forms import form_called, reports_called
    from profilesmith.cli.terminal import busy
    from profilesmith.review.render import render
    from profilesmith.workflows.rederive.rederive import rederive as run

    opt.refuse_idle(quiet, bool(out or report), dry_run)
    shown, reported, choose = form_called(form), reports_called(report), _chooser(prefer)
    with busy("deriving again", quiet or prefer == "ask"):
        made = run(derived, asked, choose, keep_facts).derivation
    lost = [] if dry_run else _free(made, out, overwrite, reported, discard_edits)
    if not quiet:
        _say_unnamed(dry_run or out or report)
        say(render(made.review, shown, look(full)._replace(sources=sources)))
    _say_all([opt.DRY] if dry_run else [*lost, *_write(made, out, overwrite, reported)], quiet)


def _say_all(texts: list[str], quiet: bool) -> None:
    for text in () if quiet else texts:
        say_error(text)


def _say_unnamed(named: object) -> None:
    """Before a long review that nothing was written."""
    if not named:
        say_error(UNNAMED)


def _free(made: Derivation, out: str, overwrite: bool, reports: Reports, discard: bool) -> list[str]:
    """What is lost in the outputs' places. Raises Refused where they are taken, before a long review is shown."""
    from profilesmith.reports.problems import discarded_lines
    from profilesmith.workflows.derive import outputs_taken, texts_to_write
    from profilesmith.workflows.edits_at_stake import discarded_edits

    refuse_if(outputs_taken(made, out, overwrite, reports))
    return discarded_lines(discarded_edits(texts_to_write(made, out), discard))


def _write(made: Derivation, out: str, overwrite: bool, reports: Reports) -> list[str]:
    """Write what was named; what is to be told about it."""
    from profilesmith.workflows.derive import write

    if not out and not reports:
        return []
    return [f"wrote {path}" for path in write(made, out, overwrite, reports)]


def _chooser(prefer: str) -> Choose:
    """What decides a conflict: the option, or the person at the terminal."""
    import sys

    if prefer not in PREFER:
        raise Refused([Problem("prefer", f"{prefer!r} is no side.", Place("--prefer"), "Write base, derived or ask.")])
    if prefer != "ask":
        return lambda decision: prefer
    return _ask if is_terminal(sys.stdin) and is_terminal(sys.stderr) else lambda decision: ""


def _ask(decision: Decision) -> str:
    """What the person answers. Raises Refused at ``stop``."""
    from profilesmith.cli.ask import none_of_these
    from profilesmith.review.decisions import decision_sentence
    from profilesmith.review.wording import visible

    say_error(visible(decision_sentence(decision)))
    words = {"b": "base", "base": "base", "d": "derived", "derived": "derived"}
    while True:
        word = str(typer.prompt("Which counts? (base, derived, stop)", default="stop", err=True)).strip().casefold()
        if word in words:
            return words[word]
        if word in ("stop", "s"):
            hint = "Run it again, or say which side counts with --prefer base or --prefer derived."
            raise Refused(
                [Problem("stopped", f"Stopped at {decision.what}: nothing was written.", hint=hint, severity=CONFLICT)]
            )
        none_of_these(word)


def _check(derived: list[str], onto: list[str], form: str, quiet: bool, library: Path | None, keep_facts: bool) -> None:
    """One line a file, and the exit code."""
    from profilesmith.cli.forms import form_called
    from profilesmith.ledger.json_text import json_text
    from profilesmith.reports.ages import age_data, age_lines, age_sentence
    from profilesmith.workflows.rederive.check import check_all, exit_code
    from profilesmith.workflows.rederive.forward.targets import files_meant

    shown = form_called(form, ("terminal", "json"))
    ages = check_all(files_meant(derived), onto, library, keep_facts)
    if shown == "json":
        say(json_text({"format": 1, "kind": "profilesmith ages", "files": [age_data(item) for item in ages]}))
    elif not quiet:
        for text in age_lines(ages):
            say(text)
    else:
        for item in ages:
            if item.state == "unknown":
                say_error(f"error: {age_sentence(item)}")
    if exit_code(ages):
        raise typer.Exit(exit_code(ages))
