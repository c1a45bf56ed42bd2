"""A raw value to its pieces and what each says, and which decimal mark that takes.

A number that makes sense in two ways is not read: ``12,000`` may be twelve or twelve thousand.
"""

import re

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.translation.find_keys import KeyIndex
from profilesmith.translation.key_map import Binding, KeyMap
from profilesmith.translation.pieces import Span, pieces
from profilesmith.translation.spelling import Reading, read_piece
from profilesmith.vocabulary.setting import Setting


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
                (grouped if _GROUPED.match(text) else plain)[mark] += 1
    counts = plain if any(plain.values()) else grouped
    return DecimalMark("," if counts[","] > counts["."] else ".", any(plain.values()))


# Not for a number that begins with a zero: nobody divides that into thousands.
_GROUPED = re.compile(r"[+-]?[1-9][0-9]{0,2}([.,])[0-9]{3}(?![0-9.,])")


def two_readings(text: str, reading: Reading, binding: Binding, setting: Setting, decimal: DecimalMark) -> str:
    """Why a number with one mark and three digits behind it cannot be read; "" where only one reading makes sense.

    A comma needs other numbers, the map or the setting's range to count as a decimal mark; a point is taken for one
    unless other numbers say that the comma is.
    """
    grouped = _GROUPED.match(text)
    if (
        grouped is None
        or not setting.is_number
        or grouped[1] == binding.thousands
        or (decimal.sure and not reading.error)
    ):
        return ""
    mark = grouped[1]
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
