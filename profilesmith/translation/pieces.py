"""A raw value to its pieces and what each says, and which decimal mark that takes.

A number that makes sense in two ways is not read: ``12,000`` may be twelve or twelve thousand.

Pieces: the span of each tool's value inside quotes, lists and packed fields.
"""

import re

from profilesmith.foundation.late_pattern import late
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import GOES_ON
from profilesmith.text.cuts import COLUMNS, GAP
from profilesmith.translation.find_keys import KeyIndex
from profilesmith.translation.key_map import Binding, KeyMap
from profilesmith.translation.spelling import Reading, read_piece
from profilesmith.vocabulary.setting import Setting

_BLANKS = late(r"\s+")
BRACKETS = ("[]", "()", "{}")
"""What a list may stand in."""


class Span(NamedTuple):
    """Offsets into a raw value."""

    start: int
    end: int

    def of(self, raw: str) -> str:
        return raw[self.start : self.end]


def pieces(binding: Binding, key_map: KeyMap, raw: str) -> list[Span]:
    """The spans of the values in a raw text, one for each tool; none for a blank text or a missing field.

    In a list every tool keeps its place: a blank entry is an empty span, which reads as no value.
    """
    if not (binding.tools or binding.split) and raw[:1] not in ("", '"', "'") and raw == raw.strip():
        return [Span(0, len(raw))]  # as mostly
    whole = _stripped(raw, Span(0, len(raw)))
    if not whole.of(raw):
        return []
    if not binding.tools:
        items = [whole if binding.split and _quotes_inside(raw, whole) else _unquoted(raw, whole)]
    else:
        inner = _opened(raw, whole) if _quotes_inside(raw, whole) else _opened(raw, _unquoted(raw, whole))
        items = _split(raw, inner, binding.list or key_map.list)
    if binding.split:
        fields = [_split(raw, item, binding.split) for item in items]
        items = [
            parts[binding.field - 1] if len(parts) >= binding.field else Span(item.end, item.end)
            for parts, item in zip(fields, items, strict=True)
        ]
    spans = [_unquoted(raw, _stripped(raw, item)) for item in items]
    return spans if any(span.of(raw) for span in spans) else []


def _stripped(raw: str, span: Span) -> Span:
    text = span.of(raw)
    start = span.start + len(text) - len(text.lstrip())
    return Span(start, start + len(text.strip()))


def _opened(raw: str, span: Span) -> Span:
    """A list without the brackets that it stands in."""
    text = span.of(raw)
    if len(text) > 1 and text[0] + text[-1] in BRACKETS and text.count(text[0]) == text.count(text[-1]) == 1:
        return _stripped(raw, Span(span.start + 1, span.end - 1))
    return span


def _unquoted(raw: str, span: Span) -> Span:
    text = span.of(raw)
    if len(text) >= 2 and text[0] == text[-1] and text[0] in "\"'":
        inner = _stripped(raw, Span(span.start + 1, span.end - 1))
        if not _goes_on(raw, inner):
            return inner
    return span


def _goes_on(raw: str, span: Span) -> bool:
    r"""Whether a ``\`` at its end carries the value on: to replace it would part the value from its last line."""
    return span.of(raw).endswith("\\") and raw[span.end : span.end + 1] in ("\r", "\n")


def _quotes_inside(raw: str, span: Span) -> bool:
    """Whether quotes belong to the items of a list and not to the list."""
    text = span.of(raw)
    return len(text) >= 2 and text[0] in "\"'" and text.count(text[0]) > 2


def _split(raw: str, span: Span, separator: str) -> list[Span]:
    if separator.strip() == "":
        return _split_blanks(raw, span, GAP if separator == COLUMNS else _BLANKS)
    result, at = [], span.start
    while (end := raw.find(separator, at, span.end)) >= 0:
        result.append(_stripped(raw, Span(at, end)))
        at = end + len(separator)
    return [*result, _stripped(raw, Span(at, span.end))]


