"""What parts keys from values in a text, division from its lines: one sign or several, columns, a blank.

And whether a line holds several keys, or its key behind the value.

Comes in: lines. Goes out: the delimiters of ``[text]``, the commonest first; ``next_key``; ``value_first``.
"""

import re
from collections import Counter
from collections.abc import Iterable, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.text.cuts import BEFORE_NUMBER, COLUMNS, GAP

SIGNS = (
    *["-->", "==>", "::", ":=", "==", "=:", "=>", "->", "<-", ">>", "→", "⇒"],
    ". .",
    "..",
    "=",
    ":",
    "|",
    ";",
    *"-–—~>",
)
_APART = frozenset("-–—~>")  # must have blanks on both sides
_SIGN = re.compile(
    "|".join([re.escape(sign) for sign in SIGNS if sign not in _APART] + [r"(?<=[ \t])[\-–—~>](?=[ \t])"])
)
NUMBER = r"[-+]?(?:\d[\d.,]*|[.,]\d+)(?:/\d+)?"
_UNIT = r"[^\W\d_%°\"'][\w/²³^%°.]{0,7}|[%°\"€$][\w/]{0,3}"
VALUE = re.compile(
    rf"(?:[$€£]\s?)?{NUMBER}\s?(?:{_UNIT})?(?=\s|$|[;|,)/])"
    rf"|[\"'«„“][^\"'»“”]*[\"'»“”]|[^\W\d_][\w.+-]{{0,23}}(?=\s|$|[;|,])"
    r"|[-–](?=\s|$)"
)
_WORDY = re.compile(r"[^\W\d_]|[§#&@$]\d")  # or a numbered code
_TIME = re.compile(r"\d:\d")
LONGEST_KEY, MOST_WORDS = 60, 9  # signs and words
_ONE = re.compile(rf"([^\W\d_][\w.\-§]*)(?:\s*(?:=|:|->)\s*|[ \t])({NUMBER}\s?(?:{_UNIT})?|\w{{1,12}}|-)\s*\Z")
_SIGNED = re.compile(rf"([^\W\d_][\w.\- ]*?)\s*(?:=|:|->)\s*({NUMBER}\s?(?:{_UNIT})?|[^\W\d_]\w*)\s*\Z")
_REMARK = re.compile(r"(?<=\s)(?://|--|!!|#|/\*|<!--|[({\[~']\s?[^\W\d_])")
_ENDS_IN_NUMBER = re.compile(rf"(\S(?:.*?\S)?)\s({NUMBER}\s?(?:{_UNIT})?)(?:\s*$|\s{{2,}}|\s+(?=[#({{\[/']))")


_VALUE_FIRST = re.compile(rf"{NUMBER}\s+[^\W\d_]{{2,}}(?: [^\W\d_]+)*\Z")


class Division(NamedTuple):
    """A line's key, what stands behind it, and the rest."""

    key: str
    sign: str
    value: str


def divide(line: str, without: Iterable[str] = ()) -> Division | None:
    """A line at its first sign or gap; None where there is none, or nothing that could be a key before it."""
    body = line.strip()
    if body.startswith("|"):
        body = body.strip("|").strip()
    gap = GAP.search(body)
    for division in _SIGN.finditer(body):
        if division[0] in _APART and body[: division.start()].rstrip()[-1:].isdigit():
            continue  # a remark behind a value
        if division[0] in without or (division[0] == ":" and _TIME.match(body, division.start() - 1)):
            continue
        if gap and gap.start() < division.start() and gap.end() != division.start() and COLUMNS not in without:
            break
        end = division.end()
        while division[0] in ("..", ". .") and body[end : end + 1] in (".", " ") and end < len(body):
            end += 1
        return _division(body[: division.start()], division[0], body[end:])
    if gap and COLUMNS not in without:
        return _division(body[: gap.start()], "\t" if "\t" in gap[0] else COLUMNS, body[gap.end() :])
    return None


def _division(key: str, sign: str, value: str) -> Division | None:
    key, value = key.strip(), value.strip()
    keyed = key and len(key) <= LONGEST_KEY and len(key.split()) <= MOST_WORDS
    return Division(key, sign, value) if keyed else None


def is_value(text: str) -> bool:
    """Whether a text begins with a number, a word or something in quotes."""
    return bool(VALUE.match(text))


class Layout(NamedTuple):
    """See ``Habits``, which it becomes a part of."""

    delimiters: tuple[str, ...]
    next_key: str = ""
    value_first: bool = False


FEWEST_ROWS = 2


def find_layout(lines: Sequence[str]) -> Layout:
    """lines: without remarks of their own and headings."""
    next_key = _find_next_key(lines)
    if next_key:
        rows = [_pieces(line, next_key) for line in lines]
        keyed = [piece for row in rows if all(_form(next_key).match(piece) for piece in row) for piece in row]
        lines = keyed or [piece for row in rows for piece in row]
    delimiters = find_delimiters(lines)
    return Layout(delimiters, next_key, _is_value_first(lines, delimiters))


def _pieces(line: str, mark: str) -> list[str]:
    """What a mark parts in a line."""
    body = line.strip()
    pieces = GAP.split(body) if mark == COLUMNS else body.split(mark)
    return [piece.strip() for piece in pieces if piece.strip()]


def _form(mark: str) -> re.Pattern[str]:
    """What a piece looks like that holds one key with its value."""
    return _ONE if mark == COLUMNS else _SIGNED


