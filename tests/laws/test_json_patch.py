"""Outside check: the RFC 6902 patch in the JSON ledger, applied by the library ``jsonpatch``, gives the derived
profile.

RFC 6902, section 4 (operations) and RFC 6901 (pointers).
"""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import jsonpatch
from hypothesis import given

from profilesmith.review.render import render
from tests.laws.running import law, run
from tests.laws.strategies import Scenario, scenarios


@law(60)
@given(scenarios())
def test_the_patch_turns_base_into_derived(scenario: Scenario) -> None:
    outcome = run(scenario)
    assert outcome.derivation is not None
    data = json.loads(render(outcome.derivation.review, "json"))
    assert jsonpatch.apply_patch(data["base"], data["patch"]) == data["derived"]
    paths = [operation["path"] for operation in data["patch"]]
    assert len(set(paths)) == len(paths)
    assert {path.removeprefix("/") for path in paths} == outcome.moved
    if not outcome.problems:
        _says_what_the_text_says(data["derived"], outcome.values(after=True))
        _says_what_the_text_says(data["base"], outcome.values(after=False))


def _says_what_the_text_says(profile: dict, values: dict) -> None:
    """The neutral profile against the independent reader: exactly."""
    for setting, held in values.items():
        stored = profile[setting] if isinstance(profile[setting], list) else [profile[setting]]
        assert [_exact(item) for item in stored] == list(held)


def _exact(item: Any) -> Any:
    """A number as it is meant: a decimal, or a fraction where no decimal can say it."""
    if isinstance(item, dict):
        assert item["about"] == float(Fraction(item["exact"]))
        return Fraction(item["exact"])
    return item if isinstance(item, bool | str) else Fraction(repr(item))