def _split_blanks(raw: str, span: Span, border: re.Pattern[str]) -> list[Span]:
    result, at = [], span.start
    for gap in border.finditer(raw, span.start, span.end):
        result.append(Span(at, gap.start()))
        at = gap.end()
    return [item for item in (*result, Span(at, span.end)) if item.of(raw)]


class DecimalMark(NamedTuple):
    """sure: the map says it, or numbers of the text can be read in no other way."""

    mark: str
    sure: bool


def find_decimal(index: KeyIndex, key_map: KeyMap) -> DecimalMark:
    """The map's decimal mark, or the one that more of the bound numbers are written with; lists do not count.

    A number such as ``12,000`` says nothing, as long as any other says something.
    """
    if key_map.decimal:
        return DecimalMark(key_map.decimal, True)
    plain, grouped = {",": 0, ".": 0}, {",": 0, ".": 0}
    for binding in key_map.bindings:
        if binding.tools or binding.kind in ("switch", "choice"):
            continue
        for line in index.find(binding.key, binding.section)[:1]:
            text = index.text(line)[:24].strip("\"' ")
            head, mark, tail = text.partition("," if "," in text else ".")
            if mark and head.strip("-+").isdigit() and tail[:1].isdigit() and "," not in tail:
                (grouped if mark_of_thousands(text) else plain)[mark] += 1
    counts = plain if any(plain.values()) else grouped
    return DecimalMark("," if counts[","] > counts["."] else ".", any(plain.values()))


def mark_of_thousands(text: str) -> str:
    """The mark of a number such as ``12,000``, which may divide its thousands; "" of any other text."""
    number = text[1:] if text.startswith(("+", "-")) else text
    for mark in ".,":
        head, is_there, tail = number.partition(mark)
        digits = head + tail[:3]
        # Not one that begins with a zero: nobody divides that.
        if is_there and 1 <= len(head) <= 3 and len(tail) >= 3 and head[0] != "0" and digits.isdigit():
            return mark if digits.isascii() and tail[3:4] not in GOES_ON else ""
    return ""


def two_readings(text: str, reading: Reading, binding: Binding, setting: Setting, decimal: DecimalMark) -> str:
    """Why a number with one mark and three digits behind it cannot be read; "" where only one reading makes sense.

    A comma needs other numbers, the map or the setting's range to count as a decimal mark; a point is taken for one
    unless other numbers say that the comma is.
    """
    if not setting.is_number or (decimal.sure and not reading.error):
        return ""
    mark = mark_of_thousands(text)
    if not mark or mark == binding.thousands:
        return ""
    whole = read_piece(text.replace(mark, "", 1), binding, setting, decimal.mark, ())
    part = read_piece(text, binding, setting, mark, ()) if reading.error else reading
    if whole.error or part.error:
        return ""
    sensible = [not setting.implausible(item.value) for item in (part, whole)]
    if mark == decimal.mark and (mark == "." or sensible == [True, False]):
        return ""
    one, other = text.replace(mark, ".", 1), text.replace(mark, "", 1)
    hint = f"decimal = {mark!r} or thousands = {mark!r}".replace("'", '"')
    error = f"{text!r} can be read in two ways, as {one} and as {other}: write {hint} in the map's [text]"
    return error


def read_value(
    raw: str, binding: Binding, setting: Setting, key_map: KeyMap, mark: DecimalMark
) -> tuple[tuple[Span, ...], tuple[Reading, ...]]:
    """The pieces of a raw text and what each says."""
    spans = tuple(pieces(binding, key_map, raw))
    readings = []
    for text in (span.of(raw) for span in spans):
        reading = read_piece(text, binding, setting, mark.mark, key_map.words)
        doubt = two_readings(text, reading, binding, setting, mark)
        readings.append(Reading(error=doubt) if doubt else reading)
    return spans, tuple(readings)
