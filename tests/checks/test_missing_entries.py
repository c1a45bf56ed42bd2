"""Whatever a text does not say, before or after: judging asks or is silent, and never falls over it."""

from __future__ import annotations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from profilesmith.checks.judge import judge
from tests.checks.samples import RIGID, SOFT_SPOOL, facts, profile

MORE = {
    "support.on": "on",
    "support.density": "15 %",
    "support.gap": "0.2 mm",
    "raft.on": "on",
    "raft.layers": "3",
    "retraction.minimum_travel": "1.5 mm",
    "travel.speed": "150 mm/s",
    "bead.flow": "100 %",
}
PART = {
    **SOFT_SPOOL,
    "part.thickness": "2.4 mm",
    "part.width": "20 mm",
    "part.free_length": "40 mm",
    "part.form": "sheet",
    "part.softness": "0.01 N/mm",
    "part.bend_radius": "40 mm",
    "machine.drive": "direct",
    "machine.nozzle_diameter": "0.4 mm",
}
STANDING, LYING = {"part.orientation": "standing"}, {"part.orientation": "lying"}
NAMES = sorted({**RIGID, **MORE})
LACKING = st.sets(st.sampled_from(NAMES), max_size=len(NAMES))


@settings(max_examples=25)
@given(LACKING, LACKING, st.sampled_from([STANDING, LYING, {}]))
@example(set(), {"wall.count"}, STANDING)
@example(set(), {"top.layers"}, LYING)
@example(set(), {"bottom.layers"}, LYING)
def test_judging_with_whatever_is_missing(base: set[str], now: set[str], pose: dict[str, str]) -> None:
    before = profile({**MORE, **dict.fromkeys(base, None)})
    after = profile({**MORE, "wall.count": "2", **dict.fromkeys(now, None)})
    judgement = judge(before, after, facts({**PART, **pose}))
    assert judgement.findings
    assert judge(before, None, facts({**PART, **pose})).findings


@pytest.mark.parametrize("name", NAMES)
def test_one_value_that_is_gone_after_the_change(name: str) -> None:
    for pose in (STANDING, LYING):
        judgement = judge(profile(dict(MORE)), profile({**MORE, name: None}), facts({**PART, **pose}))
        assert judgement.findings
