"""Values as JSON without losing a digit: what no decimal number can say is said as a fraction, with the nearest number.

``40`` and ``0.2`` are themselves; 1000 mm/min is ``{"exact": "50/3", "about": 16.666666666666668}``.
"""

from fractions import Fraction
from functools import lru_cache
from math import isfinite
from typing import Any

from profilesmith.facts.facts import FactValue, Hardness
from profilesmith.foundation.late_pattern import late
from profilesmith.ledger.plain_forms import Form, encode, quoted
from profilesmith.vocabulary.setting import Setting, Value

# A radian's factor has 50 digits, a share of a share more; far beyond that no derivation of ours comes.
LONGEST_FRACTION = 2_000
MOST_FIGURES = 10**30
LONGEST_DECIMAL = 400  # places that a double can have behind the mark, and more
# A decimal of fifteen digits is what its double is written as: no two of them share one (DBL_DIG of C is 15).
_NINE_PLACES, _FIFTEEN_DIGITS = 10**9, 10**15
_FRACTION = late(r"-?[0-9]+(?:/[1-9][0-9]*)?")


def number_json(value: Fraction) -> Any:
    """A number as JSON that ``number_of`` reads to the same fraction."""
    if value.denominator == 1 and -MOST_FIGURES < value.numerator < MOST_FIGURES:
        return value.numerator
    about = _about(value)
    return {"exact": str(value), "about": about} if isinstance(about, _Near) else about


class _Near(float):
    """A double that is not the number itself."""


def _about(value: Fraction) -> float:
    about = float(value)
    more, rest = divmod(_NINE_PLACES, value.denominator)
    if not rest and abs(value.numerator) * more < _FIFTEEN_DIGITS:
        return about  # as mostly
    if pow(10, LONGEST_DECIMAL, value.denominator):  # no decimal at all
        return _Near(about)
    return about if Fraction(repr(about)) == value else _Near(about)


def number_text(value: Fraction) -> str:
    """The text of ``number_json``."""
    top, bottom = value.as_integer_ratio()
    return str(top) if bottom == 1 and -MOST_FIGURES < top < MOST_FIGURES else _broken_text(top, bottom)


@lru_cache(maxsize=4096)  # profiles of one workshop hold mostly the same numbers
def _broken_text(top: int, bottom: int) -> str:
    """Of a number as two whole ones, whose hash takes a tenth of a fraction's."""
    item = number_json(Fraction(top, bottom))
    return encode(item) if not isinstance(item, dict) else f'{{"exact": "{item["exact"]}", "about": {item["about"]!r}}}'


def number_of(item: Any) -> Fraction:
    """The number of ``number_json``. Raises ValueError, TypeError or KeyError for anything else."""
    if isinstance(item, dict):
        text = item["exact"]
        if len(text) > LONGEST_FRACTION or not _FRACTION.fullmatch(text):
            raise ValueError("no fraction")
        value = Fraction(text)
        if abs(value) > 10**15:
            raise ValueError("a number that is far too large")
        return value
    if isinstance(item, bool) or not isinstance(item, int | Fraction):
        raise TypeError(item)
    return Fraction(item)


def value_json(value: Value) -> Any:
    """A setting's value: a number, true or false, or a word."""
    return number_json(value) if isinstance(value, Fraction) else value


def values_json(values: tuple[Value, ...]) -> Any:
    """The same; a list where there is one for each of several tools, None for none."""
    plain = [value_json(value) for value in values]
    if not plain:
        return None
    return plain[0] if len(plain) == 1 else plain


def value_text(value: Value) -> str:
    """The text of ``value_json``."""
    if isinstance(value, Fraction):
        return number_text(value)
    return quoted(value) if isinstance(value, str) else "true" if value else "false"


def values_text(values: tuple[Value, ...]) -> str:
    """The text of ``values_json``."""
    if len(values) == 1:
        return value_text(values[0])
    return f"[{', '.join(map(value_text, values))}]" if values else "null"


def values_of(item: Any) -> tuple[Value, ...]:
    """The values of ``values_json``. Raises ValueError, TypeError or KeyError for anything else."""
    if item is None:
        return ()
    return tuple(value_of(one) for one in (item if isinstance(item, list) else [item]))


def value_of(item: Any) -> Value:
    """The value of ``value_json``."""
    return item if isinstance(item, bool | str) else number_of(item)


def suits(values: tuple[Value, ...], setting: Setting) -> bool:
    """Whether all of them are of the kind that a setting takes."""
    kind = Fraction if setting.is_number else bool if setting.kind == "switch" else str
    return all(isinstance(value, kind) for value in values)


