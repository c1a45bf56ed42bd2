"""Whether a ledger file has the shape that its JSON Schema describes, and only numbers that can be worked with.

A ledger may come from a stranger: everything that a review reads of it has the right type after this, and no number,
name or nesting is out of bounds. Only types are held here; what is missing the reader itself finds.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from profilesmith.foundation.package_data import package_text

DEEPEST, LONGEST_NUMBER = 24, 40
_EXPONENT = re.compile(r"[eE][-+]?[0-9]{4,}\Z")
_TYPES: Mapping[str, tuple[type, ...]] = {
    "object": (dict,),
    "array": (list,),
    "string": (str,),
    "boolean": (bool,),
    "null": (type(None),),
    "number": (int, float, Fraction),
    "integer": (int,),
}


def whole(text: str) -> int:
    """A whole number of bearable length."""
    if len(text) > LONGEST_NUMBER:
        raise ValueError("a number that is far too long")
    return int(text)


def exact(text: str) -> Fraction:
    """A number as an exact fraction. 1e999999999 would be one of a thousand million digits."""
    if len(text) > LONGEST_NUMBER or _EXPONENT.search(text):
        raise ValueError("a number that is far too long")
    value = Fraction(text)
    if abs(value) > 10**15:
        raise ValueError("a number that is far too large")
    return value


def near(text: str) -> float:
    """The same as the nearest double."""
    return float(exact(text))


def refuse_constant(text: str) -> float:
    """NaN and the infinities, which JSON does not have and Python would read."""
    raise ValueError(text)


def load(text: str, fraction: bool) -> Any:
    """A JSON text within bounds. Raises ValueError, or RecursionError."""
    return json.loads(text, parse_float=exact if fraction else near, parse_int=whole, parse_constant=refuse_constant)


SCHEMAS = {1: "ledger_1.schema.json", 2: "ledger.schema.json"}


def well_shaped(data: dict[str, Any]) -> bool:
    """Whether every member that is there has the type that its format says, and no name leads out of the folder."""
    schema = json.loads(package_text(f"knowledge/{SCHEMAS[data['format']]}"))
    return (
        not _too_deep(data)
        and _fits(data, schema, schema["$defs"])
        and all(_plain_name(item) for item in data.get("outputs", ()))
    )


def _plain_name(item: Mapping[str, Any]) -> bool:
    """Whether an output is named as a file beside the ledger."""
    name = item["name"]
    return bool(name) and name.isprintable() and not set(name) & {"/", "\\"} and name not in (".", "..")


def _fits(value: Any, schema: Mapping[str, Any], shapes: Mapping[str, Any]) -> bool:
    if "$ref" in schema:
        return _fits(value, shapes[schema["$ref"].rpartition("/")[2]], shapes)
    for word in ("anyOf", "oneOf"):
        if word in schema and not any(_fits(value, choice, shapes) for choice in schema[word]):
            return False
    if "type" in schema:
        names = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
        kinds = tuple(kind for name in names for kind in _TYPES[name])
        if not isinstance(value, kinds) or (isinstance(value, bool) and bool not in kinds):
            return False
    if isinstance(value, list):
        return all(_fits(item, schema.get("items", {}), shapes) for item in value)
    if not isinstance(value, dict):
        return True
    known, others = schema.get("properties", {}), schema.get("additionalProperties")
    rest = others if isinstance(others, dict) else {}
    return all(_fits(item, known.get(name, rest), shapes) for name, item in value.items())


def _too_deep(data: object) -> bool:
    stack = [(data, 1)]
    while stack:
        item, depth = stack.pop()
        if depth > DEEPEST:
            return True
        children = item.values() if isinstance(item, dict) else item if isinstance(item, list) else ()
        stack.extend((child, depth + 1) for child in children)
    return False
