"""Which lines head a part of a text, besides ``[name]``: closed from what stands before and behind them.

Comes in: all lines, blank ones too, and the marks of remarks. Goes out: the forms of ``headings`` in ``[text]``.
"""

import re
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from operator import methodcaller

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.detect_delimiters import divide, is_value
from profilesmith.suggest.detect_numbered_headings import numbered_forms
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.switch_words import KNOWN
from profilesmith.text.cuts import GAP
from profilesmith.text.heading_forms import LONGEST, MOST_WORDS, NUMBER, PLACE, number_pattern, read_form

_CLOSED = re.compile(
    r"(?P<open>(?P<sign>[=\-~*#+_:.%|^–—·])(?P=sign)*)\s*(?P<name>[^\W_].*?)\s*(?P=sign)+"
    r"(?:\s+(?:[(#;|!']|--|//|[–—]).*)?\Z"
)
_OPEN = re.compile(r"(?P<sign>[>#*@§~%!+=;:'/\-]{1,3})\s+(?P<name>[^\W_].*)\Z")
_COLUMN = re.compile(r"[^\W\d_](?:[^\W\d]|[./%-])*(?: (?:[^\W\d]|[./%-])+)*")  # what a column may be called
_MIRROR = {"<": ">", "<<": ">>", "(": ")", "((": "))", "{": "}", "«": "»", "[": "]", "[[": "]]"}
_ENCLOSED = re.compile(
    r"(?P<left><<?|\(\(?|\{|«|\[\[?)\s*(?P<name>[^\W\d_][^<>(){}«»\[\]]*?)\s*(?P<right>>>?|\)\)?|\}|»|\]\]?)"
)
_RULED = re.compile(r"(?P<name>[^\W\d_][^=\-~*#_{]*?)\s+(?P<sign>[=\-~*#_]{3,}|\{)")
SOFT = frozenset({"#", ";", "//", "--", "!", "!!", "'", "%", "%%", "(", "{"})
"""What begins remarks too: such lines head parts only where the same key stands below several of them."""
FEWEST = 2
CODED_NUMBER = re.compile(r"\S*\d\S*\s+[-+]?[.,]?\d\S*")  # "P101 0.2" heads nothing


class HeadingCandidate(NamedTuple):
    """A line that may be a heading: its form and its name."""

    form: str
    name: str
    soft: bool


def find_headings(lines: Sequence[str], marks: tuple[str, ...]) -> tuple[str, ...]:
    """The forms, the commonest first."""
    bodies = [line.strip() for line in lines]
    indents = indents_of(lines)
    count: Counter[str] = Counter()
    soft: dict[str, bool] = {}
    for at, body in enumerate(bodies):
        for candidate in _candidates(body, marks):
            if _heads(bodies, indents, at, candidate, marks):
                count[candidate.form] += 1
                soft[candidate.form] = candidate.soft
    hard = [form for form, times in count.most_common() if not soft[form] and _holds(form, times, bodies, marks)]
    if not hard and _repeats(bodies, marks, soft):
        return tuple(form for form, times in count.most_common() if soft[form] and times >= FEWEST)[:1]
    return tuple(hard)


def indents_of(lines: Sequence[str]) -> list[int]:
    """How far each line is set in."""
    return [len(line) - len(line.lstrip()) for line in lines]


def opens_block(bodies: Sequence[str], indents: Sequence[int], at: int) -> bool:
    """Whether a line stands out from what is above it, as the reader will see it."""
    return at == 0 or not bodies[at - 1] or bodies[at].isupper() or indents[at] < indents[at - 1]


