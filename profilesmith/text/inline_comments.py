"""Where a remark begins behind a value on its line."""

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
