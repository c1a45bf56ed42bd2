"""Which marks a text is written with: what begins a remark, on a line of its own or behind a value, and what parts
keys from values.

Comes in: lines. Goes out: the marks of ``[text]``: comments, inline_comments, delimiter.
"""

import re
from collections import Counter
from collections.abc import Sequence

from profilesmith.suggest.detect_delimiters import is_value
from profilesmith.text.cuts import COLUMNS, Cuts, comment_at

DELIMITER = re.compile(r"::|:=|==|=:|=>|->|<-|>>|[=:]")
MARKS = ("#", ";", "//", "--", "!", "'", '"', "%", "~", "**", "*", ">", "(", "{", "|", "/*", "<!--", "rem ", "REM ")
USUAL = ("#", ";", "//")
ODD = frozenset({"'", '"', "(", "{", "|", "*", ">", "~"})  # begin a line of values now and then
# What may begin a remark behind a value. A bar, a blank or a bracket may also be part of it: they must do so often.
BLANKS = COLUMNS  # a run of them
BEHIND = (
    "#",
    ";",
    "//",
    "--",
    "!",
    "'",
    "%",
    "~",
    "**",
    "(",
    "[",
    "{",
    "<",
    "|",
    "/*",
    "<!--",
    "<-",
    "<<",
    "«",
    "/",
    BLANKS,
)
PARTS = (";", "|", BLANKS)  # what parts the columns of a table where it divides keys from values too
FEWEST_BEHIND, PART_BEHIND = 3, 0.15  # lines, and of all lines, that have such a mark behind a short value
_SHORT_VALUE = r"[-+]?[\w.,/%°²³µ\"'+-]{1,16}(?: ?[a-zA-Z%°µ][\w/%°²³^-]{0,7})?"
_CLOSED = {"(": r"\)", "[": r"\]", "{": r"\}", "/": "/", "<": ">"}
_OLD_VALUE = r"\s*[-+]?[\d.,]+(?:\s?\.\.\.?\s?[\d.,]+)?\s?[^\s\d()\[\]{}/]{0,6}\s*"  # "(60)", "[195..220]", "/50/"
_LISTING = frozenset("|;/~&+@")  # signs that part the values of several tools too
_NUMBER = re.compile(r"[-+]?[.,]?\d")
_WIDE = re.compile(r"\s{2,}\Z|\t\Z")
_STRANGE = re.compile(
    rf"{_SHORT_VALUE}(?:\s?[,/;|&] ?{_SHORT_VALUE})?(?:\s{{2,}}|\t\s*)"
    r"([^\w\s.,+°%$€£\[\](){}|;]{1,3}) ?[^\W\d_]{2}"
)
_WORDS = re.compile(r"[^\W\d_]{2,}")
_WORD = re.compile(r"[^\W\d_]|[%°]")
MOST_OF_VALUE = 3  # words
LONGEST_VALUE = 40  # signs of the values of a few tools


def find_marks(bodies: Sequence[str]) -> tuple[str, ...]:
    """What begins the lines that are remarks. A mark that is seen once only must be a usual one."""
    if _is_table(bodies):
        bodies = [body for body in bodies if not body.startswith("|")]
    bodies = [body for body in bodies if not (body.startswith("**") and body.endswith("**"))]  # headings
    count = Counter(mark for body in bodies for mark in MARKS if body.startswith(mark))
    plain = Counter(mark for body in bodies for mark in MARKS if body.startswith(mark) and not _is_setting(body, mark))
    return tuple(
        mark
        for mark in MARKS
        if (count[mark] >= FEWEST_BEHIND and (mark not in ODD or plain[mark] * 2 >= count[mark]))
        or (count[mark] and mark in USUAL)
        or (plain[mark] >= 2 and mark not in ODD)
        or (plain[mark] == count[mark] >= 1 and mark in ("(", "{") and all(_is_bracketed(b, mark) for b in bodies))
    )


