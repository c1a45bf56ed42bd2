"""Where a line divides into its key and its value, and into several keys with their values; where a remark begins."""

from __future__ import annotations

import re

from profilesmith.foundation.late_pattern import late

WIDE = "  "  # as a mark: a run of two blanks or more, or a tab
_WIDE = late(r" {2,}|[ ]*\t")
_NUMBERS = late(r"[-+]?[\d.,]+(?:/\d+)?\s?[^\s\d,;|]{0,7}\Z")
_PER_CENT = late(r"\d\s?\Z")  # what stands before the sign
# "16 %", "16 %    % how deep", "75 % of core.v": per cent, also where the sign begins remarks
_SHARE = late(r"%(?:\s*\Z|\s+%|\s+(?:of|von|vom|der|des|de|du|d'|d’)(?!\w))")
LONGEST_TWIN = 3  # letters of words that may be two tools' values though they differ: "on  off", "oui | non"


def comment_at(value: str, comments: tuple[str, ...], inline: bool, cells: tuple[str, ...] = ()) -> int | None:
    """Where an inline comment begins: at the start or behind a blank, never inside quotes.

    inline: the map says that there are such comments. Without it a mark that begins the value and has no blank behind
    it is part of the value: ``#ff0000`` is a colour. A quote that the map names as a mark opens no text behind a value.
    cells: marks that part the columns of a table too. Behind them the value goes on as long as values alike follow.
    """
    quote = ""
    comments = tuple(mark for mark in comments if mark not in cells)
    cell, alike = 0, ""  # where the column begins that is looked at, and what the one before it says
    for at, char in enumerate(value):
        if quote:
            quote = "" if char == quote else quote
        elif char in "\"'" and (at == 0 or value[at - 1] in " \t,") and not (at and inline and char in comments):
            quote = char
        elif cells and at >= cell and (width := _cell_end(value, at, cells)):
            alike = value[cell:at].strip()
            following = _column(value, at + width, cells)
            if not twins(alike, following):
                return at
            cell = at + width
        elif (
            (at == 0 or value[at - 1] in " \t")
            and value.startswith(comments, at)
            and (at or inline or _spaced(value, comments))
            and not (char == "%" and _PER_CENT.search(value[max(at - 2, 0) : at]) and _SHARE.match(value, at))
        ):
            return at
    return None


def _cell_end(value: str, at: int, cells: tuple[str, ...]) -> int:
    """How wide the border of two columns is that begins here; 0 for none."""
    if at == 0:
        return 0
    for mark in cells:
        if mark == WIDE:
            border = _WIDE.match(value, at) if value[at - 1] not in " \t" else None
            if border:
                return border.end() - at
        elif value.startswith(mark, at):
            return len(mark)
    return 0


def _column(value: str, start: int, cells: tuple[str, ...]) -> str:
    """The text from here to the next border."""
    begin = start + len(value[start:]) - len(value[start:].lstrip())
    end = next((at for at in range(begin + 1, len(value)) if _cell_end(value, at, cells)), len(value))
    return value[begin:end].strip()


def twins(one: str, other: str) -> bool:
    """Whether two columns look like one setting's values for two tools: numbers, or the same or two short words."""
    if _NUMBERS.match(one) and _NUMBERS.match(other):
        return True
    words = one.isalpha() and other.isalpha()
    return words and (one.casefold() == other.casefold() or max(len(one), len(other)) <= LONGEST_TWIN)


def remark_start(line: str, marks: tuple[str, ...], begin: int) -> int:
    """Where a remark begins behind the first word of a line; its length for none."""
    if marks:
        for at in range(begin + 1, len(line)):
            if line[at - 1] in " \t" and line.startswith(marks, at):
                return at
    return len(line)


def _spaced(value: str, comments: tuple[str, ...]) -> bool:
    """Whether a blank, or nothing, stands behind the mark that a value begins with."""
    mark = next(mark for mark in comments if mark and value.startswith(mark))
    return value[len(mark) : len(mark) + 1].strip() == ""


COLUMNS = "  "
"""As a delimiter: a run of two blanks or more, or a tab."""
BEFORE_NUMBER = " 0"
"""As a delimiter: the blank before the number that a line ends in, so that keys of several words need no sign."""
BLANK_LIKE = frozenset((" ", COLUMNS, BEFORE_NUMBER))
GAP = late(r"(?: {2,}|[ ]*\t)[ \t]*")
_NUMBER = late(r"[ \t]+(?=[-+]?[.,]?\d)")
_FIGURES = late(r"[ \t]*[-+]?[\d.,]+[ \t]+[-+]?[.,]?\d")  # "1 24" in "layer 1 24": the last of them is the value
SPACED = frozenset("-–—~")  # signs that divide only with blanks on both sides: they stand in words too
_LEADERS = ("..", ". .")  # rows of dots from a key to its value
_EDGE = "|"  # may stand before the key, where a table is drawn


