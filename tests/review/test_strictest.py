"""Of two known bounds on a setting that a person types in, the stricter alone is told."""

from __future__ import annotations

from typing import Any

import pytest

from profilesmith.review.render.sheet.of_recipe import recipes_sheet
from profilesmith.review.review import Reason
from profilesmith.review.strictest import STRICTER, strictest
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from tests.rows import asked

REASONS = [
    ([{"cap": "40 mm/s"}, {"cap": "70 mm/s"}], [0]),
    ([{"cap": "70 mm/s"}, {"cap": "40 mm/s"}], [1]),
    ([{"cap": "40 mm/s"}, {"cap": "40 mm/s"}], [0]),
    ([{"raise_to": "20 mm/s"}, {"cap": "40 mm/s"}], [0, 1]),
    ([{"window": "10 mm/s to 50 mm/s"}, {"window": "20 mm/s to 40 mm/s"}], [1]),
    ([{"window": "10 mm/s to 40 mm/s"}, {"cap": "30 mm/s"}], [0, 1]),
    ([{"set": "30 mm/s"}, {"cap": "40 mm/s"}], [0]),
    ([{"aim": "30 mm/s", "cap": "60 mm/s"}, {"cap": "40 mm/s"}], [0, 1]),
    ([{"scale": "50 %"}, {"cap": "40 mm/s"}], [0, 1]),
    ([{"cap": "2.4 m/min"}, {"cap": "41 mm/s"}], [0]),
]


@pytest.mark.parametrize(("asks", "left"), REASONS)
def test_the_strictest_bounds(asks: list[dict[str, str]], left: list[int]) -> None:
    reason = Reason("soft 1.0.0, rule 1", "", "Soft filament buckles.", "common practice", "by hand")
    demands = [str(number) for number in range(len(asks))]
    reasons = tuple(
        reason._replace(demand=demand, asked=asked("outer_wall.speed", **item))
        for demand, item in zip(demands, asks, strict=True)
    )
    found = strictest(reasons)
    assert [item.demand for item in found if item.status == "by hand"] == [demands[number] for number in left]
    assert sorted(item.demand for item in found) == demands  # none is lost: the others are overruled


RULE = '[[rule]]\nsetting = "bottom.speed"\n{}\nwhy = "test"\n'
TWO_BOUNDS = [
    (['cap = "70.62 mm/s"', 'cap = "40 mm/s"'], ["at most 40 mm/s"]),
    (['cap = "40 mm/s"', 'cap = "40 mm/s"'], ["at most 40 mm/s"]),
    (['cap = "40 mm/s"', 'raise_to = "20 mm/s"'], ["at most 40 mm/s", "at least 20 mm/s"]),
    (
        ['cap = "40 mm/s"', 'cap = "20 mm/s"\nwhen = { "machine.drive" = "remote" }'],
        ["at most 40 mm/s", "at most 20 mm/s"],
    ),
    (['cap = "40 mm/s"', 'cap = "60 mm/s"\nwhen = { "machine.drive" = "remote" }'], ["at most 40 mm/s"]),
    (['cap = "40 mm/s"', 'cap = { flow = "4 mm3/s" }'], ["at most 40 mm/s", "at most speed A"]),
]


@pytest.mark.parametrize(("rules", "left"), TWO_BOUNDS)
def test_of_two_known_bounds_a_recipe_tells_the_stricter(rules: list[str], left: list[str], read_recipe: Any) -> None:
    recipe, problems = read_recipe("".join(RULE.format(text) for text in rules))
    assert problems == []
    sheet = recipes_sheet((recipe,), load_vocabulary())
    assert [step.new for step in next(item for part in sheet.parts for item in part.items).steps] == left


def capped(at: str, status: str) -> Reason:
    reason = Reason("soft 1.0.0, rule 1", f"at most {at}", "Soft filament buckles.", "common practice", status)
    return reason._replace(asked=asked("outer_wall.speed", cap=at))


def test_what_is_in_force_comes_first_and_what_is_idle_last() -> None:
    """A person who types a number in reads from the top: the bound to mind, then what is met, then what is
    overruled.
    """
    loose, met, tight = capped("70 mm/s", "by hand"), capped("90 mm/s", "kept"), capped("40 mm/s", "by hand")
    found = strictest((loose, met, tight))
    assert found == (tight, met, loose._replace(status="overruled", note=STRICTER))


def test_a_bound_that_is_no_longer_asked_makes_no_other_idle() -> None:
    """Of a kept reason nothing is left to do by hand: it must not swallow the one that is."""
    met, open_yet = capped("30 mm/s", "kept"), capped("40 mm/s", "by hand")
    assert strictest((met, open_yet)) == (open_yet, met)
