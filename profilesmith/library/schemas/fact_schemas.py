"""What the facts and the vocabulary add to ``facts.schema.json`` and ``evidence.schema.json``."""

from __future__ import annotations

from profilesmith.evidence.read_record import MOST_TOOLS, allowed_facts
from profilesmith.evidence.record import JUDGED, OUTCOMES
from profilesmith.facts.facts import FactKind, fact_kinds
from profilesmith.facts.load_facts import FREE_KEYS, SUBJECTS
from profilesmith.ledger.history import GRADES, MEND_VERDICTS
from profilesmith.library.schemas import patterns
from profilesmith.library.schemas.shapes import ON_OFF, Schema, choice_of, fact_hint, fact_value, setting_hint, text
from profilesmith.vocabulary.setting import Setting, Vocabulary


def fill_facts(schema: Schema, vocabulary: Vocabulary) -> None:
    """Fill the template of facts files in place."""
    for subject in SUBJECTS:
        table = schema["properties"][subject]
        table["properties"] = {key: {"$ref": f"#/$defs/{key}"} for key in FREE_KEYS}
        for kind in fact_kinds().values():
            of, _, key = kind.name.partition(".")
            if of == subject and key not in FREE_KEYS:
                table["properties"][key] = {"description": f"{fact_hint(kind)}. {kind.ask}", **fact_value(kind)}


def fill_evidence(schema: Schema, vocabulary: Vocabulary) -> None:
    """Fill the template of records in place."""
    properties = schema["$defs"]["print"]["properties"]
    properties["outcome"]["enum"] = list(OUTCOMES)
    properties["judged"]["properties"] = {
        name: {"description": meaning, **choice_of(GRADES)} for name, meaning in JUDGED.items()
    }
    properties["by_hand"]["items"]["enum"] = list(vocabulary.settings)
    schema["$defs"]["seen"]["additionalProperties"]["enum"] = list(GRADES)
    mend = properties["mends"]["items"]["properties"]
    mend["came"]["enum"] = list(MEND_VERDICTS)
    mend["changes"]["properties"] = {
        item.id: {
            "description": setting_hint(item),
            "type": "array",
            "items": _value(item),
            "minItems": 2,
            "maxItems": 2,
        }
        for item in vocabulary.settings.values()
    }
    facts = [fact_kinds()[name] for name in allowed_facts()]
    properties["facts"]["properties"] = {
        kind.name: {"description": fact_hint(kind), "allOf": [_SHORT, _as_text(kind)]} for kind in facts
    }
    properties["values"]["properties"] = {
        item.id: {"description": setting_hint(item), **_values(item)} for item in vocabulary.settings.values()
    }


_SHORT: Schema = {"$ref": "#/$defs/short"}


def _as_text(kind: FactKind) -> Schema:
    """A fact as one text: a window's ends have ``to`` between them."""
    return text(patterns.window(kind.unit_kind)) if kind.kind == "window" else fact_value(kind)


def _value(setting: Setting) -> Schema:
    """One value as a text."""
    fits = (
        ON_OFF
        if setting.kind == "switch"
        else {}
        if setting.kind == "choice"
        else text(patterns.quantity(setting.kind))
    )
    return {"allOf": [_SHORT, fits]} if fits else _SHORT


def _values(setting: Setting) -> Schema:
    """A derived value, or one for each tool."""
    one = _value(setting)
    return {"anyOf": [one, {"type": "array", "items": one, "minItems": 1, "maxItems": MOST_TOOLS}]}
