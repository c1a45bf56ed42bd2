"""What the vocabulary adds to ``recipe.schema.json``: names, and the operands that fit each kind of setting."""

from __future__ import annotations

from profilesmith.facts.facts import FactKind, fact_kinds
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.library.schemas import patterns
from profilesmith.library.schemas.shapes import (
    BLANK,
    ON_OFF,
    Schema,
    by_kind,
    choice_of,
    fact_hint,
    fact_names,
    fact_value,
    kind_of,
    named,
    setting_hint,
    text,
    texts,
    when,
)
from profilesmith.recipe.load_recipe import input_kind
from profilesmith.recipe.operations import BY_NAME
from profilesmith.recipe.operations.hold import HELD
from profilesmith.recipe.read_rule import TOGETHER
from profilesmith.vocabulary.setting import Vocabulary

_INPUT: Schema = {"$ref": "#/$defs/input"}


def fill(schema: Schema, vocabulary: Vocabulary) -> None:
    """Fill the template in place."""
    defs = schema["$defs"]
    defs["setting"]["enum"] = list(vocabulary.settings)
    defs["settingOrGroup"]["enum"] = vocabulary.names()
    defs["fact"]["enum"] = list(fact_kinds())
    defs["values"]["properties"] = {
        item.id: {"type": "string", "description": setting_hint(item)} for item in vocabulary.settings.values()
    }
    defs["facts"]["properties"] = {item.name: {"description": fact_hint(item)} for item in fact_kinds().values()}
    defs["numberSetting"]["enum"] = [item.id for item in vocabulary.settings.values() if item.is_number]
    defs["flow"]["properties"]["flow"]["anyOf"][0]["pattern"] = patterns.quantity("flow")
    defs["flow"]["properties"]["flow"]["anyOf"][2] = _fact(fact_names("quantity", "flow"))
    defs["rule"]["properties"]["hold"] |= _one(choice_of(HELD))
    defs |= {f"quantity_of_{kind}": text(patterns.quantity(kind)) for kind in CANONICAL}
    defs |= {
        f"value_of_{kind}": _value(kind, vocabulary) for kind in by_kind(vocabulary, groups=False) if kind in CANONICAL
    }
    defs["rule"]["allOf"] = [*_together(), *_operands(vocabulary), *_held(vocabulary)]
    defs["when"]["properties"] = {
        item.name: {"description": item.meaning, **_clause(item)} for item in fact_kinds().values()
    }
    kinds = [item for name in _input_kinds() if (item := input_kind(name, name, ())) is not None]
    defs["inputTable"]["properties"]["kind"]["enum"] = [item.name for item in kinds]
    defs["inputTable"]["properties"]["fact"]["enum"] = ["", *fact_kinds()]
    defs["inputTable"]["allOf"] = [_input_of(item) for item in kinds]


def _input_kinds() -> list[str]:
    return ["choice", "text", "hardness", *CANONICAL, *(f"{name} window" for name in CANONICAL)]


def _input_of(kind: FactKind) -> Schema:
    """The facts and defaults that fit an input of a kind."""
    fits = {"fact": choice_of(["", *fact_names(kind.kind, kind.unit_kind)]), "default": fact_value(kind)}
    return when("kind", {"const": kind.name}, {"properties": fits})


def _together() -> list[Schema]:
    """Which operations may stand in one rule."""
    pairs = [{first, second} for first in BY_NAME for second in BY_NAME if first < second]
    never = [sorted(pair) for pair in pairs if not any(pair <= allowed for allowed in TOGETHER)]
    return [{"anyOf": [{"required": [name]} for name in BY_NAME]}, *({"not": {"required": pair}} for pair in never)]