def _candidates(body: str, marks: tuple[str, ...]) -> Iterator[HeadingCandidate]:
    if not body:
        return
    enclosed = _ENCLOSED.fullmatch(body)
    if enclosed and _MIRROR.get(enclosed["left"]) == enclosed["right"] and _is_name(enclosed["name"]):
        soft = enclosed["left"] in SOFT
        if enclosed["left"] != "[" or "[" in marks:
            yield HeadingCandidate(f"{enclosed['left']} {PLACE} {enclosed['right']}", enclosed["name"], soft)
        return
    if body.startswith("["):
        return
    for form, name in numbered_forms(body):
        if _is_name(name):
            yield HeadingCandidate(form, name, body.startswith((*marks, *SOFT)))
    ruled = _RULED.fullmatch(body)
    if ruled and _is_name(ruled["name"]):
        yield HeadingCandidate(f"{PLACE} {ruled['sign'][:3]}", ruled["name"], False)
        return
    closed = _CLOSED.match(body)
    if closed and closed["name"]:
        if _is_name(closed["name"]):
            yield HeadingCandidate(f"{closed['open']} {PLACE} {closed['open']}", closed["name"], False)
        return
    opened = _OPEN.match(body)
    if opened:
        if _is_name(opened["name"]):
            yield HeadingCandidate(f"{opened['sign']} {PLACE}", opened["name"], opened["sign"] in SOFT)
        return
    if body.startswith(marks) and marks:
        return
    name, colon, rest = body.partition(":")
    remarked = rest[:1].isspace() and bool(marks) and rest.strip().startswith(marks)
    if colon and (remarked or not rest.strip()) and _is_name(name):
        yield HeadingCandidate(f"{PLACE}:", name, False)
    columns = GAP.split(body)
    if len(columns) > 1 and all(_COLUMN.fullmatch(cell) for cell in columns) and not _is_switch(columns[1]):
        if read_form("  ".join((PLACE, *columns[1:]))) is not None:  # a column may be called so
            yield HeadingCandidate("  ".join((PLACE, *columns[1:])), columns[0], False)
    elif len(columns) == 1 and not colon and body[0].isalpha() and _is_name(body) and not CODED_NUMBER.fullmatch(body):
        yield HeadingCandidate(PLACE, body, False)


def _is_switch(cell: str) -> bool:
    """Whether a column's text is how a switch is set: ``supports    ON`` heads nothing."""
    lexicon, word = load_lexicon(), cell.casefold()
    return word in KNOWN or word in lexicon.on or word in lexicon.off


def _is_name(text: str) -> bool:
    divided = divide(text)
    words = text.split()
    return (
        len(text) <= LONGEST
        and 1 <= len(words) <= MOST_WORDS
        and PLACE not in text
        and text[-1] not in ".;!?"
        and any(char.isalpha() for char in text)
        and (divided is None or not is_value(divided.value))
    )


def _heads(
    bodies: Sequence[str], indents: Sequence[int], at: int, candidate: HeadingCandidate, marks: tuple[str, ...]
) -> bool:
    """Whether a block of settings stands below a line. What nothing closes needs a gap above it too."""
    above = opens_block(bodies, indents, at)
    numbered = NUMBER in candidate.form and not candidate.form.startswith(NUMBER)
    closed = numbered or (candidate.form[0] != PLACE[0] and not candidate.form.endswith(PLACE))
    if not closed and not above:
        return False
    below = at + 1
    while below < len(bodies) and (
        not bodies[below] or (marks and bodies[below].startswith(marks)) or not any(map(str.isalnum, bodies[below]))
    ):
        if not bodies[below] and candidate.form.startswith(PLACE):
            return False
        below += 1
    if below >= len(bodies):
        return False
    row = divide(bodies[below])
    if "  " in candidate.form:
        cells = len(GAP.split(bodies[below]))
        alike = candidate.form.count("  ") <= cells <= candidate.form.count("  ") + 1
        return row is not None and bool(re.search(r"\d", row.value)) and is_value(row.value) and alike
    return (row is not None and is_value(row.value)) or bool(re.match(r"\S.*\s[-+]?\d", bodies[below]))


def _holds(form: str, times: int, bodies: Sequence[str], marks: tuple[str, ...]) -> bool:
    """Whether a form is met often enough, and whether most lines that begin so are headings: all, where remarks may."""
    before = form.partition(PLACE)[0].strip()
    closed = bool(before) and not form.endswith(PLACE)
    if "  " in form:
        return times >= FEWEST or form.count("  ") >= FEWEST
    if closed:
        return times >= 1
    if not before:
        return times >= FEWEST
    begins = number_pattern(before).match if NUMBER in before else methodcaller("startswith", before)
    begun = sum(1 for body in bodies if begins(body))
    return times >= FEWEST and (times == begun if before.startswith(marks) else times * 5 >= begun * 3)


def _repeats(bodies: Sequence[str], marks: tuple[str, ...], soft: dict[str, bool]) -> bool:
    """Whether keys stand several times in one section, with different values."""
    section, seen = "", defaultdict[tuple[str, str], set[str]](set)
    for body in bodies:
        if body.startswith("["):
            section = body
        elif body and not (marks and body.startswith(marks)):
            row = divide(body)
            if row is not None:
                seen[section, row.key].add(row.value)
    return sum(len(values) > 1 for values in seen.values()) >= FEWEST