def fact_json(value: FactValue) -> Any:
    """A fact: a number, a window as a list, a hardness as an object, or a word."""
    if isinstance(value, Hardness):
        return {"number": number_json(value.number), "shore": value.scale}
    if isinstance(value, tuple):
        return [number_json(end) for end in value]
    return number_json(value) if isinstance(value, Fraction) else value


def fact_text(value: FactValue) -> str:
    """The text of ``fact_json``."""
    if isinstance(value, Fraction):
        return number_text(value)
    if isinstance(value, Hardness):
        return f'{{"number": {number_text(value.number)}, "shore": {quoted(value.scale)}}}'
    return f"[{', '.join(map(number_text, value))}]" if isinstance(value, tuple) else quoted(value)


def fact_of(item: Any) -> FactValue:
    """The fact of ``fact_json``. Raises ValueError, TypeError or KeyError for anything else."""
    if isinstance(item, str):
        return item
    if isinstance(item, dict) and "shore" in item:
        if item["shore"] not in ("A", "D"):
            raise ValueError(item["shore"])
        return Hardness(number_of(item["number"]), item["shore"])
    if isinstance(item, list):
        low, high = item
        return number_of(low), number_of(high)
    return number_of(item)


def _plain(item: Any) -> Any:
    """Any JSON with numbers as floats."""
    if isinstance(item, Fraction):
        return float(item)
    if isinstance(item, dict):
        return {name: _plain(one) for name, one in item.items()}
    return [_plain(one) for one in item] if isinstance(item, list) else item


def _table(item: Any) -> Any:
    if not isinstance(item, dict):
        raise TypeError("no table")
    return _plain(item)


def _float(item: Any) -> Any:
    if isinstance(item, bool) or not isinstance(item, int | float | Fraction):
        raise TypeError(item)
    return item


def _float_text(number: float) -> str:
    return repr(number) if isinstance(number, float) and isfinite(number) else encode(number)


def _none() -> Any:
    raise TypeError("no value")


_EXACT = {
    "description": "A number that no decimal can say, such as a third.",
    "type": "object",
    "additionalProperties": False,
    "required": ["exact", "about"],
    "properties": {
        "exact": {"description": "The number, as a fraction.", "type": "string", "pattern": "^-?[0-9]+(/[0-9]+)?$"},
        "about": {"description": "The nearest number.", "type": "number"},
    },
}
_HARDNESS = {
    "description": "A Shore hardness.",
    "type": "object",
    "additionalProperties": False,
    "required": ["number", "shore"],
    "properties": {
        "number": {"description": "The number.", "$ref": "#/$defs/Number"},
        "shore": {"description": "The Shore scale.", "enum": ["A", "D"]},
    },
}
_NUMBER = {"anyOf": [{"type": "number"}, _EXACT]}
_VALUE = {"anyOf": [{"type": ["boolean", "string"]}, {"$ref": "#/$defs/Number"}]}
_VALUES = {
    "description": "One value, one for each tool, or null for none.",
    "anyOf": [
        {"$ref": "#/$defs/Value"},
        {"type": "array", "minItems": 2, "items": {"$ref": "#/$defs/Value"}},
        {"type": "null"},
    ],
}
_FACT = {
    "description": "A number, a window of two, a hardness, or a word.",
    "anyOf": [
        {"$ref": "#/$defs/Number"},
        {"type": "string"},
        {"type": "array", "minItems": 2, "maxItems": 2, "items": {"$ref": "#/$defs/Number"}},
        _HARDNESS,
    ],
}
_NUMBERS = {"Number": _NUMBER}
THERE = Form(
    values_json,
    lambda item: values_of(item) if item is not None else _none(),
    {"description": "One value, or one for each tool.", "anyOf": _VALUES["anyOf"][:2]},
    {**_NUMBERS, "Value": _VALUE},
    values_text,
)
NUMBER = Form(number_json, number_of, {"$ref": "#/$defs/Number"}, _NUMBERS, number_text)
VALUE = Form(value_json, value_of, {"$ref": "#/$defs/Value"}, {**_NUMBERS, "Value": _VALUE}, value_text)
VALUES = Form(
    values_json,
    values_of,
    {"$ref": "#/$defs/Values"},
    {**_NUMBERS, "Value": _VALUE, "Values": _VALUES},
    values_text,
)
FACT_VALUE = Form(fact_json, fact_of, {"$ref": "#/$defs/FactValue"}, {**_NUMBERS, "FactValue": _FACT}, fact_text)
FLOAT = Form(lambda number: number, lambda item: float(_float(item)), {"type": "number"}, text=_float_text)
FIGURE = Form(lambda figure: figure, _table, {"$ref": "#/$defs/figure"})
