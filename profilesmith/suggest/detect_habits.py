"""How a text is written, found in the text itself: delimiter, comments, decimal mark, switch words, repeated keys.

Comes in: texts, then Documents. Goes out: the habits that Documents are read with, and what ``[text]`` says besides.
Lists and packed values are next door, in ``detect_lists``.
"""

import re
from collections.abc import Iterable, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.detect_delimiters import divide, find_layout
from profilesmith.suggest.detect_headings import CODED_NUMBER, find_headings, indents_of, opens_block
from profilesmith.suggest.detect_marks import USUAL, find_marks, find_marks_behind, has_remark
from profilesmith.suggest.key_tables import FEWEST_ENTRIES, explained_codes
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.short_value import SAMPLE
from profilesmith.suggest.switch_words import find_switch_words
from profilesmith.text.cuts import COLUMNS
from profilesmith.text.document import Document, Habits
from profilesmith.text.heading_forms import PLACE, HeadingForms
from profilesmith.text.read_document import LINES

_NUMBERED = re.compile(r"\s*(\d[\w./,:–-]*?)[.):]?(?=[\s=:|>-])")
_SQUARE = re.compile(r"\[[^\[\]]+\]")


class Writing(NamedTuple):
    """A text's habits. words: its words for on and off, () when they are not seen or of a family that is known anyway.

    duplicates: which counts when a key of one section is written twice with different values, else "".
    list: the separator of per-tool values that a map states, "" to detect it.
    """

    habits: Habits
    decimal: str
    words: tuple[str, ...] = ()
    duplicates: str = ""
    list: str = ""


def find_habits(texts: Iterable[str]) -> Habits:
    """The habits of some files that are read together."""
    lines = [line for text in texts for line in LINES.findall(text)[:SAMPLE]]
    bodies = [line.strip() for line in lines]
    marks = find_marks([body for body in bodies if body])
    headings = find_headings(lines, marks)
    forms = HeadingForms(headings, marks)
    indents = indents_of(lines)
    headed = [is_heading(forms, bodies, at, opens_block(bodies, indents, at)) for at in range(len(bodies))]
    # What begins headings only begins no remarks.
    marks = tuple(m for m in marks if any(b.startswith(m) and not head for b, head in zip(bodies, headed, strict=True)))
    explained = explained_codes([body.lstrip("".join(marks) + " \t") for body in bodies])
    plain = [
        _as_key(line, explained.codes)
        for at, (line, body, head) in enumerate(zip(lines, bodies, headed, strict=True))
        if body and not head and at not in explained.lines and not body.startswith((*marks, "["))
    ]
    layout = find_layout(plain)
    known = (*marks, COLUMNS) if layout.next_key == COLUMNS else marks
    behind = find_marks_behind(plain, known, layout.delimiters)
    if "[" in behind and sum(1 for body in bodies if _SQUARE.fullmatch(body)) > 1:  # such lines are no remarks
        headings = (*headings, f"[{PLACE}]")
    headings = tuple(form for form in headings if form.startswith("[") or not form.startswith(behind or ("\0",)))
    marks = (*marks, *behind) or tuple(mark for mark in USUAL if mark not in layout.delimiters)
    return Habits(
        comments=marks,
        inline=bool(behind) or _find_inline(plain, marks),
        delimiter=layout.delimiters[0],
        others=layout.delimiters[1:],
        headings=headings,
        next_key=layout.next_key,
        value_first=layout.value_first,
    )


def _as_key(line: str, codes: frozenset[str]) -> str:
    """A line whose key is a bare number as if it were a word: numbers that begin lines are values otherwise."""
    number = _NUMBERED.match(line)
    return f"n{line.lstrip()}" if number and number[1] in codes else line


def is_heading(forms: HeadingForms, bodies: Sequence[str], at: int, opens: bool) -> bool:
    """Whether a line is one, as the reader will see it."""
    body = bodies[at]
    if not body or body.startswith("[") or CODED_NUMBER.fullmatch(body):
        return False
    return forms.span(body, opens) is not None or (divide(body) is None and forms.alone(body, opens) is not None)


def _find_inline(lines: list[str], marks: tuple[str, ...]) -> bool:
    """Whether remarks stand behind values: a mark behind two blanks or a tab, or behind one on several lines."""
    sure = maybe = 0
    for line in lines:
        for mark in marks:
            at = line.find(f" {mark}")
            if at < 0:
                at = line.find(f"\t{mark}")
            behind = line[at + 1 + len(mark) :].strip()
            if at > 0 and line[:at].count('"') % 2 == 0 and behind and not _goes_on(line[:at], mark, behind):
                wide = line[max(at - 1, 0) : at + 1].isspace() and at >= 1 and line[at - 1] in " \t"
                wide = wide or (mark in USUAL and has_remark(line, mark) and line[at + 1 + len(mark)] in " \t")
                sure, maybe = sure + wide, maybe + 1
    return sure >= 1 or maybe >= 2


def _goes_on(before: str, mark: str, behind: str) -> bool:
    """Whether a semicolon parts two tools' values: a number follows, or the same word again."""
    return mark == ";" and (behind[0].isdigit() or before.rstrip().endswith(behind))


def writing_of(documents: tuple[Document, ...], habits: Habits, lexicon: Lexicon) -> Writing:
    """What the values and keys say of a text's habits."""
    return Writing(
        habits=habits,
        decimal=find_decimal(documents),
        words=find_switch_words(documents, lexicon),
        duplicates=_which_counts(documents) if _repeats(documents) else "",
    )


def find_decimal(documents: tuple[Document, ...]) -> str:
    """The decimal mark that more plain numbers are written with; lists do not count, nor does ``12,000``."""
    commas = points = 0
    for document in documents:
        for item in document.assignments[:SAMPLE]:
            text = document.text[item.start : min(item.end, item.start + 24)].strip("\"' ")
            head, mark, tail = text.partition("," if "," in text else ".")
            grouped = mark == "," and len(tail) == 3 and head[:1] != "0" and len(head.strip("-+")) <= 3
            if mark and head.strip("-+").isdigit() and tail[:1].isdigit() and "," not in tail and not grouped:
                commas, points = commas + (mark == ","), points + (mark == ".")
    return "," if commas > points else "."


def _repeats(documents: tuple[Document, ...]) -> bool:
    seen: dict[tuple[str, str], str] = {}
    for document in documents:
        for item in document.assignments:
            if seen.setdefault((item.section, item.key), document.value(item)) != document.value(item):
                return True
    return False


def _which_counts(documents: tuple[Document, ...]) -> str:
    """The first of a key's lines where a list below says what most such keys are, else the last."""
    values: dict[tuple[str, str], list[str]] = {}
    for document in documents:
        for item in document.assignments:
            values.setdefault((item.section, item.key), []).append(document.value(item))
    ends = [(texts[0][:1].isdigit(), texts[-1][:1].isdigit()) for texts in values.values() if len(texts) > 1]
    first, last = ends.count((True, False)), ends.count((False, True))
    return "first" if first >= FEWEST_ENTRIES and first > last else "last"
