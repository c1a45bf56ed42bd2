"""Stable: deriving again from the derived text changes nothing. What scales or shifts says that it is to be applied
once.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import assume, given
from hypothesis import strategies as st

from tests.laws.demands import Rule
from tests.laws.running import law, run
from tests.laws.spellings import NUMBERS
from tests.laws.strategies import Scenario, scenarios


@law(80)
@given(scenarios())
def test_deriving_again_changes_nothing(scenario: Scenario) -> None:
    outcome = run(scenario)
    if outcome.problems:
        return
    again = run(scenario, outcome.output)
    assert not again.problems
    assert again.output == outcome.output
    assert again.data["patch"] == []
    assert {row["status"] for row in again.data["rows"]}.isdisjoint({"changed", "added", "follows", "held", "gave way"})
    assert not any(recipe["once"] for recipe in again.data["recipes"])


@law(50)
@given(scenarios(), st.data())
def test_a_scale_or_shift_works_once_and_says_so(scenario: Scenario, data: st.DataObject) -> None:
    """The derived value is base times and plus, to the nearest that the text can hold; the recipe says ``once``."""
    slots = {
        name: slot
        for name, (_, slot) in scenario.page.slots().items()
        if name in NUMBERS and NUMBERS[name].kind != "temperature"
    }
    assume(slots)
    setting = data.draw(st.sampled_from(sorted(slots)))
    step = Fraction(NUMBERS[setting].step)
    times, plus = data.draw(st.integers(50, 150)), step * data.draw(st.integers(0, 20))
    rules = data.draw(st.permutations([_ratio(setting, times), Rule((setting,), {"shift": (plus,)})]))
    outcome = run(replace(scenario, book=replace(scenario.book, facts={})).with_recipes(tuple(rules)))
    assume(not outcome.problems)
    assert outcome.data["recipes"][0]["once"] is True
    assert all("apply it once" in text for text in outcome.told())
    before, after = outcome.values(after=False), outcome.values(after=True)
    shift = Fraction(plus)
    limit = {"ratio": 100, "angle": 90}.get(NUMBERS[setting].kind, 10**9)
    slot = slots[setting]
    whole = after[slot.reference][0] if isinstance(slot.reference, str) else slot.reference
    step = step if whole is None else max(step, slot.step(whole))
    for old, new in zip(before[setting], after[setting], strict=True):
        assert abs(new - min(old * times / 100 + shift, limit)) <= step / 2


def _ratio(setting: str, times: int) -> Rule:
    """A rule whose operand is a share, whatever the setting's own unit."""
    return Rule((setting,), {"scale": f"{times} %"})
