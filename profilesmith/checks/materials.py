"""Materials as ranges, from ``knowledge/materials.toml``; what a spool's own facts say goes before them."""

from fractions import Fraction
from functools import cache, lru_cache
from typing import Any

from profilesmith.checks.case import Case
from profilesmith.facts.facts import Hardness
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import find_unit, read_quantity, show_quantity
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.hardness import gent_modulus_mpa, qi_modulus_from_a_mpa, qi_modulus_from_d_mpa
from profilesmith.vocabulary.load_vocabulary import knowledge

RIGID = "PLA"  # what soft filament is compared with
# A hardness tells the modulus no better than this (physics/hardness.py).
HARDNESS_FACTOR = 2.0
OWN_SOURCE = "the spool's own modulus"
FACTOR_SOURCE = "good to a factor of two"
# Softer than this a strand is pushed and bent like rubber: between the classes of materials.toml (own threshold).
SOFT_MPA = 1500.0


class Range(NamedTuple):
    """low, high: in the canonical unit of the property's kind. unit: the one that it is shown in. plausible: as the
    table writes the two ends outside which a number is a mistake or another unit.
    """

    low: float
    high: float
    kind: str
    unit: str
    mark: str
    source: str
    note: str = ""
    plausible: tuple[str, ...] = ()

    def ends(self) -> tuple[float, ...]:
        """Both ends of what is plausible, in the canonical unit; () where the table has none."""
        return tuple(
            float(end) for text in self.plausible if not isinstance(end := read_quantity(text, self.kind), str)
        )

    def show(self) -> str:
        """``40 to 45 °C``."""
        return f"{in_unit(self.low, self.unit)} to {in_unit(self.high, self.unit)} {shown_unit(self.unit)}"


class Material(NamedTuple):
    """key: its short name. also: other names. rubbery: laws from hardness hold for it. ranges: by property."""

    key: str
    name: str
    also: tuple[str, ...]
    flexible: bool
    rubbery: bool
    ranges: dict[str, Range]


class Modulus(NamedTuple):
    """A modulus of elasticity in MPa, and where it comes from."""

    mpa: Bracket
    source: str


def property_titles() -> dict[str, str]:
    """``density`` -> Density, in the order in which they are shown."""
    return {name: table["title"] for name, table in _data()["properties"].items()}


@cache
def materials() -> dict[str, Material]:
    """All materials that this version knows, by their short name."""
    return {key: _material(key) for key in _data()["materials"]}


@cache
def _material(key: str) -> Material:
    data = _data()
    table = data["materials"][key]
    ranges = {name: _range_of(key, name) for name in data["properties"] if name in table}
    return Material(key, table["name"], tuple(table["also"]), table["flexible"], table["rubbery"], ranges)


@lru_cache(maxsize=256)
def material(name: str, hardness: Hardness | None = None) -> Material | None:
    """The material that a name means. A family's name (TPU) with a hardness means the class that is nearest to it."""
    wanted = _folded(name)
    if not wanted:
        return None
    tables = _data()["materials"]
    family = [key for key in tables if _folded(key.partition(" ")[0]) == wanted and " " in key]
    if family and hardness is not None and hardness.scale == "A":
        return _material(min(family, key=lambda key: abs(float(hardness.number) - _class_number(key))))
    named = (key for key, table in tables.items() if wanted in map(_folded, (key, *table["also"])))
    return next(map(_material, named), None)


def of_spool(case: Case) -> Material | None:
    """The material of the case's spool; None when it is not told or not known."""
    return case.once(_of_spool)


def _of_spool(case: Case) -> Material | None:
    return material(case.word("spool.material"), case.hardness())


def spool_range(case: Case, name: str) -> Range | None:
    """What is usual for the spool's material."""
    material = of_spool(case)
    return material.ranges.get(name) if material else None


