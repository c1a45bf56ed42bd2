"""Which key holds the speed that other speeds are shares of, where that key is no setting: ``reference pace = 60
mm/s``.
"""

import re
from collections.abc import Sequence

from profilesmith.suggest.ideas import THINGS
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.values import Way

FEWEST = 3  # speeds that are shares, before a key that says little of itself is taken
CLEAR, POOR = 1.0, -3.5  # how much must speak for it: among few shares, and among many
MENTIONED, BASIC = 3.0, 2.0  # what it is worth that a remark names the key, and that a word says that others rest on it
LARGEST_SHARE = 6
THING_SAID = 0.4  # how firmly a word must stand for a thing
SHORTEST = 5  # letters of a key that a remark could not name by chance

_BASIC = re.compile(
    r"(?<![a-z])(?:ref|reference|referenz|basis|base|nominal|nenn|bezug|richt|grund|master|house|norm"
    r"|hundred|standard|general|common|usual)(?![a-z])|grund|bezug|référence",
    re.I,
)


def named_base(slots: Sequence[Slot], words: frozenset[str]) -> int | None:
    """The first slot whose whole name is said in a remark on shares: a word for speed, and none for another thing."""
    for index, slot in enumerate(slots):
        names = [term for term in slot.own if not term.small]
        said = (
            len(names) >= 2
            and all(term.text in words for term in names)
            and any("speed" in term.ideas for term in names)
        )
        things = [THINGS & term.ideas.keys() for term in names]
        if said and slot.number is not None and all(not thing or "print" in thing for thing in things):
            return index
    return None


def find_base(
    slots: Sequence[Slot],
    general: Sequence[float],
    chosen: dict[str, int],
    ways: dict[str, Way],
    remarks: Sequence[str],
) -> int | None:
    """The likeliest slot, None where none is likely. general: how well each suits a speed of nothing in particular."""
    speeds = {name: ways[name] for name in chosen if name.endswith(".speed") and name != "retraction.speed"}
    shares = sum(way.share for way in speeds.values())
    plain = {chosen[name] for name, way in speeds.items() if not way.share and not _told(slots[chosen[name]], remarks)}
    kept = {index for name, index in chosen.items() if not name.endswith(".speed") or name == "retraction.speed"}
    many = shares >= FEWEST and shares > len(plain)
    if not shares:
        return None
    best, most = None, CLEAR
    if many:
        most = POOR
    for index, slot in enumerate(slots):
        if general[index] <= -90 or index in kept or (index in plain if many else index in chosen.values()):
            continue
        said = _told(slot, remarks)
        if _says_a_thing(slot, firmly=bool(said)) and (not said or index in chosen.values()):
            continue
        worth = general[index] + (said if many else 0.0)
        if worth > most:
            best, most = index, worth
    return best


def shares_implied(slots: Sequence[Slot]) -> bool:
    """Whether a basic speed has its unit written, and several others are bare numbers too small for one: 0.8,
    1.1, 1.4.
    """
    speeds = [
        slot
        for slot in slots
        if slot.number is not None and any("speed" in term.ideas and term.firm for term in slot.own)
    ]
    basic = any(slot.unit is not None and slot.unit.kind == "speed" and says_basic(slot) for slot in speeds)
    bare = [slot.number for slot in speeds if slot.number is not None and slot.unit is None and not slot.units]
    small = sum(0 < number <= LARGEST_SHARE for number in bare)
    plain = sum(number > LARGEST_SHARE for number in bare)
    return basic and small >= FEWEST and small > plain


def says_basic(slot: Slot) -> bool:
    return bool(_BASIC.search(slot.assignment.key))


def _told(slot: Slot, remarks: Sequence[str]) -> float:
    """What a remark that names the key, and its own words, say for it."""
    return MENTIONED * _is_mentioned(slot, remarks) + BASIC * says_basic(slot)


def _says_a_thing(slot: Slot, firmly: bool) -> bool:
    """Whether a word says what is laid at that speed. firmly: a word of the trade."""
    return any(
        idea in THINGS - {"print", "layer"} and held >= THING_SAID
        for term in slot.own
        if term.firm or not firmly
        for idea, held in term.ideas.items()
    )


def _is_mentioned(slot: Slot, remarks: Sequence[str]) -> bool:
    key = slot.assignment.key
    return len(key) >= SHORTEST and any(re.search(rf"(?<!\w){re.escape(key)}(?!\w)", remark) for remark in remarks)
