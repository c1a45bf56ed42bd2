"""One pass over a text's lines: what each of them is, as numbers."""

from __future__ import annotations

import re
from array import array
from collections.abc import Callable

from profilesmith.foundation.late_pattern import late
from profilesmith.text.cuts import WIDE, Cuts, comment_at
from profilesmith.text.document import FirstEnds, Habits, numbers_of
from profilesmith.text.heading_forms import HeadingForms, is_remark

# A key: words, dots, brackets; but no machine command such as "M117 x = 3" in a continued start block.
_KEY_LIKE = late(r"(?![GMTgmt]\d)[^\s;#/][^;#]{0,120}\Z")
_BARE_HEAD = late(r"(?![GMTgmt]\d+(?:\s|\Z))(?:[-+\w.,%/°²³]+(?:[ \t][\w%/°²³]+)?|\"[^\"]*\"|'[^']*')?\Z")

# Where the last assignment's line, value's start and value's end stand in the numbers so far.
_LINE, _START, _STOP = -5, -2, -1


class Walk:
    """The state of one pass: where we are, and what the last assignment was (a value may go on below it)."""

    def __init__(self, text: str, comments: tuple[str, ...], delimiter: str, habits: Habits) -> None:
        signs = () if habits.lines else habits.delimiters or (delimiter,)
        # A mark that divides keys from values too begins remarks behind values only: it parts the columns of a table.
        self.comments = tuple(mark for mark in comments if mark.strip() and mark not in signs)
        self.text, self.delimiter, self.habits = text, delimiter, habits
        self.other = {"=": ":", ":": "="}.get(delimiter, "") if habits.delimiter is None else ""
        self.cuts = Cuts(signs, comments if habits.inline else (), habits.next_key)
        self.forms = HeadingForms(habits.headings, self.comments)
        self.line_spans = _form_spans(habits.lines)
        self.comment_heads = "".join({comment[0] for comment in self.comments})
        self.behind = tuple(mark for mark in comments if mark)
        self.cells = tuple(mark for mark in comments if mark == WIDE or mark in signs) if habits.inline else ()
        odd = bool(habits.next_key or habits.value_first or habits.lines)
        self.plain = len(signs) == 1 and bool(self.cuts.single) and not odd
        self.slow_heads = self.comment_heads + self.forms.heads + "[ \t\r\n\f\v" + ("|" if delimiter == "|" else "")
        marks = {f"{blank}{mark}" for mark in self.behind if mark not in self.cells for blank in " \t=:"}
        marks |= {form for mark in self.cells for form in ((WIDE, "\t") if mark == WIDE else (mark,))}
        # Only what occurs in the text at all is looked for in each of its lines.
        self.marks = () if habits.inline is False else tuple(sorted(mark for mark in marks if mark in text))
        self.numbers, self.last = numbers_of(text), list[int]()  # of assignments, and of the last one
        self.headings, self.unread = numbers_of(text), numbers_of(text)
        self.indent = -1  # of the assignment that a value may continue; -1 for none
        self.last_line = 0  # the line that the last value has come to, where it has gone on
        self.first_ends = FirstEnds(text)
        self.number, self.offset = 0, 0  # of lines and signs behind us
        self.margin = 0  # of the line that is looked at slowly
        self.blank = 0  # the last line that is blank or heads a part; 0 for the text's start

    def run(self, lines: list[str]) -> None:
        """The next lines. What is plainly ``key = value`` at the left edge goes a short way: most lines do."""
        offset, delimiter, marks, last = self.offset, self.delimiter, self.marks, self.last
        unusual = self.slow_heads if self.plain else None
        remarks = self.forms.remarks_behind
        for number, line in enumerate(lines, self.number + 1):
            start = offset
            offset += len(line)
            key, sign, rest = line.partition(delimiter)
            if not sign or unusual is None or line[0] in unusual:
                self.slowly(number, line, start)
                continue
            head = key.rstrip()
            tail = rest.lstrip()
            value = tail.rstrip()
            if not head or not value or (remarks and value.startswith(remarks)):
                self.slowly(number, line, start)
                continue
            begin = offset - len(tail)
            end = begin + len(value)
            for mark in marks:
                if mark in line:
                    end = begin + self.uncommented(value)
                    break
            last += (number, start, start + len(head), begin, end)
            self.indent = 0
        self.number += len(lines)
        self.offset = offset
        self.put_away()

    def put_away(self, but: int = 5) -> None:
        """Numbers of assignments to where they take little; those of the last one may change yet."""
        done = len(self.last) - but
        self.numbers.fromlist(self.last[:done])
        del self.last[:done]

    def all_numbers(self) -> array[int]:
        """Of all assignments."""
        self.put_away(0)
        return self.numbers

    def slowly(self, number: int, line: str, start: int) -> None:
        """Any line at all."""
        body = line.strip()
        if not body:
            self.blank = number
            return
        self.margin = len(line) - len(line.lstrip())
        if body[0] in self.slow_heads and self.special(number, line, body, start):
            return
        if self.forms.forms and self.headed(number, start + line.index(body), body):
            return
        if self.habits.lines:
            self.formed(number, line, body, start)
            return
        indented = line[0] in " \t"
        if indented and self.indent >= 0 and self.continues(number, line, body, start):
            return
        parts = self.cuts.parts(line)
        if not parts:
            self.otherwise(number, line, body, start)
        for begin, end in parts:
            self.divided(number, line[begin:end], start + begin, indented)

    def formed(self, number: int, line: str, body: str, start: int) -> None:
        """A line in one of the forms that the map names, or a heading alone, or unread. No value goes on below it."""
        spans, begin = self.line_spans(body), start + self.margin
        if spans is None:
            if not (self.forms.bare and self.headed(number, begin, body, alone=True)):
                self.keep(number, line, body, start)
            return
        key, stop, value, end = spans
        if end == len(body):
            end = value + self.uncommented(body[value:end])
        self.last += (number, begin + key, begin + stop, begin + value, begin + end)
        self.indent = -1

    def divided(self, number: int, line: str, start: int, indented: bool) -> None:
        """A line, or the part of it that holds one key with its value."""
        cut, rest = self.cuts.of(line)
        from_ = self.cuts.begin(line) if self.cuts.edged else 0
        key = line[from_:cut].strip() if cut > 0 else ""
        value = line[rest:].strip()
        length = self.uncommented(value) if any(mark in line for mark in self.marks) else len(value)
        if not key or (self.habits.value_first and not length):
            self.otherwise(number, line, line.strip(), start)
            return
        named = start + line.index(key, from_)
        begin = start + (line.index(value, rest) if value else rest + (line[rest : rest + 1] == " "))
        spans = (named, named + len(key), begin, begin + length)
        self.indent = len(line) - len(line.lstrip()) if indented else 0
        if self.habits.value_first:  # what stands below belongs to nobody
            spans, self.indent = (*spans[2:], *spans[:2]), -1
        self.last += (number, *spans)

    def opens(self, number: int, body: str) -> bool:
        """Whether a line may begin a part: nothing is right above it, or it stands out, or is written large."""
        return self.blank == number - 1 or self.margin < self.indent or body.isupper()

    def headed(self, number: int, start: int, body: str, alone: bool = False) -> bool:
        """A heading in a form that the map names."""
        opens = self.opens(number, body)
        span = self.forms.alone(body, opens) if alone else self.forms.span(body, opens)
        if span is None:
            return False
        self.headings.extend((number, start + span[0], start + span[1], start + len(body)))
        self.indent, self.blank = -1, number
        return True

    def special(self, number: int, line: str, body: str, start: int) -> bool:
        """A comment or a heading; False when the line is something else after all."""
        if self.comments and body.startswith(self.comments):
            return not (self.forms.forms and self.forms.span(body, self.opens(number, body)))
        if body[0] != "[":
            return False
        close = body.find("]")
        rest = body[close + 1 :].lstrip()
        if close < 2 or not is_remark(rest, self.comments):
            return False
        name = body[1:close].strip()
        end = start + line.index("]") + 1
        begin = start + line.index(name, line.index("[") + 1)
        self.headings.extend((number, begin, begin + len(name), end))
        self.indent, self.blank = -1, number
        return True

    def continues(self, number: int, line: str, body: str, start: int) -> bool:
        """Whether an indented line belongs to the value above it: that value's span grows, if it stands right below.

        What is cut off from its value, by a remark, a blank or an unread line, is kept as unread: no setting of its
        own.
        """
        deeper = len(line) - len(line.lstrip()) > self.indent
        at, _ = self.cuts.of(body)
        assignment_like = at >= 0 and bool(_KEY_LIKE.match(body[:at].rstrip()))
        if assignment_like or not (deeper or self.slashed(number)):
            return False
        if self.follows(number):
            self.go_on(number, line, start)
        else:
            self.keep(number, line, body, start)
        return True

    def follows(self, number: int) -> bool:
        """Whether a line stands right below what the last value has come to."""
        return number - 1 in (self.last[_LINE], self.last_line)

    def slashed(self, number: int) -> bool:
        r"""Whether the line above is the last value's and ends in a ``\``."""
        start, end = self.last[_START], self.last[_STOP]
        return self.follows(number) and end > start and self.text[end - 1] == "\\"

    def go_on(self, number: int, line: str, start: int) -> None:
        """The last value reaches to the end of this line."""
        self.first_ends.add(self.last[_START], self.last[_STOP])
        self.last[_STOP] = start + len(line.rstrip())
        self.last_line = number

    def keep(self, number: int, line: str, body: str, start: int) -> None:
        """An unread line."""
        begin = start + line.index(body)
        self.unread.extend((number, begin, begin + len(body)))

    def otherwise(self, number: int, line: str, body: str, start: int) -> None:
        """A line without the usual delimiter: a continued value, the other delimiter, or unread."""
        if self.indent >= 0 and self.last and self.slashed(number):
            self.go_on(number, line, start)
            return
        key, sign, value = body.partition(self.other) if self.other else (body, "", "")
        if sign and re.fullmatch(r"[\w.\-\[\]]+(?: [\w.\-\[\]]+){0,4} ?", key) and not re.match(r"[GMT]\d", key):
            value = value.strip()
            begin = start + (line.rindex(value) if value else line.index(self.other) + 1)
            key = key.strip()
            named = start + line.index(key)
            self.last += (number, named, named + len(key), begin, begin + len(value))
            return
        if self.forms.bare and self.headed(number, start + line.index(body), body, alone=True):
            return
        self.keep(number, line, body, start)

    def uncommented(self, value: str) -> int:
        """The length of a value without the comment behind it."""
        at = comment_at(value, self.behind, bool(self.habits.inline), self.cells)
        if at is None:
            return len(value)
        head = value[:at].rstrip()
        # Where the map does not say, only a comment behind a single word or number is taken for one.
        return len(head) if self.habits.inline or _BARE_HEAD.match(head) else len(value)


def _form_spans(forms: tuple[str, ...]) -> Callable[[str], tuple[int, int, int, int] | None]:
    """What finds key and value in lines of forms of their own; few texts have any."""
    if not forms:
        return lambda body: None
    from profilesmith.text.line_forms import LineForms

    return LineForms(forms).spans
