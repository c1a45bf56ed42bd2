"""Every value of a profile in Markdown: one table an area, what changed in bold, one column a tool."""

from __future__ import annotations

from collections.abc import Iterable

from profilesmith.review.render import Look
from profilesmith.review.render.checklist import item_lines
from profilesmith.review.render.markdown import code, escape
from profilesmith.review.render.sheet.whole import ValuePart, ValueRow, WholeSheet, whole_sheet
from profilesmith.review.review import Review
from profilesmith.review.sentences import COMMANDS
from profilesmith.review.wording import visible


def render(review: Review, look: Look) -> str:
    """The whole sheet of a review."""
    sheet = whole_sheet(review)
    lines = [f"# {_text(sheet.title)}", "", _text(sheet.subject), ""]
    lines += _list("Stop: nothing was written", [f"**{_text(words)}**" for words in sheet.stop])
    lines += _list("Look first", [_first(title, words) for title, words in sheet.look_first if not sheet.stop])
    lines += [f"{_text(' '.join(sheet.lead))}", ""]
    lines += [line for part in sheet.parts for line in _part(part, sheet)]
    lines += _list(
        COMMANDS, [f"{_text(place)}: **{_text(new)}**, was {_text(old)}" for place, new, old in sheet.commands]
    )
    if sheet.by_hand:
        lines += ["## To set by hand", "", *(line for item in sheet.by_hand for line in item_lines(item)), ""]
    lines += _list(
        "Read by the map, without a value here", [f"{_text(name)}: {_text(why)}" for name, why in sheet.gone]
    )
    lines += _list("Take care", map(_text, sheet.cautions)) + _list("Notes", map(_text, sheet.notes))
    return "\n".join(lines).rstrip("\n") + "\n"


def _text(words: str) -> str:
    return escape(visible(words))


def _first(title: str, words: str) -> str:
    return f"**{_text(title)}.** {_text(words)}" if title else _text(words)


def _list(title: str, items: Iterable[str]) -> list[str]:
    lines = [f"- {item}" for item in items]
    return [f"## {title}", "", *lines, ""] if lines else []


def _part(part: ValuePart, sheet: WholeSheet) -> list[str]:
    tools = ["Value"] if sheet.tools == 1 else ["All tools", *(f"Tool {number + 1}" for number in range(sheet.tools))]
    heads = ["Setting", *tools, *(["Before"] if sheet.has_before else []), "In the file"]
    rows = [_row(row, sheet) for row in part.rows]
    return [f"## {_text(part.title)}", "", _line(heads), _line(["---"] * len(heads)), *map(_line, rows), ""]


def _line(cells: list[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _row(row: ValueRow, sheet: WholeSheet) -> list[str]:
    mark = f" ({row.mark}{f'; {_text(row.note)}' if row.note else ''})" if row.mark else ""
    values = [f"**{_text(value)}**" if row.mark else _text(value) for value in row.values]
    if sheet.tools > 1:
        blank = [""] * sheet.tools
        values = [*values, *blank] if len(values) == 1 else ["", *values, *blank][: sheet.tools + 1]
    before = [_text(row.before)] if sheet.has_before else []
    return [f"{_text(row.name)}{mark}", *values, *before, _where(row)]


def _where(row: ValueRow) -> str:
    equals = f" = {code(visible(row.text))}" if row.text else ""
    return ", ".join(
        part for part in (f"{code(visible(row.key))}{equals}" if row.key else "", _text(row.place)) if part
    )
