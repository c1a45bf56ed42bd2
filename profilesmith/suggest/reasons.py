"""Why a key was proposed, in short words for a comment in the map."""

from profilesmith.suggest.evidence import Evidence, Hold
from profilesmith.suggest.idea_words import spoken
from profilesmith.suggest.propose import ProposedReading
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.values import Way

USUAL_GAIN = 0.8


def reasons_for(setting: str, slot: Slot, way: Way, evidence: Evidence, reading: ProposedReading) -> tuple[str, ...]:
    """What speaks for it: words, value, unit, neighbours."""
    reasons = [_hold(hold, reading) for hold in evidence.holds]
    if evidence.gain >= USUAL_GAIN and reading.schemas.named[setting].setting.is_number:
        reasons.append("usual value")
    unit = _unit(slot, way, reading)
    if unit:
        reasons.append(unit)
    return tuple(dict.fromkeys(reasons))


def _hold(hold: Hold, reading: ProposedReading) -> str:
    where = "" if hold.where == "key" else f" ({hold.where})"
    idea = spoken(hold.idea)
    if hold.firm:
        return f"'{hold.word}'{where} says {idea}"
    if hold.word in reading.learnt.total and reading.learnt.total[hold.word].get(hold.idea, 0.0) >= 1.0:
        return f"'{hold.word}'{where} stands for {idea} in this text"
    return f"'{hold.word}'{where} may stand for {idea}"


def _unit(slot: Slot, way: Way, reading: ProposedReading) -> str:
    if not way.unit:
        return ""
    share = "a share in " if way.share else ""
    if slot.unit is not None:
        return f"{share}{way.unit} written"
    if way.unit in slot.units:
        return f"{share}{way.unit} named beside it"
    if way.unit in reading.stated:
        return f"{share}{way.unit} named in a remark"
    return f"{share}{way.unit} as in other keys" if way.unit else ""
