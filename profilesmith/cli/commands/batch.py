"""``batch``: many derivations by an order file."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import is_terminal, say_error, say_piece
from profilesmith.foundation.new_files import PLACED
from profilesmith.foundation.problem import refuse_if

if TYPE_CHECKING:
    from profilesmith.reports.batch import Write
    from profilesmith.workflows.batch.plan import BatchPlan

BEAT = 0.5  # seconds between two signs of life
KNOWN = ("terminal", "page", "markdown", "json", "checklist", "sheet")


def batch(
    order: Annotated[
        str,
        typer.Argument(
            metavar="ORDER", help="The order: a TOML file that names bases, maps and recipes.", show_default=False
        ),
    ],
    jobs: Annotated[
        int,
        typer.Option("--jobs", "-j", metavar="N", min=0, max=256, help="Processes; 0 for as many as there are cores."),
    ] = 0,
    form: Annotated[
        str,
        typer.Option(
            "--as",
            metavar="FORM",
            help="How to show it: terminal, html, md, json, or each file as a sheet or checklist.",
        ),
    ] = "terminal",
    report: Annotated[
        list[str] | None,
        typer.Option(
            "--report",
            metavar="FILE",
            help=(
                "Write the summary to a file too; its ending (.html, .md, .json, .txt) says the form, x-sheet.md "
                "and checklist.md those of all files. May be "
                "given several times."
            ),
            show_default=False,
        ),
    ] = None,
    quiet: opt.Quiet = False,
    overwrite: opt.Overwrite = False,
    discard_edits: opt.DiscardEdits = False,
    library: opt.Library = None,
) -> None:
    """Derive many profiles by one order file.

    One line each says what came of it.

    \b
    Example:
      profilesmith batch order.toml --report summary.md
    """
    from profilesmith.cli.forms import form_called, reports_called
    from profilesmith.reports.batch import Summary
    from profilesmith.reports.problems import problem_lines
    from profilesmith.workflows.batch.batch import make_plan, run
    from profilesmith.workflows.batch.totals import Totals

    form, reported = form_called(form, KNOWN), reports_called(report, KNOWN)
    plan = make_plan(order, library, overwrite)
    totals = Totals()
    with _reports(reported, plan, overwrite) as writes, _progress(len(plan.tasks), quiet) as step:
        summaries = [Summary(form, plan.name, _shown)] if not quiet else []
        summaries += [Summary(shape, plan.name, write) for shape, write in writes]
        for result in run(plan, jobs, overwrite, discard_edits):
            totals.add(result)
            PLACED.extend(result.written)
            step(totals.done)
            for summary in summaries:
                summary.add(result)
            if result.code and (quiet or form != "terminal"):
                say_error(f"error: {' + '.join(result.bases)}: {' '.join(problem_lines(result.problems))}")
        for summary in summaries:
            summary.end(totals)
    if totals.exit_code:
        raise typer.Exit(totals.exit_code)


def _shown(text: str) -> None:

    say_piece(text)


@contextmanager
def _reports(reports: list[tuple[str, str]], plan: BatchPlan, overwrite: bool) -> Iterator[list[tuple[str, Write]]]:
    """The form of each report and where its text goes; a file is there when it is whole, and not before."""
    if not reports:
        yield []
        return
    from profilesmith.workflows.batch.plan import meets
    from profilesmith.workflows.batch.stream import write_stream
    from profilesmith.write_files import outputs_free

    paths = [Path(name) for name, _ in reports]
    refuse_if(outputs_free(paths, [path for path in paths if meets(plan, str(path))], overwrite))
    with ExitStack() as stack:
        yield [
            (form, stack.enter_context(write_stream(path, overwrite)))
            for path, (_, form) in zip(paths, reports, strict=True)
        ]


@contextmanager
def _progress(count: int, quiet: bool) -> Iterator[Callable[[int], None]]:
    """A line on a terminal's standard error while the results go somewhere else; on the terminal they are progress
    enough.

    No thread beats it: processes are about to be forked, and every result is a beat.
    """
    if quiet or not is_terminal(sys.stderr) or is_terminal(sys.stdout):
        yield lambda done: None
        return
    last = [time.monotonic()]

    def step(done: int) -> None:
        if time.monotonic() - last[0] >= BEAT or done == count:
            last[0] = time.monotonic()
            sys.stderr.write(f"\rderiving, {done:,} of {count:,}")
            sys.stderr.flush()

    try:
        yield step
    finally:
        sys.stderr.write(f"\r{'':<60}\r")
        sys.stderr.flush()
