"""What the vocabulary adds to ``coupon.schema.json`` and ``coupon-log.schema.json``."""

from __future__ import annotations

from profilesmith.coupon.plan import KINDS, WAYS, WORDS, WORSE
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.library.schemas import patterns
from profilesmith.library.schemas.shapes import (
    BLANK,
    ON_OFF,
    Schema,
    by_kind,
    choice_of,
    kind_of,
    setting_hint,
    text,
    when,
)
from profilesmith.vocabulary.setting import Setting, Vocabulary


def fill_plan(schema: Schema, vocabulary: Vocabulary) -> None:
    """Fill the template of plans in place."""
    head, factor = schema["properties"]["plan"]["properties"], schema["properties"]["factor"]["items"]
    head["kind"]["enum"] = list(KINDS)
    head["way"]["enum"] = ["", *WAYS]
    factor["properties"]["setting"]["enum"] = list(vocabulary.settings)
    factor["properties"]["worse"]["enum"] = ["", *WORSE]
    for names in by_kind(vocabulary, groups=False).values():
        value = _value(vocabulary.settings[names[0]])
        ends = {"properties": {"range": {"items": value}, "around": {"anyOf": [BLANK, value]}}}
        factor["allOf"].append(when("setting", choice_of(names), ends))
    schema["properties"]["stop"]["properties"]["sure"] |= {"anyOf": [BLANK, text(patterns.quantity("ratio"))]}


def fill_log(schema: Schema, vocabulary: Vocabulary) -> None:
    """Fill the template of a log's lines in place."""
    schema["properties"]["grade"]["enum"] = list(WORDS)
    schema["$defs"]["values"]["properties"] = {
        item.id: {"description": setting_hint(item), "maxLength": 80, **_value(item)}
        for item in vocabulary.settings.values()
    }


def _value(setting: Setting) -> Schema:
    """How a value of a setting is written."""
    if setting.kind == "switch":
        return ON_OFF
    if setting.kind == "choice":
        return choice_of(setting.values)
    kind = kind_of(setting)
    assert kind in CANONICAL
    return text(patterns.quantity(kind))