def modulus(case: Case) -> Modulus | None:
    """The spool's modulus: its own fact, else what label and material tell.

    The hardness on the label goes first where the law was made for such a plastic (rubbers, TPU) and where nobody named
    the material; for another soft plastic the bracket holds both; a rigid one is known by its material.
    """
    own = case.quantity("spool.modulus")
    if own is not None:
        return Modulus(Bracket(own, own), OWN_SOURCE)
    named, labelled, plastic = material_modulus(case), hardness_modulus(case), of_spool(case)
    if named is None or labelled is None:
        return named or labelled
    if plastic is not None and not plastic.flexible:
        return named
    if plastic is not None and plastic.rubbery:
        return labelled
    return Modulus(spanning((named.mpa, labelled.mpa)), f"{named.source}; {labelled.source}")


def material_modulus(case: Case) -> Modulus | None:
    """What is known of the named material."""
    usual = spool_range(case, "modulus")
    return None if usual is None else Modulus(Bracket(usual.low, usual.high), usual.source)


def hardness_modulus(case: Case) -> Modulus | None:
    """What the hardness on the label tells; None where no law reaches it."""
    hardness = case.hardness()
    return None if hardness is None else _of_hardness(hardness)


def modulus_of_hardness(hardness: Hardness) -> Modulus | None:
    """What a Shore hardness tells of a rubber's modulus."""
    return _of_hardness(hardness)


def rigid_range(name: str) -> Range:
    """A property of rigid PLA."""
    return _range_of(RIGID, name)


def rigid_modulus() -> Modulus:
    """That of rigid PLA."""
    usual = _range_of(RIGID, "modulus")
    return Modulus(Bracket(usual.low, usual.high), usual.source)


def flexible(case: Case) -> bool | None:
    """Whether the spool is soft; None when no fact tells."""
    material = of_spool(case)
    if material is not None:
        return material.flexible
    hardness = case.hardness()
    if hardness is not None and hardness.scale == "A":
        return True  # rigid plastics read near 100 on the A scale and are told in D
    stiffness = modulus(case)
    if stiffness is None or stiffness.mpa.low <= SOFT_MPA < stiffness.mpa.high:
        return None
    return stiffness.mpa.high <= SOFT_MPA


def spool_name(case: Case) -> str:
    """The spool's material in the maker's words, else "this filament"."""
    return case.word("spool.material") or "this filament"


def _of_hardness(hardness: Hardness) -> Modulus | None:
    reading = float(hardness.number)
    stiffness = gent_modulus_mpa(reading) if hardness.scale == "A" else qi_modulus_from_d_mpa(reading)
    if isinstance(stiffness, NotValid):
        return None
    source = "Gent 1958, from Shore A" if hardness.scale == "A" else "Qi, Joyce and Boyce 2003, from Shore D"
    if isinstance(stiffness, float):
        stiffness = Bracket(stiffness / HARDNESS_FACTOR, stiffness * HARDNESS_FACTOR)
    other = qi_modulus_from_a_mpa(reading) if hardness.scale == "A" else None
    if isinstance(other, float):
        stiffness = spanning((stiffness, Bracket(other, other)))
    return Modulus(stiffness, f"{source}; {FACTOR_SOURCE}")


@cache
def _data() -> dict[str, Any]:
    return knowledge("materials.toml")


@cache
def _range_of(key: str, name: str) -> Range:
    """One property of a material, which is mostly all that is asked of rigid PLA."""
    data = _data()
    table, kind = data["materials"][key][name], data["properties"][name]["kind"]
    low, high = (read_quantity(table[end], kind) for end in ("low", "high"))
    assert not isinstance(low, str)  # the data are ours, and tested
    assert not isinstance(high, str)
    more = table.get("note", ""), tuple(table["plausible"])
    return Range(float(low), float(high), kind, table["unit"], table["mark"], table["source"], *more)


def shown_unit(unit_name: str) -> str:
    """``mm³/s`` of mm3/s."""
    return unit_name.replace("3", "³")


def in_unit(value: float, unit_name: str) -> str:
    """The number of a canonical value in another unit of its kind."""
    unit = find_unit(unit_name)
    exact = Fraction(value).limit_denominator(10_000)
    return show_quantity(unit.from_canonical(exact) if unit else exact, "count")


def _folded(name: str) -> str:
    return "".join(char for char in name.casefold() if char.isalnum())


def _class_number(key: str) -> float:
    digits = "".join(char for char in key if char.isdigit())
    return float(digits) if digits else 0.0
