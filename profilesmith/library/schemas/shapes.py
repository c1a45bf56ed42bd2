"""Pieces that several schemas are made of."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from profilesmith.facts.facts import FactKind, fact_kinds
from profilesmith.library.schemas import patterns
from profilesmith.vocabulary.setting import Setting, Vocabulary

Schema = dict[str, Any]
BLANK: Schema = {"const": ""}
ON_OFF: Schema = {"enum": ["on", "off"]}


def text(pattern: str) -> Schema:
    """A text of a pattern."""
    return {"type": "string", "pattern": pattern}


def texts(item: Schema | None = None, at_least: int = 0) -> Schema:
    """A text or a list of texts."""
    one = item or {"type": "string"}
    many: Schema = {"type": "array", "items": one}
    return {"anyOf": [one, {**many, "minItems": at_least} if at_least else many]}


def choice_of(words: Iterable[str]) -> Schema:
    """One of some words."""
    return {"enum": list(words)}


def when(key: str, test: Schema, then: Schema) -> Schema:
    """A conditional on one key that must be there."""
    return {"if": {"properties": {key: test}, "required": [key]}, "then": then}


def named(key: str, words: Iterable[str]) -> Schema:
    """The test that a key names some of the words and nothing else, alone or in a list."""
    return {"properties": {key: texts(choice_of(words), 1)}, "required": [key]}


def by_kind(vocabulary: Vocabulary, groups: bool) -> Mapping[str, list[str]]:
    """The names of each kind of setting. Every choice is a kind of its own, ``choice infill.pattern``."""
    names: dict[str, list[str]] = {}
    for setting in vocabulary.settings.values():
        names.setdefault(kind_of(setting), []).append(setting.id)
    for group in vocabulary.groups.values() if groups else ():
        kinds = {kind_of(vocabulary.settings[name]) for name in group.members}
        if len(kinds) == 1:
            names[kinds.pop()].append(group.name)
    return names


def kind_of(setting: Setting) -> str:
    return f"choice {setting.id}" if setting.kind == "choice" else setting.kind


def setting_hint(setting: Setting) -> str:
    """What an editor shows for a setting."""
    return f"{setting.meaning}; {setting.range_text()}"


def fact_names(kind: str, unit_kind: str = "") -> list[str]:
    """The facts of a kind."""
    return [item.name for item in fact_kinds().values() if (item.kind, item.unit_kind) == (kind, unit_kind)]


def fact_value(kind: FactKind) -> Schema:
    """How a fact, or an input's default, is written in TOML. A choice's words are told where they are known."""
    if kind.kind == "choice":
        return choice_of(kind.values) if kind.values else {"type": "string"}
    if kind.kind == "text":
        return {"type": "string"}
    if kind.kind == "hardness":
        return text(patterns.HARDNESS)
    if kind.kind == "quantity":
        return text(patterns.quantity(kind.unit_kind))
    end: Schema = text(patterns.quantity(kind.unit_kind))
    if kind.unit_kind == "count":
        end = {"anyOf": [end, {"type": "number"}]}
    return {
        "anyOf": [text(patterns.window(kind.unit_kind)), {"type": "array", "items": end, "minItems": 2, "maxItems": 2}]
    }


def fact_hint(kind: FactKind) -> str:
    """What an editor shows for a fact."""
    ends = f"; {kind.show((kind.low, kind.high))}" if kind.low is not None and kind.high is not None else ""
    return f"{kind.meaning}{ends}"
