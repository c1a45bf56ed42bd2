"""Whether the values of a text agree with each other: a first layer is about as thick as the others, a bead about as
wide as the bore. Where they do not, another unit, or a share, may make them agree. Common practice, no source.
"""

from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import UNITS
from profilesmith.suggest.score import Candidate
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.unit_habits import UnitHabits
from profilesmith.suggest.values import Fit, Way


class Relation(NamedTuple):
    """A setting's value over another's, canonical, lies between low and high in working profiles."""

    setting: str
    other: str
    low: float
    high: float


RELATIONS = (
    Relation("bead.width", "nozzle.diameter", 0.75, 2.2),
    Relation("layer.height", "nozzle.diameter", 0.08, 0.9),
    Relation("first_layer.height", "layer.height", 0.5, 2.5),
    Relation("first_layer.bead_width", "bead.width", 0.65, 2.0),
    Relation("outer_wall.bead_width", "bead.width", 0.65, 1.6),
    Relation("support.gap", "layer.height", 0.15, 2.5),
    Relation("raft.gap", "layer.height", 0.15, 2.5),
    Relation("retraction.lift", "layer.height", 0.2, 12.0),
    Relation("first_layer.nozzle_temperature", "nozzle.temperature", 0.92, 1.1),
    Relation("inner_wall.speed", "outer_wall.speed", 0.7, 4.0),
    Relation("infill.speed", "outer_wall.speed", 0.7, 6.0),
    Relation("top.speed", "outer_wall.speed", 0.3, 3.0),
    Relation("bottom.speed", "outer_wall.speed", 0.3, 3.0),
    Relation("support.speed", "outer_wall.speed", 0.4, 5.0),
    Relation("first_layer.speed", "outer_wall.speed", 0.15, 1.3),
    Relation("travel.speed", "outer_wall.speed", 1.0, 12.0),
)


class Agreement(NamedTuple):
    """ways: the reading of each chosen setting, mended where that helps. odd: setting -> the one that it does not agree
    with.
    """

    ways: dict[str, Way]
    odd: dict[str, str]


def agree(
    chosen: dict[str, int],
    slots: list[Slot],
    candidates: list[list[Candidate]],
    ways: dict[str, Way],
    habits: UnitHabits,
) -> Agreement:
    """Look at every relation of which both sides are chosen."""
    mended, odd = dict(ways), {}
    for relation in RELATIONS:
        name, other = relation.setting, relation.other
        if name not in chosen or other not in chosen or mended[name].share or mended[other].share:
            continue
        slot, against = slots[chosen[name]], _value(slots[chosen[other]], mended[other])
        if _fits(relation, _value(slot, mended[name]), against):
            continue
        options = next((one for one in candidates[chosen[name]] if one.schema.setting.id == name), None)
        better = [fit for fit in options.ways if _implied(relation, slot, fit, against)] if options else []
        if better and options and slot.unit is None:
            mended[name] = max(
                better, key=lambda fit: 0.85 * fit.gain + habits.prior(slot, options.schema, fit.way)
            ).way
        odd[name] = other
    return Agreement(mended, odd)


def without_base(
    chosen: dict[str, int],
    slots: list[Slot],
    candidates: list[list[Candidate]],
    ways: dict[str, Way],
    habits: UnitHabits,
) -> dict[str, Way]:
    """Shares of speeds, where no speed of the text is written plainly, are no shares: they are read as plain
    numbers.
    """
    result = dict(ways)
    speeds = [name for name, way in ways.items() if name.endswith(".speed")]
    if any(not ways[name].share for name in speeds if name not in ("travel.speed", "retraction.speed")):
        return result
    for name in speeds:
        slot = slots[chosen[name]]
        options = next((one for one in candidates[chosen[name]] if one.schema.setting.id == name), None)
        plain = [fit for fit in options.ways if not fit.way.share] if options else []
        if ways[name].share and plain and options:
            result[name] = max(plain, key=lambda fit: 0.85 * fit.gain + habits.prior(slot, options.schema, fit.way)).way
    return result


def _value(slot: Slot, way: Way) -> float:
    unit = UNITS.get(way.unit)
    number = slot.number or Fraction(0)
    return float(unit.to_canonical(number) if unit else number)


def _fits(relation: Relation, value: float, other: float) -> bool:
    return other <= 0 or value <= 0 or relation.low <= value / other <= relation.high


def _implied(relation: Relation, slot: Slot, fit: Fit, other: float) -> bool:
    value = _value(slot, fit.way)
    return _fits(relation, value / 100 * other if fit.way.share else value, other)
