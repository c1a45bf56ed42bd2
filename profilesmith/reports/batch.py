"""The summary of a batch, one line a derivation, written as the results come: terminal, page, Markdown or JSON."""

from __future__ import annotations

import html
import json
from collections.abc import Callable, Mapping

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import plural
from profilesmith.reports.problems import discarded_lines, problem_lines
from profilesmith.review.wording import visible
from profilesmith.workflows.batch.totals import Totals
from profilesmith.workflows.batch.work import BatchResult

Write = Callable[[str], object]


class SummaryForm(NamedTuple):
    """How a summary begins, a result reads, and a summary ends."""

    begin: Callable[[str], str]
    line: Callable[[BatchResult, bool], str]
    end: Callable[[Totals], str]


def _sentence(totals: Totals) -> str:
    """``40 derivations, 39 written, 1 failed, 12 cautions.``"""
    parts = [plural(totals.done, "derivation"), f"{totals.done - totals.failed} written"]
    parts += [f"{totals.failed} failed"] if totals.failed else []
    parts += [plural(totals.cautions, "caution")] if totals.cautions else []
    return ", ".join(parts) + "."


def _told(result: BatchResult) -> str:
    """``21 settings changed, 1 caution``, or what is wrong."""
    if result.code:
        return f"failed: {' '.join(problem_lines(result.problems))}"
    parts = [plural(result.changed, "setting changed", "settings changed")]
    parts += [plural(result.cautions, "caution")] if result.cautions else []
    return "; ".join([", ".join(parts), *discarded_lines(result.discarded)])


def _terminal(result: BatchResult, first: bool) -> str:
    where = f" → {result.written[0]}" if result.written else ""
    return f"{visible(' + '.join(result.bases) + where)}: {visible(_told(result))}\n"


HEADS = ("job", "base", "written", "changed", "conflicts", "cautions", "problem")


def _cells(result: BatchResult) -> tuple[str, ...]:
    """What stands under ``HEADS``, with nothing in it that a terminal or a page would obey."""
    counts = (str(number) for number in (result.changed, result.conflicts, result.cautions))
    where = result.written[0] if result.written else "-"
    words = " ".join((*problem_lines(result.problems), *discarded_lines(result.discarded)))
    cells = (str(result.job), " + ".join(result.bases), where, *counts, words)
    return tuple(map(visible, cells))


def _escaped(text: str) -> str:
    """A text in Markdown."""
    from profilesmith.review.render.markdown import escape  # only where it is asked for

    return escape(visible(text))


def _markdown(result: BatchResult, first: bool) -> str:
    from profilesmith.review.render.markdown import escape

    return f"| {' | '.join(map(escape, _cells(result)))} |\n"


def _markdown_begin(name: str) -> str:
    return f"# {_escaped(name)}\n\n| {' | '.join(HEADS)} |\n|{' --- |' * len(HEADS)}\n"


def _page(name: str) -> list[str]:
    """A self-contained page in three pieces, for the rows and the counts to stand between."""
    from markupsafe import Markup

    from profilesmith.review.render.html.frame import fill

    cut = Markup("<!-- cut -->")  # a name of strangers cannot hold it: theirs is escaped
    text = fill("batch.html", ("base.css", "page.css"), "", title=visible(name), heads=HEADS, cut=cut)
    return text.split(cut)


def _page_line(result: BatchResult, first: bool) -> str:
    job, *cells = map(html.escape, _cells(result))
    shown = zip(HEADS[1:], cells, strict=True)
    rest = (f'<td role="cell"><span class="head" aria-hidden="true">{head}</span>{cell}' for head, cell in shown)
    return f'<tr role="row"><th scope="row" role="rowheader">{job}{"".join(rest)}</tr>\n'


def _page_end(totals: Totals) -> str:
    _, between, end = _page("")
    return f"{between.lstrip()}{html.escape(_sentence(totals))}{end}"


def _json_begin(name: str) -> str:
    """ASCII throughout: whatever an editor would obey in a stranger's text is escaped."""
    return f'{{\n  "format": 1,\n  "kind": "profilesmith batch",\n  "order": {json.dumps(name)},\n  "results": ['


def _json_line(result: BatchResult, first: bool) -> str:
    worded = {"problems": problem_lines(result.problems), "discarded": discarded_lines(result.discarded)}
    return ("\n    " if first else ",\n    ") + json.dumps(result._asdict() | worded)


def _json_end(totals: Totals) -> str:
    return f'\n  ],\n  "totals": {json.dumps(totals.data())}\n}}\n'


FORMS: Mapping[str, SummaryForm] = {
    "terminal": SummaryForm(lambda name: f"{visible(name)}\n", _terminal, lambda totals: _sentence(totals) + "\n"),
    "markdown": SummaryForm(_markdown_begin, _markdown, lambda totals: f"\n{_sentence(totals)}\n"),
    "page": SummaryForm(lambda name: _page(name)[0], _page_line, _page_end),
    "json": SummaryForm(_json_begin, _json_line, _json_end),
}


def _whole(form: str) -> SummaryForm:
    """Each derived file in one of a review's own forms, one behind the other: its ledger knows all of it."""
    return SummaryForm(lambda name: "", lambda result, first: _shown(result, form, first), lambda totals: "")


def _shown(result: BatchResult, form: str, first: bool) -> str:

    between = "" if first else "\n---\n\n"
    if result.code or not result.written:
        return f"{between}{_escaped(' + '.join(result.bases))}: {_escaped(_told(result))}\n"
    from profilesmith.review.render import render
    from profilesmith.workflows.review import review_again

    return between + render(review_again(result.written[0]).review, form)


WHOLE: Mapping[str, SummaryForm] = {form: _whole(form) for form in ("sheet", "checklist")}


class Summary:
    """A summary that is written as it grows."""

    def __init__(self, form: str, name: str, write: Write) -> None:
        self.form, self.write, self.first = {**FORMS, **WHOLE}[form], write, True
        write(self.form.begin(name))

    def add(self, result: BatchResult) -> None:
        self.write(self.form.line(result, self.first))
        self.first = False

    def end(self, totals: Totals) -> None:
        self.write(self.form.end(totals))
