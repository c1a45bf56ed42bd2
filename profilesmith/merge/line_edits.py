"""What was edited between two states of one text: changed values, lines put in and taken out.

What changed a setting is named elsewhere, with the rule that speaks of it; such lines are left out here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from profilesmith.ledger.line_edit import EditedLine, FormEdited, LineEdit, LinesEdit, LinesEdited, ValueEdited
from profilesmith.merge.other_keys import value_edits
from profilesmith.merge.text_form import form_changes
from profilesmith.merge.text_lines import TextLine, align, text_lines
from profilesmith.text.document import Document

IsTold = Callable[[TextLine], bool]


def line_edits(
    old: Document, mine: Document, is_mapped: IsTold, told_then: IsTold, told_now: IsTold
) -> Iterator[LineEdit]:
    """One for each changed value, one for all lines put in, one for those taken out, and so on.

    is_mapped: whether the map knows the key. told_then, told_now: whether a line of the old or the new text is named
    already, as a setting.
    """
    was, now = text_lines(old), text_lines(mine)
    alignment = align(was, now)
    for at, to in sorted(alignment.pairs.items(), key=lambda places: places[1]):
        before, after = _value(old, was[at]), _value(mine, now[to])
        if before != after and not told_now(now[to]):
            whole = ValueEdited(_named(now[to]), before, after, mine.name, now[to].number, is_mapped(now[to]))
            yield from value_edits(whole)
    new, gone = set(range(len(now))) - set(alignment.pairs.values()), set(range(len(was))) - set(alignment.pairs)
    yield from _lines("put in", mine, [now[at] for at in sorted(new) if not told_now(now[at])])
    yield from _lines("taken out", old, [was[at] for at in sorted(gone) if not told_then(was[at])])
    yield from _lines("moved", mine, [now[alignment.pairs[at]] for at in sorted(alignment.moved)])
    around = [now[to] for at, to in sorted(alignment.pairs.items()) if _frame(old, was[at]) != _frame(mine, now[to])]
    yield from _lines("around values", mine, around)
    for decision in form_changes(old, mine):
        yield FormEdited(decision.what, decision.was, decision.hand, mine.name)


def _named(line: TextLine) -> str:
    return f"[{line.section}] {line.name}" if line.section else line.name


def _value(document: Document, line: TextLine) -> str:
    return document.text[line.value_start : line.value_end]


def _frame(document: Document, line: TextLine) -> tuple[str, str]:
    return document.text[line.start : line.value_start], document.text[line.value_end : line.end]


def _lines(how: LinesEdit, document: Document, lines: Sequence[TextLine]) -> Iterator[LineEdit]:
    texts = ("" if line.kind == "blank" else document.text[line.start : line.end].strip() for line in lines)
    if lines:
        numbers = (line.number for line in lines)
        yield LinesEdited(how, document.name, tuple(map(EditedLine, numbers, texts)))
