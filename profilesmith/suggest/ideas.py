"""What a key for each setting is made of: ``outer_wall.speed`` of an outer (or a wall) and a speed. From the
vocabulary's data.
"""

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import Any

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import read_quantity
from profilesmith.vocabulary.load_vocabulary import knowledge, load_vocabulary
from profilesmith.vocabulary.setting import Setting

# Ideas of things; all others are ideas of properties.
THINGS = frozenset(
    [
        "layer",
        "first",
        "bead",
        "wall",
        "outer",
        "inner",
        "top",
        "bottom",
        "infill",
        "bridge",
        "support",
        "overhang",
        "contact",
        "raft",
        "brim",
        "skirt",
        "nozzle",
        "bed",
        "chamber",
        "fan",
        "retraction",
        "travel",
        "print",
        "filament",
    ]
)
# Leaving these out of a name, or putting them in, makes it another setting's name.
TELLING = frozenset(
    [
        "first",
        "later",
        "outer",
        "inner",
        "top",
        "bottom",
        "contact",
        "side",
        "least",
        "most",
        "bridge",
        "support",
        "raft",
        "retraction",
        "travel",
    ]
)
WEAKER = 0.55
_MARKS = {ord("?"): None, ord("!"): None}
LATER = "later"  # said of all layers but the first: no part of any name, and against those of the first layer
BASE_SPEED = "print.speed"


class IdeaPart(NamedTuple):
    """One idea of a name, or one of several; weights below 1 for those that say it less plainly.

    number: counts the different parts of all schemas, so that each is looked at once for a slot. unsaid: a name often
    leaves it out, though without it nothing is certain.
    """

    number: int
    choices: tuple[tuple[str, float], ...]
    optional: bool
    thing: bool
    unsaid: bool = False


class Schema(NamedTuple):
    """A setting and the make of its names. typical: canonical range, () where it has none; common: frequent values.

    other: it is none of the vocabulary's, and only competes for keys. rare: few texts have it.
    family: settings that a text writes in one unit.
    """

    setting: Setting
    parts: tuple[IdeaPart, ...]
    ideas: frozenset[str]
    typical: tuple[float, ...] = ()
    common: tuple[float, ...] = ()
    low: float = 0.0
    high: float = 0.0
    other: bool = False
    rare: bool = False
    family: str = ""


class Schemas(NamedTuple):
    """All of them. kinds: kind -> the schemas of that kind, the others among them; saying: idea -> the parts that it
    says.
    """

    named: Mapping[str, Schema]
    parts: tuple[IdeaPart, ...]
    kinds: Mapping[str, tuple[Schema, ...]]
    saying: Mapping[str, tuple[tuple[IdeaPart, float], ...]]


def _part(text: str, known: dict[str, IdeaPart]) -> IdeaPart:
    if text not in known:
        optional = "?" in text
        choices = []
        for word in text.translate(_MARKS).split("/"):
            choices.append((word.rstrip("~"), WEAKER if word.endswith("~") else 1.0))
        known[text] = IdeaPart(len(known), tuple(choices), optional, choices[0][0] in THINGS, "!" in text)
    return known[text]


def _numbers(texts: list[str], kind: str) -> tuple[float, ...]:
    numbers = [read_quantity(text, kind) for text in texts]
    return tuple(float(value) for value in numbers if isinstance(value, Fraction))


def _schema(setting: Setting, table: dict[str, Any], known: dict[str, IdeaPart], other: bool = False) -> Schema:
    parts = tuple(_part(text, known) for text in table["parts"])
    ideas = {idea for part in parts for idea, _ in part.choices} | set(table.get("also", ()))
    if not setting.id.startswith("first_layer."):
        ideas.add(LATER)
    return Schema(
        setting,
        parts,
        frozenset(ideas),
        _numbers(table.get("typical", []), setting.kind),
        _numbers(table.get("common", []), setting.kind),
        float(setting.low or 0),
        float(setting.high or 0),
        other,
        bool(table.get("rare")),
        _family(setting.id, setting.kind),
    )


def _family(name: str, kind: str) -> str:
    if kind == "ratio":
        return "fans" if "fan" in name else "flow" if name == "bead.flow" else "ratio"
    return "diameter" if name in ("nozzle.diameter", "filament.diameter") else kind


@cache
def load_schemas() -> Schemas:
    """One schema for every setting of the vocabulary, in its order, and those of the others that compete with them."""
    tables = knowledge("vocabulary.toml")["settings"]
    known: dict[str, IdeaPart] = {}
    named = {name: _schema(setting, tables[name], known) for name, setting in load_vocabulary().settings.items()}
    kinds: dict[str, list[Schema]] = {}
    for schema in [*named.values(), *_others(known)]:
        kinds.setdefault(schema.setting.kind, []).append(schema)
    saying: dict[str, tuple[tuple[IdeaPart, float], ...]] = {}
    for part in known.values():
        for idea, weight in part.choices:
            saying[idea] = (*saying.get(idea, ()), (part, weight))
    return Schemas(named, tuple(known.values()), {kind: tuple(of_kind) for kind, of_kind in kinds.items()}, saying)


def _others(known: dict[str, IdeaPart]) -> list[Schema]:
    schemas = []
    for name, table in knowledge("decoys.toml")["others"].items():
        low, high = (read_quantity(text, table["kind"]) for text in table["plausible"])
        assert isinstance(low, Fraction), name
        assert isinstance(high, Fraction), name
        setting = Setting(id=name, kind=table["kind"], area="", meaning="", low=low, high=high)
        schemas.append(_schema(setting, table, known, other=True))
    return schemas
