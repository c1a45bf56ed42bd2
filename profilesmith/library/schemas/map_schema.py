"""What the vocabulary adds to ``keymap.schema.json``: names, and what a binding may say of each kind of setting."""

from __future__ import annotations

from profilesmith.library.schemas import patterns
from profilesmith.library.schemas.shapes import BLANK, Schema, by_kind, choice_of, named, setting_hint, text
from profilesmith.vocabulary.setting import Vocabulary

_TOLD: Schema = {"type": "string", "minLength": 1}
_SHARE: Schema = {"anyOf": [{"required": [key], "properties": {key: _TOLD}} for key in ("relative_to", "relative_key")]}


def fill(schema: Schema, vocabulary: Vocabulary) -> None:
    """Fill the template in place."""
    binding = schema["$defs"]["binding"]
    binding["properties"]["setting"]["anyOf"] = [
        {"const": item.id, "description": setting_hint(item)} for item in vocabulary.settings.values()
    ]
    binding["properties"]["relative_to"]["enum"] = [
        "",
        *(item.id for item in vocabulary.settings.values() if item.is_number),
    ]
    binding["properties"]["on_when"] = {
        **binding["properties"]["on_when"],
        "anyOf": [BLANK, text(patterns.number_comparison())],
    }
    binding["allOf"] += [
        {"if": named("setting", names), "then": _of_kind(kind, vocabulary)}
        for kind, names in by_kind(vocabulary, groups=False).items()
    ]


def _of_kind(kind: str, vocabulary: Vocabulary) -> Schema:
    """What a binding of a kind may say."""
    may: Schema = {
        "choices": False,
        "angle_from": False,
        "on": False,
        "off": False,
        "on_when": False,
        "relative_to": BLANK,
        "relative_key": BLANK,
    }
    if kind == "switch":
        for key in ("on", "off", "on_when"):
            del may[key]
    elif kind.startswith("choice "):
        may["choices"] = {"propertyNames": choice_of(vocabulary.settings[kind.partition(" ")[2]].values)}
    elif kind != "temperature":
        del may["relative_key"]
        may["relative_to"] = choice_of(["", *(item.id for item in vocabulary.settings.values() if item.kind == kind)])
    if kind == "angle":
        del may["angle_from"]
    return {"properties": may, **_units(kind)}


def _units(kind: str) -> Schema:
    """The unit is one of the setting's kind, or of shares where it is written relative to another."""
    own = patterns.unit(kind) or r"(?!)"
    alone: Schema = {"properties": {"unit": {"anyOf": [BLANK, text(rf"^\s*{own}\s*$")]}}}
    share: Schema = {"properties": {"unit": {"anyOf": [BLANK, text(rf"^\s*(?:{own}|{patterns.unit('ratio')})\s*$")]}}}
    return {"if": _SHARE, "then": share, "else": alone}
