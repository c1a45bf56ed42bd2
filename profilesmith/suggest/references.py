"""What a share is a share of: the key that the remark names, a general speed, or the setting that texts use by
habit.
"""

import re

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.base_speed import FEWEST, says_basic
from profilesmith.suggest.ideas import THINGS
from profilesmith.suggest.proposal import Entry
from profilesmith.suggest.propose import ProposedReading
from profilesmith.suggest.slot import Slot

# What each share is mostly of, the likeliest first; common practice, no source.
HABIT = {
    "layer.height": ("nozzle.diameter",),
    "first_layer.height": ("layer.height",),
    "retraction.lift": ("layer.height",),
    "support.gap": ("layer.height",),
    "support.side_gap": ("bead.width", "outer_wall.bead_width"),
    "bridge.fan": ("fan.power",),
    "bead.width": ("nozzle.diameter",),
    "first_layer.bead_width": ("bead.width", "nozzle.diameter"),
    "outer_wall.bead_width": ("bead.width", "nozzle.diameter"),
}
SPEEDS = ("outer_wall.speed", "inner_wall.speed", "infill.speed")
SAID = 0.7  # how firmly a word must stand for a thing
ACCELERATIONS = ("print.acceleration", "outer_wall.acceleration")


class Reference(NamedTuple):
    """The entries of a binding that name it. setting: "" when it is a key that is no setting."""

    entries: dict[str, Entry]
    setting: str = ""
    doubt: str = ""


def find_reference(name: str, slot: Slot, reading: ProposedReading) -> Reference:
    """The reference of a share. Only values that are no shares themselves are taken, except by the habit of widths."""
    kind = reading.schemas.named[name].setting.kind
    named = _named_in_remark(name, slot, reading)
    if named:
        return Reference({"relative_to": named}, named)
    if kind == "speed" and reading.base is not None:
        base = reading.slots[reading.base]
        written = slot.unit is not None or bool(slot.units) or slot.share
        doubt = (
            ""
            if written and _is_plain_base(reading)
            else f"{base.name!r} is taken for the speed that this is a share of."
        )
        return Reference({"relative_key": base.assignment.key}, "", doubt)
    order = SPEEDS if kind == "speed" else ACCELERATIONS if kind == "acceleration" else HABIT[name]
    for other in order:
        if other != name and other in reading.chosen and not _circular(name, other, reading):
            return Reference(
                {"relative_to": other}, other, f"Nothing says what this is a share of; {other} is likeliest."
            )
    other = next((other for other in order if other != name and other not in reading.chosen), "")
    return Reference(
        {"relative_to": other} if other else {}, other, "Nothing in the text could be what this is a share of."
    )


def _is_plain_base(reading: ProposedReading) -> bool:
    """Whether the general speed says that it is one, and by far the most speeds are shares."""
    assert reading.base is not None
    base = reading.slots[reading.base]
    speeds = [name for name in reading.chosen if name.endswith(".speed") and name != "retraction.speed"]
    shares = sum(reading.ways[name].share for name in speeds)
    says = any("print" in term.ideas for term in base.own) or says_basic(base)
    return (
        shares >= max(FEWEST, 2 * (len(speeds) - shares)) and says and any("speed" in term.ideas for term in base.own)
    )


def _circular(name: str, other: str, reading: ProposedReading) -> bool:
    return reading.ways[other].share and not (name.endswith("width") and other == "bead.width")


def _key_in_remark(name: str, slot: Slot, reading: ProposedReading) -> str:
    """The setting whose key stands in the remark as it is written: ``a share of C-04``."""
    kind, place = reading.schemas.named[name].setting.kind, slot.assignment
    best, most = "", (0, False)
    for other, index in reading.chosen.items():
        item = reading.slots[index].assignment
        if other == name or reading.schemas.named[other].setting.kind != kind:
            continue
        # Chains, but no circles. The longest key is meant ("Tempo innen", not "Tempo"), and that of the same section.
        fit = (len(item.key), item.section == place.section)
        if fit > most and _says_key(slot, item.key) and not _says_key(reading.slots[index], place.key):
            best, most = other, fit
    return best


def _says_key(slot: Slot, key: str) -> bool:
    """Whether what stands behind a value has a key as it is written."""
    return bool(re.search(rf"(?<![\w.]){re.escape(key)}(?![\w.])", slot.remark_text))


def _named_in_remark(name: str, slot: Slot, reading: ProposedReading) -> str:
    """The setting of the same kind whose key the remark repeats: ``times the outside selvedge``."""
    kind = reading.schemas.named[name].setting.kind
    said = _key_in_remark(name, slot, reading)
    if said:
        return said
    words = {term.text for term in slot.remark if not term.small}
    if not words:
        return ""
    best, most = "", 0
    for other, index in reading.chosen.items():
        if other == name or reading.schemas.named[other].setting.kind != kind or _circular(name, other, reading):
            continue
        own = {term.text for term in reading.slots[index].own if not term.small}
        things = {term.text for term in reading.slots[index].own if THINGS & term.ideas.keys()}
        hits = len(words & own)
        if hits > most and (words & things or kind == "ratio"):
            best, most = other, hits
    return best or _meant_in_remark(name, slot, reading)


def _meant_in_remark(name: str, slot: Slot, reading: ProposedReading) -> str:
    """The setting of the same kind whose thing the remark names in other words: ``of the filling`` beside "inside"."""
    kind = reading.schemas.named[name].setting.kind
    said = {idea for term in slot.remark for idea, held in term.ideas.items() if idea in THINGS and held >= SAID}
    alike: dict[str, int] = {}
    for other in reading.chosen:
        schema = reading.schemas.named[other]
        if other != name and schema.setting.kind == kind and not _circular(name, other, reading):
            things = {part.choices[0][0] for part in schema.parts if part.thing and not part.optional}
            alike[other] = len(things & said) if things <= said else 0
    most = max(alike.values(), default=0)
    best = [other for other, hits in alike.items() if hits == most > 0]
    return best[0] if len(best) == 1 else ""
