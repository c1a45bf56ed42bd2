"""What a derivation says of a machine with several tools."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from profilesmith.facts.facts import Fact
from profilesmith.foundation.place import Place
from profilesmith.ledger import Cause, Ledger, Row
from profilesmith.ledger.ledger import TOOL, Tools, tools_changed, tools_of
from profilesmith.profile.profile import profile_of

F = Fraction
HEAT, SPEED, WIDTH = "nozzle.temperature", "outer_wall.speed", "bead.width"


def ledger(tools: int, statuses: dict[str, Any], facts: dict[str, Fact] | None = None) -> Ledger:
    profile = profile_of({HEAT: (F(210),) * tools, SPEED: (F(40),), WIDTH: (F(1),) * tools})
    rows = tuple(Row(name, status, Cause("rule")) for name, status in statuses.items())
    return Ledger(base=profile, derived=profile, rows=rows, recipes=(), facts=facts or {})


def test_two_tools_are_several() -> None:
    changed = {HEAT: "changed", SPEED: "follows", WIDTH: "kept"}
    assert tools_changed(ledger(1, changed)) is None
    assert tools_changed(ledger(2, changed)) == Tools(2, 0, (HEAT,), (SPEED,))
    assert tools_changed(ledger(2, {HEAT: "kept"})) is None
    assert tools_of(profile_of({})) == 1


@pytest.mark.parametrize(("value", "chosen"), [(F(2), 2), ("2", 0), ((F(1), F(2)), 0)])
def test_the_tool_that_carries_the_spool(value: Any, chosen: int) -> None:
    told = tools_changed(ledger(2, {HEAT: "changed"}, {TOOL: Fact(value, Place())}))
    assert told is not None
    assert told.chosen == chosen


def test_what_is_no_setting_of_the_text_is_no_tools_own() -> None:
    told = tools_changed(ledger(2, {HEAT: "changed", "raft.on": "changed"}))
    assert told == Tools(2, 0, (HEAT,), ())
