"""Profiles and facts for tests of the checks: an everyday rigid profile, and facts as a person writes them."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from profilesmith.checks.beads import LaidBeads
from profilesmith.checks.case import Case
from profilesmith.facts.facts import Fact, Facts, fact_kinds, read_fact
from profilesmith.foundation.place import Place
from profilesmith.ledger.judgement import Finding
from profilesmith.profile.profile import Profile, profile_of
from profilesmith.review.findings.in_words import in_words
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Unreadable, Value, read_value

# Common practice for rigid PLA with a 0.4 mm nozzle.
RIGID = {
    "layer.height": "0.2 mm",
    "first_layer.height": "0.25 mm",
    "bead.width": "0.45 mm",
    "wall.count": "3",
    "top.layers": "4",
    "bottom.layers": "4",
    "infill.density": "15 %",
    "infill.pattern": "gyroid",
    "outer_wall.speed": "60 mm/s",
    "inner_wall.speed": "80 mm/s",
    "infill.speed": "80 mm/s",
    "first_layer.speed": "25 mm/s",
    "nozzle.temperature": "205 °C",
    "first_layer.nozzle_temperature": "205 °C",
    "bed.temperature": "60 °C",
    "print.acceleration": "1000 mm/s2",
    "nozzle.diameter": "0.4 mm",
    "filament.diameter": "1.75 mm",
    "retraction.on": "on",
    "retraction.distance": "1 mm",
    "layer.minimum_time": "6 s",
    "fan.power": "100 %",
    "fan.minimum_power": "40 %",
    "bridge.fan": "100 %",
    "bridge.speed": "30 mm/s",
}
SOFT_SPOOL = {
    "spool.material": "TPU 95A",
    "spool.hardness": "95 Shore A",
    "spool.nozzle_window": "220 °C to 240 °C",
    "spool.bed_window": "30 °C to 60 °C",
    "spool.maximum_flow": "3 mm3/s",
    "spool.drying_temperature": "60 °C",
}


def value(setting: str, text: str) -> Value:
    found = read_value(load_vocabulary().settings[setting], text)
    assert not isinstance(found, Unreadable), (setting, text)
    return found


@cache
def _rigid() -> dict[str, tuple[Value, ...]]:
    return {name: (value(name, text),) for name, text in RIGID.items()}


def profile(changes: dict[str, str | None] | None = None) -> Profile:
    """The rigid profile with other values; None takes a setting out; ``a | b`` gives one for each tool."""
    values = dict(_rigid())
    for name, text in (changes or {}).items():
        values.pop(name, None)
        if text is not None:
            values[name] = tuple(value(name, part.strip()) for part in text.split("|"))
    return profile_of(values)


def facts(told: dict[str, str] | None = None) -> Facts:
    found = {}
    for name, text in (told or {}).items():
        known = read_fact(fact_kinds()[name], text)
        assert known is not None, (name, text)
        found[name] = Fact(known, Place("test"))
    return found


def case(
    now: dict[str, str | None] | None = None,
    told: dict[str, str] | None = None,
    base: dict[str, str | None] | None = None,
) -> Case:
    """One profile judged alone; with ``base``, the change from that to ``now``."""
    if base is None:
        return Case(profile(now), None, facts(told), LaidBeads())
    return Case(profile(base), profile(now), facts(told), LaidBeads())


def only(findings: tuple[Finding, ...], check: str) -> Finding:
    """The one finding of a check, in words."""
    found = [item for item in findings if item.check == check]
    assert len(found) == 1, findings
    return in_words(found[0])


def of(setting: str, text: str) -> Fraction:
    found = value(setting, text)
    assert isinstance(found, Fraction)
    return found
