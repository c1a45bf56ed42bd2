"""``derive``: a profile into another by recipes.

Its annotations are no strings, which typer would compile, each twice.
"""

from typing import TYPE_CHECKING, Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.asked import (
    FOLLOW,
    FollowLiterals,
    StartBlock,
    Tools,
    asked_tool,
    start_block_way,
    wants_to_follow,
    with_tool,
)
from profilesmith.cli.by_hand import Sets, Whys, need_recipe, with_by_hand
from profilesmith.cli.terminal import fail, look, say, say_error
from profilesmith.foundation.problem import Refused, refuse_if

if TYPE_CHECKING:
    from profilesmith.engine.derive import Derivation
    from profilesmith.review.review import Review
    from profilesmith.workflows.derive import Reports
    from profilesmith.workflows.request import Request


Out = Annotated[
    str,
    typer.Option(
        "-o", "--out", metavar="OUT", help="The derived file; a folder for several bases.", show_default=False
    ),
]
TELLING = ("terminal", "markdown", "page", "checklist", "checklist-page")
"""The forms that tell every conflict in words."""


def derive(
    bases: opt.Bases,
    keymap: opt.KeyMap = "",
    recipe: opt.Recipes = None,
    facts: opt.FactFiles = None,
    answer: opt.Answers = None,
    sets: Sets = None,
    why: Whys = None,
    out: Out = "",
    form: opt.Form = "terminal",
    report: opt.Reports = None,
    full: opt.Full = False,
    quiet: opt.Quiet = False,
    sources: opt.Sources = False,
    start_block: StartBlock = "",
    follow_literals: FollowLiterals = False,
    shares: opt.Shares = "",
    tools: Tools = None,
    motion: opt.OldMotion = "",
    words: opt.MotionWords = "",
    dry_run: opt.DryRun = False,
    overwrite: opt.Overwrite = False,
    discard_edits: opt.DiscardEdits = False,
    library: opt.Library = None,
) -> None:
    """Turn a settings text into another by recipes.

    Shows what changed and why; -o writes the new text, and the ledger beside it.

    \b
    Example:
      profilesmith derive base.settings --keymap keymap.toml --recipe flexible-pla --facts spool.toml -o flexible.set
    """
    from profilesmith.cli.forms import form_called, reports_called
    from profilesmith.cli.terminal import busy
    from profilesmith.review.render import render
    from profilesmith.workflows.derive import derive as run
    from profilesmith.workflows.derive import write, write_reports

    opt.refuse_idle(quiet, bool(out or report), dry_run)
    keymap = _map_of(bases, keymap, quiet)
    shown, reported = form_called(form), reports_called(report)
    way = start_block_way(start_block, follow_literals)
    request = opt.request(bases, keymap, recipe, facts, answer, library, way == FOLLOW, shares)
    request = with_by_hand(opt.measured(with_tool(request, tools), motion, words, old=True), sets, why)
    with busy("deriving", quiet):
        derivation = run(request)
    if shown == "terminal" and not (quiet or dry_run):
        derivation = _asked(request, derivation, way)
    need_recipe(request, library)
    lost = [] if derivation.problems or dry_run else _at_stake(derivation, out, overwrite, reported, discard_edits)
    derivation = _named(derivation, "" if dry_run or derivation.problems else out)
    if not quiet:
        say(render(derivation.review, shown, look(full)._replace(sources=sources)))
    if derivation.problems:
        save = write_reports(derivation, overwrite, reported)
        _tell("", [f"wrote {path}" for path in save] if not quiet else [])
        raise typer.Exit(_stopped(Refused(derivation.problems), shown in TELLING and not quiet))
    dry = _nothing_written(dry_run, bool(out or report))
    save = write_reports(derivation, overwrite, reported) if dry_run else []
    written = save if dry else write(derivation, out, overwrite, reported)
    if not quiet:
        _tell(dry, [*lost, *(f"wrote {path}" for path in written)])
        _close(derivation.review, shown)


def _map_of(bases: list[str], key_map: str, quiet: bool) -> str:
    """The map of a call: the named one, else the one that the ledger beside a text knows, which is said.

    Raises Refused where there is none, with the call that has one proposed for these texts.
    """
    if key_map:
        return key_map
    from profilesmith.review.known_words import map_remembered  # few calls name none
    from profilesmith.workflows.known_map import known_map

    known = known_map(bases)
    if not quiet:
        say_error(map_remembered(*known))
    return known.path


def _asked(request: "Request", derivation: "Derivation", way: str) -> "Derivation":
    """The derivation with what a person says on a terminal: which tool it is for, and what becomes of start blocks."""
    from profilesmith.workflows.derive import derive as run

    tool = asked_tool(derivation)
    if tool:
        request = with_tool(request, tool)
        derivation = run(request)
    if not way and wants_to_follow(derivation):
        derivation = run(request._replace(follow_literals=True))
    return derivation


def _named(derivation: "Derivation", out: str) -> "Derivation":
    """With the name of the derived file in its review, and so in its reports."""
    return derivation._replace(worded=derivation.review._replace(outputs=(out,))) if out else derivation


def _at_stake(
    derivation: "Derivation", out: str, overwrite: bool, reported: "Reports", discard_edits: bool
) -> list[str]:
    """Which hand edits will be lost, as was asked. Raises Refused where a place is taken, before a long review is
    shown.
    """
    from profilesmith.workflows.derive import outputs_taken, texts_to_write
    from profilesmith.workflows.edits_at_stake import discarded_edits

    refuse_if(outputs_taken(derivation, out, overwrite, reported))
    lost = discarded_edits(texts_to_write(derivation, out), discard_edits)
    if not lost:
        return []
    from profilesmith.reports.problems import discarded_lines  # few runs lose any

    return discarded_lines(lost)


def _stopped(refused: "Refused", are_shown: bool) -> int:
    """Tell the conflicts, unless each stands in the review above; the exit code."""
    from profilesmith.foundation.words import plural

    if not are_shown:
        return fail(refused)
    say_error(f"error: {plural(len(refused.problems), 'conflict', 'conflicts')}: nothing was written.")
    return refused.exit_code


def _nothing_written(dry_run: bool, named: bool) -> str:
    """Why nothing is written, or ""."""
    if dry_run:
        return opt.DRY
    return "" if named else "Nothing was written: name the derived file with -o OUT."


def _close(review: "Review", shown: str) -> None:
    """The closing lines; the terminal's own text ends with them."""
    from profilesmith.review.consequences import closing

    for text in closing(review, shown in ("markdown", "page")) if shown != "terminal" else ():
        say_error(text)


def _tell(nothing: str, done: list[str]) -> None:
    if nothing:
        say_error(nothing)
    for text in done:
        say_error(text)
