"""What the vocabulary adds to ``recipe.schema.json``: names, and the operands that fit each kind of setting."""

from __future__ import annotations

from itertools import combinations

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
from profilesmith.recipe.count import COUNTS
from profilesmith.recipe.load_recipe import input_kind
from profilesmith.recipe.operations import DIFFERENCE, OPERATIONS, RATIO, VALUE, Operation
from profilesmith.recipe.tool import BORE
from profilesmith.vocabulary.setting import Vocabulary

_INPUT: Schema = {"$ref": "#/$defs/input"}


def fill(schema: Schema, vocabulary: Vocabulary) -> None:
    """Fill the template in place."""
    defs = schema["$defs"]
    defs["setting"]["enum"] = list(vocabulary.settings)
    defs["settingOrGroup"]["enum"] = [name for name in vocabulary.names() if name != BORE]
    defs["fact"]["enum"] = list(fact_kinds())
    defs["values"]["properties"] = {
        item.id: {"type": "string", "description": setting_hint(item)} for item in vocabulary.settings.values()
    }
    defs["facts"]["properties"] = {item.name: {"description": fact_hint(item)} for item in fact_kinds().values()}
    defs["numberSetting"]["enum"] = [item.id for item in vocabulary.settings.values() if item.is_number]
    lengths = [text(patterns.quantity("length")), _INPUT, _fact(fact_names("quantity", "length"))]
    for word in COUNTS:
        defs[word]["properties"][word]["anyOf"] = defs[word]["properties"]["plus"]["anyOf"] = lengths
    defs["flow"]["properties"]["flow"]["anyOf"][0]["pattern"] = patterns.quantity("flow")
    defs["flow"]["properties"]["flow"]["anyOf"][2] = _fact(fact_names("quantity", "flow"))
    defs["rule"]["properties"] = _with_operations(defs["rule"]["properties"])
    defs |= {f"quantity_of_{kind}": text(patterns.quantity(kind)) for kind in CANONICAL}
    defs |= {
        f"value_of_{kind.replace(' ', '_')}": _value(kind, vocabulary)
        for kind in _kinds(vocabulary, groups=False)
        if kind.partition(" ")[0] in CANONICAL
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


def _with_operations(properties: Schema) -> Schema:
    """The keys of a rule: the operations stand before its reason."""
    keys: Schema = {}
    for name, schema in properties.items():
        if name == "why":
            keys |= {item.name: {"description": item.meaning, **_any_operand(item)} for item in OPERATIONS}
        keys[name] = schema
    return keys


def _any_operand(operation: Operation) -> Schema:
    """What an operation takes on some setting or other."""
    if operation.products:
        return _one(choice_of(operation.products))
    if operation.operands == 1:
        return {"$ref": "#/$defs/operandOrList"}
    return _ends([_INPUT, {"$ref": "#/$defs/factRef"}], {"$ref": "#/$defs/operand"}, operation)


def _ends(whole: list[Schema], end: Schema, operation: Operation) -> Schema:
    """Something that has all ends, or a list of them."""
    count = operation.operands
    return {"anyOf": [*whole, {"type": "array", "items": end, "minItems": count, "maxItems": count}]}


def _together() -> list[Schema]:
    """Which operations may stand in one rule."""
    never = [sorted((one.name, other.name)) for one, other in combinations(OPERATIONS, 2) if not one.goes_with(other)]
    some = {"anyOf": [{"required": [operation.name]} for operation in OPERATIONS]}
    return [some, *({"not": {"required": keys}} for keys in sorted(never))]


def _operands(vocabulary: Vocabulary) -> list[Schema]:
    """For rules on settings of one kind only: what each operation takes. Of mixed kinds only the loader can judge."""
    operands = []
    for kind, names in _kinds(vocabulary, groups=True).items():
        if kind == "switch" or kind.startswith("choice "):
            word: Schema = ON_OFF
            if kind != "switch":
                values = vocabulary.settings[kind.partition(" ")[2]].values
                fitting = [name for name in fact_names("choice") if set(fact_kinds()[name].values) <= set(values)]
                word = {"anyOf": [choice_of(values), _INPUT, _fact(fitting)]}
            bare = kind.partition(" ")[0]
            then = {item.name: _one(word) if item.takes(bare) else False for item in OPERATIONS}
        else:
            then = _numbers(kind, vocabulary)
        operands.append({"if": named("setting", names), "then": {"properties": then}})
    return operands


def _quantity(kind: str) -> Schema:
    return {"$ref": f"#/$defs/quantity_of_{kind}"}


def _derived(kind: str, vocabulary: Vocabulary) -> list[Schema]:
    """Operands that are worked out: another setting of the kind, and for a speed the flow that it needs."""
    others = [item.id for item in vocabulary.settings.values() if kind_of(item) == kind.partition(" ")[0]]
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
            "plus": {
                "description": "What is added, with its unit.",
                "anyOf": [BLANK, _quantity(kind.partition(" ")[0])],
            },
        },
    }
    counted = kind.partition(" ")[2]
    worked_out = "flow" if kind == "speed" else counted
    return [of, {"$ref": f"#/$defs/{worked_out}"}] if worked_out else [of]


