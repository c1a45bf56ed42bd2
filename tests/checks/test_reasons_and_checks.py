"""What a shipped recipe's reason claims, the checks do not deny: no alarm on a setting that its own rules have settled.

Over shipped profiles and a grid of facts. A recipe's windows and limits are held against the tables of materials too,
so that one thing is known in one place.
"""

from __future__ import annotations

import tomllib
from itertools import product
from pathlib import Path

import pytest

from profilesmith.checks.materials import materials
from profilesmith.foundation.quantity import read_quantity
from profilesmith.ledger.judgement import ALARMS
from profilesmith.workflows.derive import derive
from profilesmith.workflows.request import Request

RECIPES = Path(__file__).resolve().parents[2] / "recipes"
SPOOLS = {
    "flexible-pla": ("flexible PLA", "92 Shore A", "4 mm3/s"),
    "tpu-95a": ("TPU 95A", "95 Shore A", "3 mm3/s"),
    "tpu-85a": ("TPU 85A", "85 Shore A", "1.5 mm3/s"),
}
PARTS = ((), ("part-soft",), ("part-sandable",), ("fine-finish",), ("fine-finish", "part-sandable"))
POSES = (("sheet", "lying", "6 mm"), ("tube", "standing", "1.8 mm"))
PROFILES = (("plain-shop.settings", "plain-shop"), ("werkbank.conf", "werkbank"))
GRID = [
    (profile, spool, part, pose)
    for number, (profile, spool, part, pose) in enumerate(product(PROFILES, SPOOLS, PARTS, POSES))
    if number % 2 == 0
]


def facts(spool: str, pose: tuple[str, str, str], sanded: bool) -> str:
    material, hardness, flow = SPOOLS[spool]
    form, orientation, thickness = pose
    lines = ["format = 1", "[machine]", 'drive = "direct"', "[spool]", f'material = "{material}"']
    lines += [f'hardness = "{hardness}"', f'maximum_flow = "{flow}"', "[part]", f'form = "{form}"']
    lines += [f'orientation = "{orientation}"', f'thickness = "{thickness}"']
    return "\n".join([*lines, 'sanding_allowance = "0.2 mm"'] if sanded else lines)


@pytest.mark.parametrize(("profile", "spool", "part", "pose"), GRID)
def test_no_alarm_on_what_a_recipe_has_settled(
    profile: tuple[str, str], spool: str, part: tuple[str, ...], pose: tuple[str, str, str], tmp_path: Path
) -> None:
    (tmp_path / "facts.toml").write_text(facts(spool, pose, "part-sandable" in part), encoding="utf-8")
    request = Request(
        bases=(str(RECIPES / "profiles" / profile[0]),),
        key_map=profile[1],
        recipes=(spool, *part),
        facts=(str(tmp_path / "facts.toml"),),
    )
    made = derive(request)
    settled = {row.setting for row in made.ledger.rows if row.status in ("changed", "kept", "added")}
    assert settled
    denied = [
        (item.check, item.text)
        for item in made.review.consequences
        if item.verdict in ALARMS and settled.intersection(item.settings)
    ]
    assert denied == []


WINDOWS = [("nozzle_window", "nozzle_temperature"), ("bed_window", "bed_temperature")]


@pytest.mark.parametrize(("answer", "usual"), WINDOWS)
@pytest.mark.parametrize("spool", SPOOLS)
def test_one_window_in_recipe_and_table(spool: str, answer: str, usual: str) -> None:
    """25 to 65 °C once stood beside "50 at most, the lowest layers bulge"."""
    default = tomllib.loads((RECIPES / f"{spool}.toml").read_text(encoding="utf-8"))["inputs"][answer]["default"]
    held = materials()[SPOOLS[spool][0]].ranges[usual]
    for text in default:
        value = read_quantity(text, "temperature")
        assert not isinstance(value, str)
        assert held.low <= value <= held.high


@pytest.mark.parametrize("spool", SPOOLS)
def test_a_recipes_flow_is_that_of_the_table(spool: str) -> None:
    inputs = tomllib.loads((RECIPES / f"{spool}.toml").read_text(encoding="utf-8"))["inputs"]
    held, flow = (
        materials()[SPOOLS[spool][0]].ranges["maximum_flow"],
        read_quantity(inputs["maximum_flow"]["default"], "flow"),
    )
    assert not isinstance(flow, str)
    assert held.low <= flow <= held.high
