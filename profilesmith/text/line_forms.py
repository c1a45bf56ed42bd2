"""Lines by forms that a map names: ``{number} {value} TO {key} STOP``, ``- {key}: {value}``, ``{key};{value};{any}``.

A form is the line as it is written, with ``{key}`` and ``{value}`` in their places, ``{number}`` for the number of a
line, ``{tick}`` for a box that is ticked or not, and ``{any}`` for whatever counts for nothing. Several ``{value}`` are
one value of several tools. A blank stands for any run of them, two blanks for columns, a sign written twice for a row
of it ("..").
"""

import re
from functools import cache
from itertools import pairwise

LONGEST_FORM = 120  # signs of a form
LONGEST_LINE = 400  # signs of a line that is held against forms
_PLACE = re.compile(r"\{(key|value|tick|number|any)\}")
_TICK = r"(?:\[[ xX✓]?\]|\([ xX✓]?\)|[☐☑☒✓✗])"
_NUMBER = r"[#(\[]?\d+[.):\]]?"
_CELL_BORDERS = frozenset(";|\t,~")
MOST_PLACES = 12


def is_line_form(text: str) -> bool:
    """Whether a text is a form: ``{key}`` stands in it once, ``{value}`` at least once, and something between
    places.
    """
    parts = _PLACE.split(text.replace("{tick}", "{value}"))
    places, literals = parts[1::2], parts[2:-1:2]
    return (
        len(text) <= LONGEST_FORM
        and places.count("key") == 1
        and places.count("value") >= 1
        and len(places) <= MOST_PLACES
        and all(literals)
        and not any(brace in literal for literal in parts[::2] for brace in "{}\r\n")
    )


class LineForms:
    """All forms of one text, in the order in which they are tried."""

    def __init__(self, texts: tuple[str, ...]) -> None:
        self.patterns = tuple(_pattern(text) for text in texts if is_line_form(text))

    def spans(self, body: str) -> tuple[int, int, int, int] | None:
        """Where key and value stand in a line without the blanks around it; None where no form fits."""
        if len(body) > LONGEST_LINE:
            return None
        for pattern in self.patterns:
            match = pattern.fullmatch(body)
            if match is not None:
                last = "last" if "last" in pattern.groupindex else "value"
                return (*match.span("key"), match.start("value"), match.end(last))
        return None


@cache
def _pattern(text: str) -> re.Pattern[str]:
    parts = _PLACE.split(text)
    literals, places = parts[::2], parts[1::2]
    values = [at for at, place in enumerate(places) if place in ("value", "tick")]
    pieces = [_literal(literals[0])]
    for at, (place, behind) in enumerate(zip(places, literals[1:], strict=True)):
        name = "key" if place == "key" else "value" if at == values[0] else "last" if at == values[-1] else ""
        pieces += [_place(place, name, behind), _literal(behind)]
    return re.compile("".join(pieces))


def _place(place: str, name: str, behind: str) -> str:
    """What may stand in a place. A cell of a table holds none of the signs that end it."""
    if place == "number":
        return _NUMBER
    if place == "tick":
        return f"(?P<{name}>{_TICK})" if name else _TICK
    border = behind.strip(" ")[:1]
    sign = f"[^{re.escape(border)}]" if border in _CELL_BORDERS and border else "."
    if place == "any":
        return f"{sign}*?"
    inner = rf"(?!\s){sign}(?:{sign}*?(?!\s){sign})??"
    return f"(?P<{name}>{inner})" if name else f"(?:{inner})"


def _literal(text: str) -> str:
    """The pattern of what stands between two places."""
    if not text.strip(" "):
        return r"(?: {2,}|[ ]*\t)[ \t]*" if len(text) > 1 else r"[ \t]+" if text else ""
    before = r"[ \t]+" if text[0] == " " else r"[ \t]*"
    after = r"[ \t]+" if text[-1] == " " else r"[ \t]*"
    pieces = [piece for piece in re.split(r"([;|\t])| +", text.strip(" ")) if piece]
    between = [r"[ \t]*" if {one, other} & {";", "|", "\t"} else r"[ \t]+" for one, other in pairwise(pieces)]
    words = [_word(piece) for piece in pieces]
    return before + words[0] + "".join(f"{gap}{word}" for gap, word in zip(between, words[1:], strict=True)) + after


def _word(word: str) -> str:
    row = len(word) > 1 and len(set(word)) == 1 and not word[0].isalnum()
    return rf"{re.escape(word[0])}{{2,}}" if row else re.escape(word)
