"""Printing speeds against the spool's label, as the facts file has it."""

from __future__ import annotations

import pytest

from profilesmith.checks.beads import FEATURES
from profilesmith.checks.flow import check_label_speed
from tests.checks.samples import case, only

LABEL = {"spool.maximum_printing_speed": "35 mm/s"}
SPEEDS = ("outer_wall.speed", "inner_wall.speed", "infill.speed", "bridge.speed", "first_layer.speed")
FEATURE_NAMES = tuple(name for name, _ in FEATURES)
SLOW: dict[str, str | None] = dict.fromkeys(SPEEDS, "35 mm/s")


def test_a_hand_edited_wall_above_the_label_is_a_caution() -> None:
    found = only(check_label_speed(case({**SLOW, "outer_wall.speed": "45 mm/s"}, LABEL)), "label-speed")
    assert (found.verdict, found.after, found.limit) == ("caution", "45 mm/s", "at most 35 mm/s")
    assert found.settings == ("outer_wall.speed",)
    assert "outer wall" in found.text
    assert "Slow it to 35 mm/s" in found.text


def test_every_feature_above_it_is_named() -> None:
    fast = only(
        check_label_speed(case({**SLOW, "infill.speed": "40 mm/s", "bridge.speed": "36 mm/s"}, LABEL)), "label-speed"
    )
    assert fast.settings == ("infill.speed", "bridge.speed")
    assert "infill and bridges" in fast.text
    assert "Slow them" in fast.text


@pytest.mark.parametrize(("speed", "headroom"), [("35 mm/s", ""), ("30 mm/s", "5 mm/s")])
def test_at_and_below_the_label_it_passes(speed: str, headroom: str) -> None:
    found = only(check_label_speed(case(dict.fromkeys(SPEEDS, speed), LABEL, base={})), "label-speed")
    assert (found.verdict, found.headroom, found.before) == ("passed", headroom, "80 mm/s")


def test_what_was_not_read_is_no_part_of_what_passes() -> None:
    """Samples name no speed of closing layers, supports and rafts: nothing is said of all features."""
    part = only(check_label_speed(case(dict.fromkeys(SPEEDS, "30 mm/s"), LABEL, base={})), "label-speed")
    assert part.verdict == "passed"
    assert "Nothing that was read is faster" in part.text
    assert "No speed was read for" in part.text
    every = {f"{name}.speed": "30 mm/s" for name in FEATURE_NAMES}
    whole = only(check_label_speed(case(every, LABEL, base={})), "label-speed")
    assert whole.text == "Nothing that was read is faster than the spool's label allows."


def test_what_is_not_laid_is_not_held_to_it() -> None:
    support: dict[str, str | None] = {**SLOW, "support.speed": "60 mm/s"}
    assert only(check_label_speed(case({**support, "support.on": "off"}, LABEL)), "label-speed").verdict == "passed"
    assert only(check_label_speed(case({**support, "support.on": "on"}, LABEL)), "label-speed").verdict == "caution"


def test_without_the_fact_nothing_is_said() -> None:
    assert check_label_speed(case()) == ()