def _find_next_key(lines: Sequence[str]) -> str:
    """What parts several keys of one line: most of its pieces hold a key and a value each."""
    for mark in (COLUMNS, ";", ",", "|"):
        rows = singles = 0
        # A mark that ends a line and parts none: "a;1;mm;" is a row of cells.
        closed = sum(line.find(mark) == len(line.rstrip()) - 1 for line in lines) if mark in (";", ",") else 0
        if closed >= FEWEST_ROWS and closed * 5 >= len(lines) * 4:
            return mark  # statements: ``key = value;``
        for line in lines:
            pieces = _pieces(line, mark)
            keyed = sum(1 for piece in pieces if _form(mark).match(piece))
            numbers = sum(1 for piece in pieces if piece[-1].isdigit() or _ENDS_IN_NUMBER.match(piece))
            if len(pieces) > 1 and keyed == len(pieces) < 2 * numbers:
                rows += 1
            elif len(pieces) == 1 and keyed:
                singles += 1
        if rows >= FEWEST_ROWS and rows * 5 >= singles:
            return mark
    return ""


def find_delimiters(lines: Sequence[str]) -> tuple[str, ...]:
    """What parts most lines, then what parts lines that it leaves alone."""
    accepted: list[str] = []
    refused: set[str] = set()
    while True:
        count = _votes(lines, accepted, refused)
        best = max(count, key=lambda sign: (count[sign], sign in "=:"), default="")
        if not best or best in (*accepted, *refused) or count[best] < _least(best, accepted):
            break
        if accepted and _breaks(best, accepted, lines):
            refused |= {COLUMNS, "\t"} if best in (COLUMNS, "\t") else {best}
            continue
        accepted.append(best)
    return _named(accepted, lines) or ("=",)


def _least(sign: str, accepted: list[str]) -> int:
    """How many lines a further sign must have of its own."""
    if not accepted:
        return 1
    return 1 if sign in ("=", ":", "->", "=>", ":=") else 2 if sign not in (BEFORE_NUMBER, " ") else 3


def _votes(lines: Sequence[str], accepted: list[str], refused: set[str]) -> Counter[str]:
    """How many lines that no accepted sign parts each other sign does."""
    count: Counter[str] = Counter()
    for line in lines:
        if any(_parts_by(line, sign) for sign in accepted):
            continue
        division = divide(line, refused)
        if division is not None and is_value(division.value):
            count[division.sign] += 1
            continue
        if _VALUE_FIRST.match(line.strip()):
            count[" "] += 1
        elif BEFORE_NUMBER not in refused and _ENDS_IN_NUMBER.match(line.strip()) and _WORDY.search(line.split()[0]):
            count[BEFORE_NUMBER] += 1
    return count


def _parts_by(line: str, sign: str) -> bool:
    if sign == BEFORE_NUMBER:
        return bool(_ENDS_IN_NUMBER.match(line.strip()))
    if sign == " ":
        return bool(_VALUE_FIRST.match(line.strip()))
    if sign in (COLUMNS, "\t"):
        division = divide(line)
        return division is not None and division.sign in (COLUMNS, "\t")
    at = line.find(sign)
    while sign == ":" and at > 0 and _TIME.match(line, at - 1):
        at = line.find(sign, at + 1)
    return at > 0 and bool(line[:at].strip())


def _breaks(sign: str, accepted: list[str], lines: Sequence[str]) -> bool:
    """Whether a sign stands before an accepted one in lines that this one parts well."""
    if sign in (BEFORE_NUMBER, " "):
        return False
    broken = fine = 0
    for line in lines:
        body = _REMARK.split(line, maxsplit=1)[0]
        new = divide(body, [one for one in SIGNS if one != sign] if sign not in (COLUMNS, "\t") else SIGNS)
        old = next((one for one in accepted if one.strip() and _parts_by(body, one)), "")
        if old and new is not None and sign.strip() and 0 <= body.find(sign) < body.find(old):
            broken += 1
        elif old and new is not None and not sign.strip() and len(new.key) < body.strip().find(old):
            broken += not new.value.startswith(old)
        else:
            fine += new is not None
    return broken * 8 > fine


def _named(accepted: list[str], lines: Sequence[str]) -> tuple[str, ...]:
    """Blanks by what they are: columns where keys have blanks in them, else any run of blanks."""
    signs = [sign for sign in accepted if sign.strip()]
    if accepted == [" "]:
        return (" ",)
    gaps = [sign for sign in accepted if sign in (COLUMNS, "\t")]
    keys = [division.key for division in map(divide, lines) if division is not None and division.sign in gaps]
    spaced = any(" " in key for key in keys)
    if gaps and (spaced or signs):
        signs.insert(
            accepted.index(gaps[0]) if accepted[0] in gaps else len(signs), "\t" if gaps == ["\t"] else COLUMNS
        )
    if BEFORE_NUMBER in accepted:
        own = [line.strip() for line in lines if not any(_parts_by(line, one) for one in accepted if one.strip())]
        one_word = all(" " not in division[1] for line in own if (division := _ENDS_IN_NUMBER.match(line)))
        blank = " " if one_word and not spaced else BEFORE_NUMBER
        signs.insert(0 if accepted[0] == BEFORE_NUMBER else len(signs), blank)
    elif (gaps and not spaced and len(accepted) == len(gaps)) or " " in accepted:
        signs.append(" ")
    return tuple(dict.fromkeys(signs))


def _is_value_first(lines: Sequence[str], delimiters: tuple[str, ...]) -> bool:
    """Whether most lines have a number before their sign and words behind it."""
    behind = before = 0
    for line in lines:
        division = divide(line)
        if division is None:
            behind += bool(_VALUE_FIRST.match(line.strip()))
            continue
        left = bool(re.fullmatch(rf"{NUMBER}\s?(?:{_UNIT})?", division.key))
        right = bool(re.match(NUMBER, division.value))
        behind, before = behind + (left and not right), before + (right and not left)
    return behind > 3 * before and behind >= 3