def _operands(vocabulary: Vocabulary) -> list[Schema]:
    """For rules on settings of one kind only: what each operation takes. Of mixed kinds only the loader can judge."""
    found = []
    for kind, names in by_kind(vocabulary, groups=True).items():
        if kind == "switch" or kind.startswith("choice "):
            word: Schema = ON_OFF
            if kind != "switch":
                values = vocabulary.settings[kind.partition(" ")[2]].values
                fitting = [name for name in fact_names("choice") if set(fact_kinds()[name].values) <= set(values)]
                word = {"anyOf": [choice_of(values), _INPUT, _fact(fitting)]}
            then = {name: False if operation.numbers_only else _one(word) for name, operation in BY_NAME.items()}
        else:
            then = _numbers(kind, vocabulary)
        found.append({"if": named("setting", names), "then": {"properties": then}})
    return found


def _quantity(kind: str) -> Schema:
    return {"$ref": f"#/$defs/quantity_of_{kind}"}


def _derived(kind: str, vocabulary: Vocabulary) -> list[Schema]:
    """Operands that are worked out: another setting of the kind, and for a speed the flow that it needs."""
    others = [item.id for item in vocabulary.settings.values() if kind_of(item) == kind]
    times: Schema = {"$ref": "#/$defs/times"}
    if kind == "temperature":  # 40 °C is not twice as hot as 20 °C
        times = {"anyOf": [{"const": 1}, text(r"^\+?0*1(?:\.0*)?$")]}
    of: Schema = {
        "type": "object",
        "required": ["of"],
        "additionalProperties": False,
        "properties": {
            "of": {"description": "Another setting, whose derived value counts.", **choice_of(others)},
            "times": {"description": "What it is multiplied by.", **times},
            "plus": {"description": "What is added, with its unit.", "anyOf": [BLANK, _quantity(kind)]},
        },
    }
    return [of, {"$ref": "#/$defs/flow"}] if kind == "speed" else [of]


def _value(kind: str, vocabulary: Vocabulary) -> Schema:
    """A single value of a kind."""
    return {"anyOf": [_quantity(kind), _INPUT, _fact(fact_names("quantity", kind)), *_derived(kind, vocabulary)]}


def _numbers(kind: str, vocabulary: Vocabulary) -> Schema:
    """Operands for a kind of number."""
    value: Schema = {"$ref": f"#/$defs/value_of_{kind}"}
    window = {
        "anyOf": [
            _INPUT,
            _fact(fact_names("window", kind)),
            {"type": "array", "items": value, "minItems": 2, "maxItems": 2},
        ]
    }
    share = {"anyOf": [_quantity("ratio"), _INPUT, _fact(fact_names("quantity", "ratio")), *_derived(kind, vocabulary)]}
    step = {"anyOf": [_quantity(kind), _INPUT, *_derived(kind, vocabulary)]} if kind == "temperature" else value
    bounds = {name: _one(value) for name in ("set", "aim", "cap", "raise_to")}
    return {**bounds, "window": window, "shift": _one(step), "scale": False if kind == "temperature" else _one(share)}


def _one(operand: Schema) -> Schema:
    """An operand, alone or as a list of one."""
    return {"anyOf": [operand, {"type": "array", "items": operand, "minItems": 1, "maxItems": 1}]}


def _fact(names: list[str]) -> Schema:
    if not names:
        return {"not": {}}
    fact = {"description": "A fact whose value counts.", **choice_of(names)}
    return {"type": "object", "required": ["fact"], "additionalProperties": False, "properties": {"fact": fact}}


def _held(vocabulary: Vocabulary) -> list[Schema]:
    """Which settings have which product to hold. With ``except`` only the loader knows what is left."""
    found = []
    for word, product in HELD.items():
        names = [name for name in vocabulary.names() if set(vocabulary.expand(name)) <= set(product.settings)]
        said = {"properties": {"hold": _one({"const": word})}, "required": ["hold"], "not": {"required": ["except"]}}
        found.append({"if": said, "then": named("setting", names)})
    return found


def _clause(kind: FactKind) -> Schema | dict[str, object]:
    """What a condition may say of a fact."""
    if kind.kind in ("window", "hardness"):
        return {"not": {}}
    if kind.unit_kind:
        one = text(patterns.comparison(kind.unit_kind))
        return {"anyOf": [one, {"type": "array", "items": one, "minItems": 1, "maxItems": 1}]}
    return texts(choice_of(kind.values) if kind.values else None, 1)
