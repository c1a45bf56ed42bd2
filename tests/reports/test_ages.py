"""Whatever makes a derived file stale, or unjudged, has its words."""

from __future__ import annotations

from fractions import Fraction
from typing import get_args

import pytest

from profilesmith.facts.fact_change import FactChange
from profilesmith.reports.ages import age_data, age_sentence
from profilesmith.workflows.rederive.age import Age, AgeCode, AgeReason

HOTTER = FactChange("machine.maximum_nozzle_temperature", Fraction(245), Fraction(270), "bench")


@pytest.mark.parametrize("code", get_args(AgeCode))
def test_every_reason_has_words_that_name_what_it_is_about(code: AgeCode) -> None:
    about = tuple(f"N{number}" for number in range(3))
    given = {"facts unreadable": about[:2], "unreadable": about[:2]}.get(code, about)
    reason = AgeReason(code, given, (HOTTER,) if code == "facts changed" else ())
    sentence = age_sentence(Age("soft.settings", behind=(reason,)))
    assert sentence.startswith("soft.settings: stale: ")
    assert "{" not in sentence
    if code == "facts changed":
        assert sentence.endswith("facts bench changed (maximum nozzle temperature: 245 °C → 270 °C)")
    elif code != "derived file gone":
        assert "N0" in sentence


def test_what_could_not_be_judged_is_unknown_and_not_current() -> None:
    age = Age("soft.settings", unknown=(AgeReason("said", ("no ledger",)),), edited=True)
    assert age_sentence(age) == "soft.settings: unknown: no ledger; edited by hand"
    assert age_data(age)["unknown"] == ["no ledger"]