class Cuts:
    """What divides the lines of one text. marks: what begins a remark behind a value; () where there is none."""

    def __init__(self, signs: tuple[str, ...], marks: tuple[str, ...] = (), next_key: str = "") -> None:
        self.signs = tuple(sign for sign in signs if sign not in BLANK_LIKE)
        self.blanks = tuple(sign for sign in (COLUMNS, BEFORE_NUMBER, " ") if sign in signs)
        self.marks = tuple(mark for mark in marks if mark not in signs and mark.strip())
        self.next_key = next_key
        lone = len(signs) == 1 and signs[0] not in (*BLANK_LIKE, *SPACED, *_LEADERS, _EDGE)
        self.single = signs[0] if lone else ""
        self.edged = _EDGE in signs

    def begin(self, line: str) -> int:
        """Where a line's key begins: behind blanks, and behind the edge of a table."""
        at = len(line) - len(line.lstrip())
        if self.edged and line.startswith(_EDGE, at):
            at += 1
            at += len(line[at:]) - len(line[at:].lstrip())
        return at

    def of(self, line: str) -> tuple[int, int]:
        """The span of a line's delimiter; (-1, -1) for none. Of several the first in the line counts, blanks where
        no sign does.
        """
        if self.single:
            at = line.find(self.single)
            return (at, at + len(self.single)) if at >= 0 else (-1, -1)
        begin = self.begin(line)
        sign = self._sign(line, begin)
        if not self.blanks:
            return sign
        stop = remark_start(line, self.marks, begin)
        if 0 <= sign[0] < stop:
            gap = self._gap(line, begin, sign[0]) if COLUMNS in self.blanks else (-1, -1)
            return gap if gap[0] >= 0 else sign
        blank = self._blank(line, begin, stop)
        return blank if blank[0] >= 0 else sign

    def _sign(self, line: str, begin: int) -> tuple[int, int]:
        best = (-1, -1)
        for sign in self.signs:
            at = line.find(sign, begin)
            while sign == ":" and at > 0 and line[at - 1].isdigit() and line[at + 1 : at + 2].isdigit():
                at = line.find(sign, at + 1)  # a time of day
            if at >= 0 and (best[0] < 0 or (at, -len(sign)) < (best[0], best[0] - best[1])):
                best = (at, at + len(sign))
        return (best[0], _behind_leader(line, *best)) if best[0] >= 0 else best

    def _gap(self, line: str, begin: int, stop: int) -> tuple[int, int]:
        """The first run of blanks with a value right behind it."""
        gap = GAP.search(line, begin)
        if gap is None or gap.start() <= begin or gap.end() >= min(stop, len(line.rstrip())):
            return -1, -1
        if line.startswith(self.signs, gap.end()) or line.startswith(self.marks, gap.end()):
            return -1, -1
        return gap.span()

    def _blank(self, line: str, begin: int, stop: int) -> tuple[int, int]:
        if COLUMNS in self.blanks:
            gap = self._gap(line, begin, stop)
            if gap[0] >= 0:
                return gap
        if BEFORE_NUMBER in self.blanks:
            number = _NUMBER.search(line, begin, stop)
            while number and _FIGURES.match(line, number.start(), stop):
                number = _NUMBER.search(line, number.end(), stop)
            if number and number.start() > begin:
                return number.span()
        return _first_blank(line, begin, stop) if " " in self.blanks else (-1, -1)

    def parts(self, line: str) -> list[tuple[int, int]]:
        """The spans of a line's keys with their values; what holds no delimiter belongs to the one before it. None
        where the first has no delimiter: such a line is no row of keys.
        """
        if not self.next_key:
            return [(0, len(line))]
        stop = remark_start(line, self.marks, self.begin(line))
        spans: list[tuple[int, int]] = []
        at, end = 0, len(line)
        for start, behind in [*self._borders(line, stop), (end, end)]:
            divided = self.of(line[at:start])[0] > 0
            if not spans and not divided:
                return []
            if not line[at:start].strip():
                continue
            if not divided:
                spans[-1] = (spans[-1][0], start)
            else:
                spans.append((at, start))
            at = behind
        return spans

    def _borders(self, line: str, stop: int) -> list[tuple[int, int]]:
        begin, end = self.begin(line), min(stop, len(line.rstrip()))
        if self.next_key.strip():
            sign = re.escape(self.next_key.strip())
            return [border.span() for border in re.compile(sign).finditer(line, begin, end)]
        return [border.span() for border in GAP.finditer(line, begin, end)]


def _behind_leader(line: str, at: int, end: int) -> int:
    """The end of a delimiter; a row of dots goes on as far as it does, but for the point of ``.5``."""
    if line[at:end] not in _LEADERS:
        return end
    while line[end : end + 1] in (".", " ") and end < len(line):
        end += 1
    return end - 1 if line[end - 1] == "." and line[end : end + 1].isdigit() else end


def _first_blank(line: str, begin: int, stop: int) -> tuple[int, int]:
    """The first blank behind the first word, for texts whose delimiter is a run of blanks."""
    body = line[begin:].rstrip("\r\n")
    words = body.split(None, 1)
    end = begin + len(words[0]) if words else begin
    return (end, end + 1) if words and end < begin + len(body) else (-1, -1)
