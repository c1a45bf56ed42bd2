"""What was edited between two states of one text, in words: changed values, lines put in and taken out.

What changed a setting is named elsewhere, with the rule that speaks of it; such lines are left out here.
"""

from collections.abc import Callable, Iterator, Sequence

from profilesmith.merge.text_form import form_changes
from profilesmith.merge.text_lines import TextLine, align, text_lines
from profilesmith.text.document import Document

MOST, LONGEST = 3, 80  # lines of a kind that are shown, characters of a text
IsTold = Callable[[TextLine], bool]


def line_edits(old: Document, mine: Document, is_mapped: IsTold, told_then: IsTold, told_now: IsTold) -> Iterator[str]:
    """One sentence for each changed value, one for all lines put in, one for those taken out, and so on.

    is_mapped: whether the map knows the key. told_then, told_now: whether a line of the old or the new text is named
    already, as a setting.
    """
    was, now = text_lines(old), text_lines(mine)
    alignment = align(was, now)
    for at, to in sorted(alignment.pairs.items(), key=lambda places: places[1]):
        before, after = _value(old, was[at]), _value(mine, now[to])
        if before != after and not told_now(now[to]):
            same = "; to the map it means the same" if is_mapped(now[to]) else ""
            yield f"{_named(now[to])} {_cut(before)} → {_cut(after)} ({mine.name}:{now[to].number}){same}"
    new, gone = set(range(len(now))) - set(alignment.pairs.values()), set(range(len(was))) - set(alignment.pairs)
    yield from _lines("put in", mine, [now[at] for at in sorted(new) if not told_now(now[at])])
    yield from _lines("taken out", old, [was[at] for at in sorted(gone) if not told_then(was[at])])
    yield from _lines("moved", mine, [now[alignment.pairs[at]] for at in sorted(alignment.moved)])
    around = [now[to] for at, to in sorted(alignment.pairs.items()) if _frame(old, was[at]) != _frame(mine, now[to])]
    yield from _lines("changed around their values", mine, around)
    for decision in form_changes(old, mine):
        yield f"{decision.what}: {decision.was} → {decision.hand} ({mine.name})"


def _named(line: TextLine) -> str:
    return f"[{line.section}] {line.name}" if line.section else line.name


def _value(document: Document, line: TextLine) -> str:
    return document.text[line.value_start : line.value_end]


def _frame(document: Document, line: TextLine) -> tuple[str, str]:
    return document.text[line.start : line.value_start], document.text[line.value_end : line.end]


def _cut(text: str) -> str:
    return f"{text[:LONGEST]}…" if len(text) > LONGEST else text or "nothing"


def _lines(what: str, document: Document, lines: Sequence[TextLine]) -> Iterator[str]:
    """``2 lines were put in (soft.txt): 1 "# remark", 9 "lamp = 3"``."""
    if not lines:
        return
    shown = [
        f'{line.number} "{_cut(document.text[line.start : line.end].strip())}"'
        if line.kind != "blank"
        else f"{line.number} (empty)"
        for line in lines[:MOST]
    ]
    more = f" and {len(lines) - MOST} more" if len(lines) > MOST else ""
    yield (
        f"{len(lines)} {'line was' if len(lines) == 1 else 'lines were'} {what} ({document.name}): "
        f"{', '.join(shown)}{more}"
    )
