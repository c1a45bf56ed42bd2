"""Print time: bounds that always hold.

Outside check: 60 to 20 mm/s at 1000 mm/s2, moves with a mean length of 5 mm: 1.9682 times (the integral over the
exponential law, by an outside library); a list of real lengths: 2.462142 times. Both lie inside the bracket of 1 to 3.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from profilesmith.checks.print_time import check, mean_bracket, mean_factor, paces, path_changes, time_bracket
from tests.checks.samples import case, only

SPEEDS = ("outer_wall.speed", "inner_wall.speed", "infill.speed", "first_layer.speed", "bridge.speed")


def all_at(speed: str, **more: str) -> dict[str, str | None]:
    return {**dict.fromkeys(SPEEDS, speed), **{key.replace("__", "."): text for key, text in more.items()}}


def test_slowed_to_a_third() -> None:
    whole = time_bracket(case(all_at("20 mm/s"), base=all_at("60 mm/s")))
    assert whole is not None
    assert (whole.low, whole.high) == (1, 3)
    assert whole.holds(1.9682)
    assert whole.holds(2.462142)


def test_a_mean_length_gives_a_bracket_from_full_stops_to_none() -> None:
    slowed = case(all_at("20 mm/s"), {"part.mean_segment_length": "5 mm"}, base=all_at("60 mm/s"))
    mean = mean_bracket(slowed)
    assert mean is not None
    assert mean.high == pytest.approx(3)
    # All of one length: 5 / 20 + 20 / 1000 s over 5 / 60 + 60 / 1000 s; scattered lengths: 1.9682 times.
    assert mean.low == pytest.approx(0.27 / (5 / 60 + 0.06))
    assert mean.holds(1.9682)
    text = only(check(slowed), "print-time").text
    assert "about" not in text
    assert "if none does, as on curved walls" in text


def test_verdicts() -> None:
    assert only(check(case(all_at("20 mm/s"), base=all_at("60 mm/s"))), "print-time").verdict == "note"
    assert only(check(case(all_at("50 mm/s"), base=all_at("60 mm/s"))), "print-time").verdict == "passed"
    assert "as long as before" in only(check(case(base={})), "print-time").text
    assert check(case()) == ()


def test_thinner_layers_and_longer_waits_count() -> None:
    halved = time_bracket(case({"layer.height": "0.1 mm"}, base={}))
    assert halved is not None
    assert (halved.low, halved.high) == (2, 2)
    waiting = time_bracket(case({"layer.minimum_time": "12 s"}, base={}))
    assert waiting is not None
    assert (waiting.low, waiting.high) == (1, 2)


def test_a_wait_where_there_was_none_is_named() -> None:
    found = only(check(case({"layer.minimum_time": "12 s"}, base={"layer.minimum_time": "0 s"})), "print-time")
    assert "at least 12 s is not counted" in found.text
    assert "not counted" not in only(check(case({"layer.minimum_time": "12 s"}, base={})), "print-time").text


def test_a_lower_flow_limit_counts_though_no_speed_changed() -> None:
    """80 mm/s of a bead of 0.0814 mm2 need 6.5 mm3/s; held to 3.257 mm3/s they are laid at 40 mm/s."""
    held = time_bracket(case({"filament.maximum_flow": "3.256637 mm3/s"}, base={"filament.maximum_flow": "12 mm3/s"}))
    assert held is not None
    assert (held.low, held.high) == (1, pytest.approx(2, abs=1e-5))


def test_only_one_side_tells_its_acceleration() -> None:
    found = only(check(case({"print.acceleration": None}, base={})), "print-time")
    assert found.verdict == "not judged"
    assert found.ask
    told = {"machine.acceleration": "1000 mm/s2"}
    assert only(check(case({"print.acceleration": None}, told, base={})), "print-time").verdict == "passed"


def test_changes_of_the_path_are_named() -> None:
    assert path_changes(case({"wall.count": "2", "infill.density": "5 %"}, base={})) == [
        "wall.count",
        "infill.density",
    ]


@settings(deadline=None)
@given(st.floats(5, 200), st.floats(5, 200), st.floats(200, 5000), st.floats(200, 5000), st.floats(0.1, 200))
def test_every_mean_lies_inside_the_bracket(old: float, new: float, before: float, after: float, length: float) -> None:
    slowed = case(
        all_at(f"{new:.3f} mm/s", print__acceleration=f"{after:.1f} mm/s2"),
        base=all_at(f"{old:.3f} mm/s", print__acceleration=f"{before:.1f} mm/s2"),
    )
    whole = time_bracket(slowed)
    assert whole is not None
    for pace in paces(slowed):
        factor = mean_factor(pace, length)
        assert factor is not None
        assert whole.low * (1 - 1e-9) <= factor <= whole.high * (1 + 1e-9)


@settings(deadline=None)
@given(st.floats(60, 500))
def test_a_cap_above_everything_changes_no_time(cap: float) -> None:
    base = all_at("60 mm/s")
    capped = all_at(f"{min(60.0, cap):.3f} mm/s")
    whole = time_bracket(case(capped, base=base))
    assert whole is not None
    assert (whole.low, whole.high) == (1, 1)


@settings(deadline=None)
@given(st.floats(5, 60), st.floats(5, 60))
def test_a_lower_cap_never_makes_it_quicker(one: float, other: float) -> None:
    low, high = sorted((one, other))
    slow, less = (time_bracket(case(all_at(f"{speed:.3f} mm/s"), base=all_at("60 mm/s"))) for speed in (low, high))
    assert slow is not None
    assert less is not None
    assert slow.high >= less.high
