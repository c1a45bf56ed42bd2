"""Lines that head a part of a text, in other forms than ``[name]``: ``== name ==``, ``>> name``, ``name:``, ``name``.

A form is what stands before and behind the word "name" in it. A form without anything is a line of a few words alone.
"""

import re

from profilesmith.foundation.late_pattern import late
from profilesmith.foundation.named_tuple import NamedTuple

PLACE = "name"
NUMBER = "{number}"
"""In a form: a number, a Roman one or a letter, different in each heading. A sign written twice is a row of it then."""
_NUMBER = r"(?:\d{1,3}|[IVXLC]{1,6}|[A-Z])"
_REMARK = late(r"(?:['#;|~*!]|--|//|[–—])\s*[^\W\d_]")  # behind what closes a heading, also where no line begins so
_NO_NAME = late(r"[=<>]|^[/?!]|/$")  # markup
LONGEST = 80  # signs of a name
MOST_WORDS = 7  # of a name that nothing closes


class HeadingForm(NamedTuple):
    """What stands before and behind a heading's name."""

    before: str
    after: str


def read_form(text: str) -> HeadingForm | None:
    """A form as a map writes it; None where the word "name" does not stand in it once."""
    before, match, after = text.partition(PLACE)
    return HeadingForm(before.strip(), after.strip()) if match and PLACE not in after else None


class HeadingForms:
    """All forms of one text. comments: what begins its remarks."""

    def __init__(self, texts: tuple[str, ...], comments: tuple[str, ...]) -> None:
        forms = [form for form in map(read_form, texts) if form is not None]
        self.comments = comments
        self.bare = HeadingForm("", "") in forms
        self.forms = tuple(form for form in forms if form.before or form.after)
        self.numbered = {form: number_pattern(form.before) for form in forms if NUMBER in form.before}
        self.remarks_behind = comments if any(form.after == ":" for form in self.forms) else ()
        """What may begin a remark behind a heading with a colon."""
        heads = {form.before[0] for form in forms if form.before and not form.before.startswith(NUMBER)}
        self.heads = "".join(heads)

    def span(self, body: str, opens: bool) -> tuple[int, int] | None:
        """Where the name of a heading stands in a line without the blanks around it; None for any other line.

        opens: whether nothing stands right above it. Without that no remark and no open form heads anything.
        """
        for form in self.forms:
            start = self._begin(body, form)
            if start >= 0 and (opens or form.after or not form.before.startswith(self.comments)):
                match = self._within(body, form, start)
                if match is not None:
                    return match
        return None

    def alone(self, body: str, opens: bool) -> tuple[int, int] | None:
        """The name in a line that holds nothing else."""
        fits = self.bare and opens and len(body) <= LONGEST and len(body.split()) <= MOST_WORDS
        return (0, len(body)) if fits and body[:1].isalpha() and body[-1] not in ".,;!?" else None

    def _begin(self, body: str, form: HeadingForm) -> int:
        """The end of what a form has before a name; -1 for a line that does not begin so."""
        numbered = self.numbered.get(form)
        if numbered is None:
            return len(form.before) if body.startswith(form.before) else -1
        match = numbered.match(body)
        return match.end() if match else -1

    def _within(self, body: str, form: HeadingForm, start: int) -> tuple[int, int] | None:
        end = len(body)
        if form.after and " " in form.after:  # the names of columns
            match = re.search(r"\s{2,}" + r"\s+".join(map(re.escape, form.after.split())) + r"\Z", body)
            end = match.start() if match else -1
            if end <= start:
                return None
        elif form.after:
            end = body.find(form.after, start + 1)
            if end < 0 or not self._ends(body[end:].lstrip(form.after), form):
                return None
        name = body[start:end]
        signs = (
            "".join(char for char in form.before if not char.isalnum()) + ".+|"
            if form in self.numbered
            else form.before[-1:]
        )
        stripped = name.strip(signs + form.after[:1] + " \t")
        if not any(char.isalpha() for char in stripped) or len(stripped) > LONGEST or _NO_NAME.search(stripped):
            return None
        if not form.after and len(stripped.split()) > MOST_WORDS:
            return None
        begin = start + name.index(stripped)
        return begin, begin + len(stripped)

    def _ends(self, rest: str, form: HeadingForm) -> bool:
        """Whether only a remark follows, in brackets at least; behind a colon only one of the text's own marks."""
        behind = rest.strip()
        if form.after == ":" and behind:
            return rest[0].isspace() and behind.startswith(self.comments)
        return is_remark(rest, self.comments)


def is_remark(rest: str, comments: tuple[str, ...]) -> bool:
    """Whether what stands behind a heading is nothing, a remark, or something in brackets."""
    gap, rest = rest[:1].isspace(), rest.strip()
    marked = not rest or rest.startswith(comments) or (rest[0] == "(" and rest[-1] == ")")
    return marked or (gap and bool(_REMARK.match(rest)))


def number_pattern(before: str) -> re.Pattern[str]:
    """What stands before a name where a number is a part of it."""
    pieces = (_NUMBER if piece == NUMBER else _signs(piece) for piece in re.split(r"(\{number\})|\s+", before) if piece)
    return re.compile(r"\s*".join(pieces) + r"\s*(?=\S)")


def _signs(text: str) -> str:
    return re.sub(r"((?:\\)?([^\w\s]))\1+", r"\1{2,}", re.escape(text))