def _kinds(vocabulary: Vocabulary, groups: bool) -> dict[str, list[str]]:
    """The names of each kind; counts apart by what may be counted for them, as ``count beads_for``."""
    kinds = dict(by_kind(vocabulary, groups))
    counts = kinds.pop("count")
    for word, names in COUNTS.items():
        kinds[f"count {word}"] = list(names)
        counts = [name for name in counts if name not in names]
    return {**kinds, "count": counts}


def _value(kind: str, vocabulary: Vocabulary) -> Schema:
    """A single value of a kind."""
    bare = kind.partition(" ")[0]
    return {"anyOf": [_quantity(bare), _INPUT, _fact(fact_names("quantity", bare)), *_derived(kind, vocabulary)]}


def _numbers(kind: str, vocabulary: Vocabulary) -> Schema:
    """Operands for a kind of number."""
    return {item.name: _number(item, kind, vocabulary) for item in OPERATIONS if not item.products}


def _number(operation: Operation, kind: str, vocabulary: Vocabulary) -> Schema | bool:
    """What one operation takes for a kind of number."""
    if not operation.takes(kind.partition(" ")[0]):
        return False
    value: Schema = {"$ref": f"#/$defs/value_of_{kind.replace(' ', '_')}"}
    plain = "count" if kind.startswith("count ") and operation.reads != VALUE else kind
    kind = kind.partition(" ")[0]
    if operation.operands > 1:
        return _ends([_INPUT, _fact(fact_names("window", kind))], value, operation)
    if operation.reads == RATIO:
        shares = _fact(fact_names("quantity", "ratio"))
        return _one({"anyOf": [_quantity("ratio"), _INPUT, shares, *_derived(plain, vocabulary)]})
    if operation.reads == DIFFERENCE and kind == "temperature":  # a fact is a temperature, never a step of one
        return _one({"anyOf": [_quantity(kind), _INPUT, *_derived(kind, vocabulary)]})
    return _one({"$ref": f"#/$defs/value_of_{kind}"} if plain == "count" else value)


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
    clauses = []
    held = ((item, word, product) for item in OPERATIONS for word, product in item.products.items())
    for item, word, product in held:
        names = [name for name in vocabulary.names() if set(vocabulary.expand(name)) <= set(product.settings)]
        word_said = {"properties": {item.name: _one({"const": word})}, "required": [item.name]}
        said = {**word_said, "not": {"required": ["except"]}}
        clauses.append({"if": said, "then": named("setting", names)})
    return clauses


def _clause(kind: FactKind) -> Schema | dict[str, object]:
    """What a condition may say of a fact."""
    if kind.kind in ("window", "hardness"):
        return {"not": {}}
    if kind.unit_kind:
        one = text(patterns.comparison(kind.unit_kind))
        several = {"type": "array", "items": one, "minItems": 1, "maxItems": 1}
        return {"anyOf": [one, several, *_against(kind)]}
    words = texts(choice_of(kind.values) if kind.values else None, 1)
    return {"anyOf": [words, *_against(kind)]}


def _against(kind: FactKind) -> list[Schema]:
    """Another answer or fact of the kind, which it must equal."""
    return [_INPUT, _fact(fact_names(kind.kind, kind.unit_kind))]
