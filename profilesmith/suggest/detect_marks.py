"""Which marks a text is written with: what begins a remark, on a line of its own or behind a value, and what parts
keys from values.

Comes in: lines. Goes out: the marks of ``[text]``: comments, inline_comments, delimiter.
"""

import re
from collections import Counter
from collections.abc import Sequence

# What may stand between a key and its value; two signs before one. A bar or a tab only where nothing better is there.
DELIMITER = re.compile(r"::|:=|==|=:|=>|->|<-|>>|[=:]")
_RARE = re.compile(r"\||\t")  # looked for last: a tab may also stand before another sign
MARKS = ("#", ";", "//", "--", "!", "'", "%", "~", "*", ">", "(", "{", "|", "/*", "<!--", "rem ", "REM ")
USUAL = ("#", ";", "//")
ODD = frozenset({"'", "(", "{", "|", "*", ">", "~"})  # begin a line of values now and then
# What may begin a remark behind a value. A bar, a blank or a bracket may also be part of it: they must do so often.
BLANKS = "  "  # a run of them
BEHIND = ("#", ";", "//", "--", "!", "'", "%", "~", "(", "[", "{", "|", "/*", "<!--", "<-", BLANKS)
FEWEST_BEHIND, PART_BEHIND = 3, 0.15  # lines, and of all lines, that have such a mark behind a short value
_SHORT_VALUE = r"[-+]?[\w.,/%°²³µ\"'+-]{1,16}(?: ?[a-zA-Z%°µ][\w/%°²³^-]{0,7})?"
_WORDS = re.compile(r"[^\W\d_]{2,}")
LONGEST_KEY = 6  # words


def find_marks(bodies: Sequence[str]) -> tuple[str, ...]:
    """What begins the lines that are remarks. A mark that is seen once only must be a usual one."""
    count = Counter(mark for body in bodies for mark in MARKS if body.startswith(mark))
    plain = Counter(mark for body in bodies for mark in MARKS if body.startswith(mark) and not DELIMITER.search(body))
    return tuple(
        mark
        for mark in MARKS
        if (count[mark] >= FEWEST_BEHIND and (mark not in ODD or plain[mark] * 2 >= count[mark]))
        or (count[mark] and mark in USUAL)
        or (plain[mark] >= 2 and mark not in ODD)
        or (plain[mark] == count[mark] >= 1 and mark in ("(", "{") and all(_is_bracketed(b, mark) for b in bodies))
    )


def _is_bracketed(body: str, mark: str) -> bool:
    return not body.startswith(mark) or body.endswith({"(": ")", "{": "}"}[mark])


def find_marks_behind(lines: Sequence[str], known: tuple[str, ...]) -> tuple[str, ...]:
    """Marks of remarks that stand behind values, besides those that begin lines: ``P201 = 2700 (F OUTER CONTOUR)``."""
    count: Counter[str] = Counter()
    for line in lines:
        for mark in BEHIND:
            if mark not in known and has_remark(line, mark):
                count[mark] += 1
                break
    least = max(FEWEST_BEHIND, int(PART_BEHIND * len(lines)))
    return tuple(mark for mark in BEHIND if count[mark] >= (2 * least if mark == BLANKS else least))


def has_remark(line: str, mark: str) -> bool:
    """Whether a line is a key, a delimiter, a short value, and words behind the mark."""
    found = DELIMITER.search(line, 1)
    rest = line[found.end() :].strip() if found else line.strip().partition(" ")[2].strip()
    gap = r"(?=\s\s+\w)" if mark == BLANKS else rf"\s+(?={re.escape(mark)})"
    value = re.match(rf"{_SHORT_VALUE}{gap}", rest)
    return value is not None and bool(_WORDS.search(rest[value.end() + len(mark) :]))


def find_delimiters(lines: Sequence[str]) -> tuple[str, ...]:
    """What parts keys from values: whichever of ``=``, ``:`` and a blank parts most lines, then others that some lines
    have.
    """
    count = Counter({"=": 0, ":": 0})
    for line in lines:
        found = DELIMITER.search(line, 1) or _RARE.search(line, 1)
        if found and line[: found.start()].strip():
            spaced = " " in line[: found.start()].strip()  # a tab behind a key of several words
            count[found[0].strip() or ("\t" if spaced else " ")] += 1
        elif _key_then_value(line):
            count[" "] += 1
    if count["\t"]:  # a tab parts the keys of one word too
        count["\t"] += count.pop(" ", 0)
    best = max(count, key=lambda mark: count[mark])
    if not count[best]:
        return ("=",)
    others = [mark for mark, times in count.most_common() if times and mark != best]
    return (best, *(mark for mark in others if _is_another(mark, best, lines)))


def _is_another(mark: str, best: str, lines: Sequence[str]) -> bool:
    """Whether lines without the usual delimiter are settings by another one, and no line has that one before the usual
    one.
    """
    if not mark.strip() or not best.strip() or mark in "|" or best in mark or mark in best:
        return False
    without = [line for line in lines if best not in line and mark in line]
    before = any(0 <= line.find(mark) < line.find(best) for line in lines)
    return bool(without) and not before and all(_is_setting(line, mark) for line in without)


def _is_setting(line: str, mark: str) -> bool:
    key, _, value = line.partition(mark)
    return 1 <= len(key.split()) <= LONGEST_KEY and bool(re.match(rf"\s*{_SHORT_VALUE}(?:\s|$)", value))


def _key_then_value(line: str) -> bool:
    words = line.split()
    return 2 <= len(words) <= LONGEST_KEY and words[0][0].isalpha() and words[1].lstrip("-+.\"'")[:1].isdigit()
