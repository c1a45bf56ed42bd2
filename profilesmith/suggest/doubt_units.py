"""What is doubtful in a unit, in sentences: the units that vie, the value in each, and a key that has the other one."""

from profilesmith.foundation.words import listed
from profilesmith.suggest.certainty import UNIT_LEAD
from profilesmith.suggest.evidence import others_in_units, ranked_fits, stated_rivals
from profilesmith.suggest.propose import ProposedReading
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.unit_habits import ONE_UNIT
from profilesmith.suggest.usual_values import read_as
from profilesmith.suggest.values import Way

MOST_OTHERS = 2  # readings that are named


def other_units(setting: str, index: int, way: Way, reading: ProposedReading) -> str:
    """The chosen reading of a number, and those that would do nearly as well."""
    slot, kind = reading.slots[index], reading.schemas.named[setting].setting.kind
    ranked = ranked_fits(setting, index, reading)
    near = [way_of for value, way_of in ranked if way_of != way and ranked[0][0] - value < UNIT_LEAD]
    near = near or [way_of for _, way_of in ranked if way_of != way]
    others = listed([read_as(slot, way_of, kind) for way_of in near[:MOST_OTHERS]], "or")
    return f"{slot.text} is taken for {read_as(slot, way, kind)}; {others} would do as well."


def two_units(setting: str, index: int, way: Way, reading: ProposedReading) -> str:
    """The two units that bare numbers of this kind would have, with a key for each."""
    slot, kind = reading.slots[index], reading.schemas.named[setting].setting.kind
    mine = f"{slot.text} is taken for {read_as(slot, way, kind)}"
    others = others_in_units(setting, reading)
    if others:
        shown = [_read_in(reading.slots[at], unit) for unit, at in list(others.items())[:MOST_OTHERS]]
        share = "one of them may be a share" if kind in ONE_UNIT else "does this text write both"
        return f"{mine}, but {listed(shown)}: {share}{'.' if kind in ONE_UNIT else '?'}"
    stated = stated_rivals(setting, index, reading)
    if stated:
        units = listed([fit.way.unit for fit in stated], "and")
        return (
            f"{mine}, but a remark of the text speaks of {units}: then it would be "
            f"{read_as(slot, stated[0].way, kind)}."
        )
    return f"{mine}, though the text names {way.unit} nowhere."


def _read_in(slot: Slot, unit: str) -> str:
    return f"'{slot.assignment.key} = {slot.text}' is read in {unit or 'no unit'}"
