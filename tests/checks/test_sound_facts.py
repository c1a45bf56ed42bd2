"""Facts of another kind or out of range are named and left out; the rest is judged."""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilesmith.checks.facts_agree import sound_facts
from profilesmith.facts.facts import Fact, FactValue, Hardness
from profilesmith.foundation.place import Place
from profilesmith.review.findings.in_words import judge
from tests.checks.samples import SOFT_SPOOL, facts, only, profile

BAD: list[tuple[str, FactValue]] = [
    ("spool.maximum_flow", "a lot"),
    ("machine.drive", "steam"),
    ("machine.drive", Fraction(3)),
    ("spool.nozzle_window", Fraction(210)),
    ("spool.nozzle_window", Hardness(Fraction(92), "A")),
    ("spool.hardness", "soft"),
    ("part.thickness", Fraction(5000)),
    ("spool.nozzle_window", (Fraction(5), Fraction(9))),
    ("spool.nozzle_window", (Fraction(220), Fraction(210))),
    ("machine.colour", "blue"),
]


@pytest.mark.parametrize(("name", "value"), BAD)
def test_a_bad_fact_is_named_and_left_out(name: str, value: FactValue) -> None:
    sound, findings = sound_facts({**facts({"part.thickness": "2 mm"}), name: Fact(value, Place("x"))})
    assert name not in sound
    assert only(findings, "facts").verdict == "not judged"
    assert name in only(findings, "facts").text
    assert "part.thickness" in sound or name == "part.thickness"


def test_good_facts_stay() -> None:
    assert sound_facts(facts(SOFT_SPOOL)) == (facts(SOFT_SPOOL), ())


def test_the_rest_goes_on() -> None:
    told = {**facts(SOFT_SPOOL), "spool.maximum_flow": Fact("a lot", Place("x"))}
    findings = judge(profile(), None, told).findings
    assert only(findings, "facts").verdict == "not judged"
    assert only(findings, "nozzle-temperature").verdict == "caution"
    # What hung on the bad fact falls back on what is usual for the material.
    assert "usually gives" in only(findings, "flow-spool").text
