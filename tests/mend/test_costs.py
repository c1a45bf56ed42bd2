"""What a mend costs, by the checks: arithmetic that is done here once more, and alarms that come and go."""

from __future__ import annotations

import pytest

from profilesmith.mend.costs import Cost, costs_of
from profilesmith.profile.profile import Profile
from profilesmith.review.mend_cautions import HEAT, TIME, cautions
from profilesmith.review.mend_costs import cost_lines
from tests.checks.samples import facts, profile

FACTS = {
    "machine.acceleration": "1000 mm/s2",
    "machine.maximum_nozzle_temperature": "230 °C",
    "part.thickness": "4 mm",
    "part.orientation": "standing",
    "part.width": "20 mm",
}


def by_figure(now: Profile, after: Profile) -> dict[str, Cost]:
    return {item.figure: item for item in costs_of(now, now, after, facts(FACTS)).figures}


def test_nothing_moved_costs_nothing() -> None:
    found = costs_of(profile(), profile(), profile(), facts(FACTS))
    assert {item.figure for item in found.figures} >= {"print_time", "plastic", "bending_stiffness"}
    assert all(item.stays for item in found.figures)
    assert (found.worse, found.better, found.asks, found.longer) == ((), (), (), False)


def test_thinner_layers_take_longer_by_their_number() -> None:
    found = by_figure(profile(), profile({"layer.height": "0.16 mm"}))
    ratio = found["print_time"].after
    assert (ratio.low, ratio.high) == pytest.approx((1.25, 1.25))


def test_a_wall_more_costs_plastic_and_softness() -> None:
    """Without filling a standing strip is its walls: a third one on each side is at most half as much again."""
    empty: dict[str, str | None] = {"infill.density": "0 %"}
    found = by_figure(profile(empty | {"wall.count": "2"}), profile(empty | {"wall.count": "3"}))
    assert 1.2 < found["plastic"].after.high < 1.5
    assert found["bending_stiffness"].after.low > 1
    assert found["print_time"].partly
    assert costs_of(profile(), profile(), profile({"wall.count": "4"}), facts(FACTS)).longer


def test_an_alarm_that_comes_is_told_and_one_that_goes_too() -> None:
    hot = profile({"nozzle.temperature": "240 °C"})  # the machine reaches 230
    worse = costs_of(profile(), profile(), hot, facts(FACTS))
    assert "nozzle-maximum" in {item.check for item in worse.worse}
    assert any(line.startswith("It brings: ") for line in cost_lines(worse))
    better = costs_of(profile(), hot, profile(), facts(FACTS))
    assert {item.check for item in better.better} == {item.check for item in worse.worse}
    assert any(line.startswith("It ends: ") for line in cost_lines(better))


def test_what_is_not_known_is_asked() -> None:
    bare = facts()
    found = costs_of(profile(), profile(), profile({"wall.count": "4"}), bare)
    assert found.asks == ("part.thickness",)
    assert any("part.thickness" in line for line in cost_lines(found))
    assert costs_of(profile(), profile(), profile({"nozzle.temperature": "210 °C"}), bare).asks == ()


def test_cautions_know_what_the_checks_say_of_time() -> None:
    assert cautions([]) == []
    assert cautions([], longer=True) == [TIME]
    assert HEAT not in cautions([], longer=True)
