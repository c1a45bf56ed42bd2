"""Order-free: bounds give the same in any order of rules and recipes. Aims have an order, and the ledger says which
lost.
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


@law(70)
@given(scenarios(aims=False), st.data())
def test_any_order_of_rules_and_recipes_gives_the_same_text(scenario: Scenario, data: st.DataObject) -> None:
    first = run(scenario)
    rules = [rule for recipe in scenario.book.recipes for rule in recipe]
    shuffled = data.draw(st.permutations(rules))
    cut = data.draw(st.integers(0, len(rules)))
    parts = [tuple(part) for part in (shuffled[:cut], shuffled[cut:]) if part]
    second = run(scenario.with_recipes(*parts))
    assert first.derivation is not None
    assert second.derivation is not None
    assert second.derivation.outputs == first.derivation.outputs
    assert second.data["derived"] == first.data["derived"]
    assert bool(second.problems) == bool(first.problems)
    assert _told(second.data["rows"]) == _told(first.data["rows"])


def _told(rows: list[dict]) -> list[str]:
    """What the rows say, without which recipe and rule says it."""
    return sorted(
        str((row["setting"], row["status"], row["cause"].get("asked"), row["derived"], row["new_text"], row["line"]))
        for row in rows
    )


@law(30)
@given(scenarios(), st.data())
def test_the_later_aim_wins_and_the_earlier_is_named_as_overruled(scenario: Scenario, data: st.DataObject) -> None:
    slots = {
        name: slot for name, (_, slot) in scenario.page.slots().items() if name in NUMBERS and slot.reference is None
    }
    assume(slots)
    setting = data.draw(st.sampled_from(sorted(slots)))
    known = NUMBERS[setting]
    step = Fraction(known.step)
    low, high = (int(Fraction(end) / step) for end in (known.low, known.high))
    ends = data.draw(st.lists(st.integers(low + 1, high - 1), min_size=2, max_size=2, unique=True))
    aims = [Rule((setting,), {"aim": (step * end,)}) for end in ends]
    for one, two in (aims, aims[::-1]):
        both = run(replace(scenario, book=replace(scenario.book, facts={})).with_recipes((one,), (two,)))
        alone = run(replace(scenario, book=replace(scenario.book, facts={})).with_recipes((two,)))
        assert both.output == alone.output
        rows = {row["cause"].get("recipe"): row for row in both.data["rows"] if row["setting"] == setting}
        assert rows["recipe-0"]["status"] == "overruled"
        assert [(note["code"], note["by"]["recipe"]) for note in rows["recipe-0"]["notes"]] == [
            ("later aim", "recipe-1")
        ]
        assert rows["recipe-1"]["status"] in ("changed", "kept")
