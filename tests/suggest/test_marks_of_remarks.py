"""Remarks behind values: signs that no list has, lists before them, headings that are none."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from profilesmith.suggest.detect_habits import find_habits
from profilesmith.suggest.detect_marks import find_marks, find_marks_behind, follows_value
from profilesmith.workflows.suggest import MapOrder, suggest

KEYS = ("layer height = 0.2 mm", "outer wall speed = 40 mm/s", "infill speed = 60 mm/s", "travel speed = 150 mm/s")


def proposals(tmp_path: Path, text: str) -> dict[str, Any]:
    base = tmp_path / "base.card"
    base.write_text(text)
    return {item.setting: item for item in suggest(MapOrder((str(base),))).suggestion.proposals}


@pytest.mark.parametrize(("before", "behind"), [("<", ">"), ("—", ""), ("^", ""), ('"', ""), ("%", ""), ("@", "")])
def test_any_sign_behind_a_gap_begins_a_remark(before: str, behind: str) -> None:
    lines = [f"{line}     {before} as it should be{behind}" for line in KEYS]
    assert before in find_marks_behind(lines, (), ("=",))


def test_per_cent_is_no_remark() -> None:
    assert not follows_value("20 % of the line", "%", ("=",))
    assert follows_value("20      % of the line", "%", ("=",))


def test_the_values_of_two_tools_are_no_remark() -> None:
    assert not follows_value("0.4 | 0.6        {bore}", "|", ("=",))
    lines = [f"C{at} = 0.4 | 0.6        {{bore of the tip}}" for at in range(9)]
    assert "|" not in find_marks_behind(lines, ("{",), ("=",))


def test_remarks_may_hold_signs_of_keys() -> None:
    said = ["* what goes under it:  none, ring, lip or mat, as you like", "* ring = laps round the part, not touching"]
    assert "*" in find_marks([*said, "* so far as we know now", "layer = 0.2 mm"])
    assert "*" not in find_marks(["* layer = 0.2 mm", "* wall = 3", "* speed: 40 mm/s", "* fan: on"])


def test_what_begins_remarks_behind_values_heads_nothing() -> None:
    rows = [f"R{at}   0.{at}      << how wide the hole in the tip is >>" for at in range(1, 9)]
    text = "\n".join(
        [*rows, "", "<< warmth of the plate >>", "R20   58", "<< warmth of the first layer >>", "R21   63"]
    )
    habits = find_habits([text])
    assert "<<" in (habits.comments or ())
    assert not any(form.startswith("<<") for form in habits.headings)


def test_a_column_may_be_called_name() -> None:
    rows = "\n".join(f"{at}\tslice {at}\t{at}0\tum\tnote" for at in range(1, 15))
    assert not any(
        "name" in form.partition("name")[2] for form in find_habits([f"no\tname\tamount\tunit\tnote\n{rows}"]).headings
    )


def test_lists_in_brackets_are_those_of_several_tools(tmp_path: Path) -> None:
    text = """\
nozzle.diameter = [0.4, 0.6]
nozzle.temperature = [205, 212]
bead.width = [0.45, 0.65]
layer.height = 0.2
outer_wall.speed = 45
infill.speed = [90, 80]
"""
    found = proposals(tmp_path, text)
    assert found["nozzle.temperature"].value == "205 °C | 212 °C"
    assert found["infill.speed"].binding["tools"] is True
