"""``rederive`` of many files: one review for all, progress, and what was written."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import look, say, say_error
from profilesmith.foundation.new_files import PLACED
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if

if TYPE_CHECKING:
    from profilesmith.workflows.rederive.forward.work import Forward, ForwardOrder

KNOWN = ("terminal", "page", "markdown", "json")
BEFORE = "What each file was stands beside it as NAME.before, until a run writes it again."
NOTHING = "Nothing was written: name a folder with -o, or --in-place."


def forward(
    names: list[str],
    asked: ForwardOrder,
    jobs: int,
    form: str,
    reports: list[str],
    full: bool,
    quiet: bool,
    dry_run: bool,
) -> None:
    """Bring forward, show, and exit with 0, 2 or 3. Raises Refused before anything is written."""
    from profilesmith.cli.forms import form_called, reports_called
    from profilesmith.cli.terminal import counted
    from profilesmith.workflows.rederive.forward.run import exit_code, run
    from profilesmith.workflows.rederive.forward.targets import targets
    from profilesmith.write_files import outputs_free

    refuse_if(_both(asked))
    opt.refuse_idle(quiet, bool(asked.out or asked.in_place or reports), dry_run)
    shown, reported = form_called(form, KNOWN), reports_called(reports, KNOWN)
    meant = targets(names)
    refuse_if(outputs_free([Path(name) for name, _ in reported], (), asked.overwrite))
    with counted("deriving again", quiet) as tell:
        results = list(run(meant, asked, jobs, tell))
    PLACED.extend(name for item in results for name in item.written)
    ending = opt.DRY if dry_run else BEFORE if asked.in_place else "" if asked.out else NOTHING
    if not quiet:
        say(_text(results, ending, shown, full))
    _write_reports(results, ending, reported, asked.overwrite)
    if quiet:
        from profilesmith.reports.problems import problem_lines

        for item in results:
            for text in problem_lines(item.problems):
                say_error(f"error: {item.file}: {text}")
    if exit_code(results):
        raise typer.Exit(exit_code(results))


def _both(asked: ForwardOrder) -> list[Problem]:

    if not (asked.out and asked.in_place):
        return []
    return [Problem("two-places", "Both -o and --in-place say where to write.", Place("--in-place"), "Leave one out.")]


def _text(results: list[Forward], ending: str, form: str, full: bool) -> str:
    from profilesmith.reports.forward.report import FORMS, terminal

    if form == "terminal":
        return terminal(results, ending, look().width, full)
    return FORMS[form](results, ending)


def _write_reports(results: list[Forward], ending: str, reports: list[tuple[str, str]], overwrite: bool) -> None:
    from profilesmith.write_files import write_whole

    files = {
        Path(name): _text(results, ending, form, True).encode("utf-8", "backslashreplace") for name, form in reports
    }
    refuse_if(write_whole(files, overwrite))
