"""The review of many files in one form: terminal, Markdown, page or JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from profilesmith.ledger.json_text import json_text
from profilesmith.reports.forward.words import SHOWN, Section, Together, together
from profilesmith.reports.problems import discarded_lines, problem_lines
from profilesmith.review.again_notes import again_notes
from profilesmith.review.render.html.frame import fill
from profilesmith.review.render.markdown import escape
from profilesmith.review.wording import show_values
from profilesmith.revision.outcomes import Alarm
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.rederive.forward.work import Forward

TITLE = "Brought forward"


def terminal(results: Sequence[Forward], ending: str, width: int = 100, full: bool = False) -> str:
    """One screen; ``full``: every file with all of its lines."""
    whole = together(results, ending)
    lines = textwrap.wrap(whole.heading, width)
    for section in whole.sections:
        lines += ["", section.title, *_listed(section, width, full)]
    for item in whole.files if full else ():
        lines += ["", *_wrapped(f"{item.file}: {item.state}", width, "", "  ")]
        lines += [part for text in item.lines for part in _wrapped(text, width, "  - ", "    ")]
    lines += ["", *textwrap.wrap(whole.ending, width)] if whole.ending else []
    return "\n".join(lines) + "\n"


def _listed(section: Section, width: int, full: bool) -> list[str]:
    shown = section.lines if full or len(section.lines) <= SHOWN + 1 else section.lines[:SHOWN]
    mark = "  ! " if section.urgent else "  - "
    lines = [part for text in shown for part in _short(_wrapped(text, width, mark, "    "), full)]
    left = len(section.lines) - len(shown)
    return [*lines, f"    and {left} more: --full shows them"] if left else lines


def _short(lines: list[str], full: bool) -> list[str]:
    """Two lines at most of what is told in full elsewhere."""
    return lines if full or len(lines) <= 2 else [lines[0], f"{lines[1].rstrip('.')} …"]


def _wrapped(text: str, width: int, first: str, more: str) -> list[str]:
    return textwrap.wrap(text, width, initial_indent=first, subsequent_indent=more, break_on_hyphens=False) or [first]


def markdown(results: Sequence[Forward], ending: str) -> str:
    """For a pull request: the summary, and every file folded."""
    whole = together(results, ending)
    lines = [f"# {TITLE}", "", f"**{escape(whole.heading)}**"]
    for section in whole.sections:
        lines += ["", f"## {escape(section.title)}", "", *(f"- {escape(text)}" for text in section.lines)]
    lines += ["", "<details><summary>Each file</summary>", ""]
    for item in whole.files:
        lines += [f"- **{escape(item.file)}**: {item.state}", *(f"  - {escape(text)}" for text in item.lines)]
    lines += ["", "</details>", *(["", escape(whole.ending)] if whole.ending else [])]
    return "\n".join(lines) + "\n"


def page(results: Sequence[Forward], ending: str) -> str:
    """A self-contained page: the summary, and every file folded."""

    whole: Together = together(results, ending)
    return fill("forward.html", ("base.css", "page.css"), "", title=TITLE, together=whole)


def data(results: Sequence[Forward], ending: str) -> str:
    """Everything, nothing gathered."""
    return json_text({"format": 1, "kind": "profilesmith forward", "files": [_data(item) for item in results]})


def _data(item: Forward) -> dict[str, Any]:
    settings = load_vocabulary().settings
    shown = {
        move.setting: [show_values(settings[move.setting], side) if side else None for side in (move.old, move.new)]
        for move in item.moved
    }
    return {
        "file": item.file,
        "state": item.state,
        "code": item.code,
        "settings": [{"setting": name, "was": was, "now": now} for name, (was, now) in shown.items()],
        "keys": [line._asdict() for line in item.lines],
        "edits": [decision._asdict() for decision in (*item.decisions, *item.open)],
        **{name: [_alarm(alarm) for alarm in getattr(item, name)] for name in ("came", "worse", "went")},
        "written": list(item.written),
        "problems": problem_lines(item.problems),
        "lost": discarded_lines(item.lost),
        "notes": list(again_notes(item.not_as_then)),
    }


def _alarm(alarm: Alarm) -> dict[str, str]:
    return alarm._asdict()


FORMS: Mapping[str, Callable[[Sequence[Forward], str], str]] = {
    "terminal": terminal,
    "page": page,
    "markdown": markdown,
    "json": data,
}