def _is_setting(body: str, mark: str) -> bool:
    """Whether a key, its delimiter and no more than a short value follow a mark."""
    if mark == '"' and body.count(mark) > 1:  # text in quotes
        return True
    key = DELIMITER.search(body, len(mark))
    return key is not None and len(body[key.end() :].split()) <= MOST_OF_VALUE


def _is_table(bodies: Sequence[str]) -> bool:
    """Whether lines that begin with a bar are rows of a key and its value: what stands second is mostly a number."""
    rows = [[cell.strip() for cell in body.strip("|").split("|")] for body in bodies if body.startswith("|")]
    numbers = sum(1 for row in rows if len(row) > 1 and row[1][:1].isdigit())
    return numbers * 3 >= len(rows) > 0


def _is_bracketed(body: str, mark: str) -> bool:
    return not body.startswith(mark) or body.endswith({"(": ")", "{": "}"}[mark])


def find_marks_behind(lines: Sequence[str], known: tuple[str, ...], delimiters: tuple[str, ...]) -> tuple[str, ...]:
    """Marks of remarks that stand behind values, besides those that begin lines: ``P201 = 2700 (F OUTER CONTOUR)``."""
    cuts = Cuts(delimiters)
    count: Counter[str] = Counter()
    wide: Counter[str] = Counter()
    for line in lines:
        at = cuts.of(line)[1]
        rest = line[at:].strip() if at >= 0 else ""
        if any(
            follows_value(rest, m, delimiters) or f"  {m}" in rest or f"\t{m}" in rest for m in known if m != BLANKS
        ):
            continue
        listed = (mark for mark in BEHIND if mark not in known and follows_value(rest, mark, delimiters))
        mark = _strange_mark(rest, (*known, *delimiters)) or next(listed, "")
        if mark:
            count[mark] += 1
            wide[mark] += mark != BLANKS and rest[: rest.index(mark, 1)].endswith(("  ", "\t"))
    least = max(FEWEST_BEHIND, int(PART_BEHIND * len(lines)))
    return tuple(
        mark
        for mark in dict.fromkeys((*BEHIND, *count))
        if count[mark] >= (2 * least if mark in PARTS else least)
        or (mark not in PARTS and wide[mark] >= FEWEST_BEHIND and wide[mark] * 4 >= count[mark] * 3)
    )


def follows_value(rest: str, mark: str, delimiters: tuple[str, ...]) -> bool:
    """Whether what stands behind a key is a short value, or several alike, and then words behind the mark."""
    if mark in PARTS and (mark in delimiters or mark == BLANKS):
        at = comment_at(rest, (mark,), True, (mark,))
        return bool(at and is_value(rest) and _WORD.search(rest[at:]) and len(rest[:at]) <= LONGEST_VALUE)
    if mark == BLANKS:
        return False
    value = re.match(rf"{_SHORT_VALUE}\s+(?={re.escape(mark)})", rest)
    if (
        value
        and mark == "%"
        and rest[value.end() + 1 : value.end() + 2].strip() == ""
        and value[0].strip()[-1:].isdigit()
        and not _WIDE.search(value[0])
    ):
        return False  # per cent
    behind = rest[value.end() + len(mark) :] if value is not None else ""
    if mark in _LISTING and _NUMBER.match(rest) and _NUMBER.match(behind.strip()):
        return False  # another tool's number
    if mark in _CLOSED and re.fullmatch(_OLD_VALUE + _CLOSED[mark], behind):
        return True
    return mark != "/" and bool(_WORDS.search(behind))


def _strange_mark(rest: str, known: tuple[str, ...]) -> str:
    """A sign that no list has, behind a value and a gap, with words behind it."""
    match = _STRANGE.match(rest)
    return match[1] if match and match[1] not in known else ""


def has_remark(line: str, mark: str) -> bool:
    """Whether a line is a key, a delimiter, a short value, and words behind the mark."""
    mark_of_key = DELIMITER.search(line, 1)
    rest = line[mark_of_key.end() :].strip() if mark_of_key else line.strip().partition(" ")[2].strip()
    return follows_value(rest, mark, ())
