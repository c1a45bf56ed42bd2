"""What a shipped recipe's reason claims, the checks do not deny: no alarm on a setting that its own rules have settled.

Over shipped profiles and a grid of facts; every pair of a check and a recipe that speak of one setting meets there at
least twice. A recipe's windows and limits are held against the tables of materials too, so that one thing is known in
one place.
"""

from __future__ import annotations

import tomllib
from collections import Counter, defaultdict
from collections.abc import Iterator
from functools import cache
from itertools import product
from pathlib import Path
from typing import NamedTuple

import pytest

from profilesmith.checks.materials import materials
from profilesmith.engine.derive import Derivation, derive
from profilesmith.engine.read import Source
from profilesmith.foundation.quantity import read_quantity
from profilesmith.ledger.judgement import ALARMS, Finding

RECIPES = Path(__file__).resolve().parents[2] / "recipes"
SPOOLS = {
    "flexible-pla": ("flexible PLA", "92 Shore A", "4 mm3/s"),
    "tpu-95a": ("TPU 95A", "95 Shore A", "3 mm3/s"),
    "tpu-85a": ("TPU 85A", "85 Shore A", "1.5 mm3/s"),
}
PARTS = (
    (),
    ("part-soft",),
    ("part-sandable",),
    ("fine-finish",),
    ("fine-finish", "part-sandable"),
    ("long-tube",),
    ("fine-finish", "part-soft"),
)
POSES = (("sheet", "lying", "6 mm"), ("tube", "standing", "1.8 mm"))
PROFILES = (
    ("profiles/plain-shop.settings", "keymaps/plain-shop.toml"),
    ("profiles/werkbank.conf", "keymaps/werkbank.toml"),
    ("demo/base.settings", "demo/keymap.toml"),
)
MACHINE = """
nozzle_diameter = "0.4 mm"
liner = "PTFE"
acceleration = "3000 mm/s2"
maximum_nozzle_temperature = "260 °C"
maximum_bed_temperature = "100 °C"
maximum_flow = "11 mm3/s"
tube_length = "420 mm"
tube_bore = "1.9 mm"
tube_bend = "180 deg"
"""
FINISHED = """
sanding_allowance = "0.2 mm"
coating = "elastic"
bend_radius = "60 mm"
"""
# The recipe says itself that a pull through the tube is mostly lost: an alarm on that is no denial of its reason.
AGREED = {("retraction-stretch", "long-tube")}
# A part that gives way is not sanded as well (the two recipes conflict), so that nobody says how much is taken off.
UNASKED = {("sanding-wall", "part-soft")}


class Spot(NamedTuple):
    """One place of the grid."""

    profile: tuple[str, str]
    spool: str
    part: tuple[str, ...]
    pose: tuple[str, str, str]


GRID = [Spot(*found) for number, found in enumerate(product(PROFILES, SPOOLS, PARTS, POSES)) if number % 4 in (0, 3)]


def facts(spot: Spot) -> str:
    (material, hardness, flow), (form, orientation, thickness) = SPOOLS[spot.spool], spot.pose
    drive = "remote" if "long-tube" in spot.part else "direct"
    spool = f'[spool]\nmaterial = "{material}"\nhardness = "{hardness}"\nmaximum_flow = "{flow}"\n'
    part = f'[part]\nform = "{form}"\norientation = "{orientation}"\nthickness = "{thickness}"'
    finish = FINISHED if "part-sandable" in spot.part else ""
    return f'format = 1\n[machine]\ndrive = "{drive}"{MACHINE}{spool}{part}{finish}'


@cache
def source(name: str) -> Source:
    return Source(name, (RECIPES / name).read_bytes())


@cache
def derived(spot: Spot) -> Derivation:
    base, key_map = (source(name) for name in spot.profile)
    recipes = [source(f"{name}.toml") for name in (spot.spool, *spot.part)]
    return derive([base], key_map, recipes, [Source("facts.toml", facts(spot).encode())])


def meetings(spot: Spot) -> Iterator[tuple[Finding, str]]:
    """Each finding with each recipe that has settled one of its settings."""
    made, settled = derived(spot), defaultdict(set)
    for row in made.ledger.rows:
        if row.status in ("changed", "kept", "added") and row.cause.recipe:
            settled[row.cause.recipe].add(row.setting)
    for finding in made.review.consequences:
        for recipe, settings in settled.items():
            if settings.intersection(finding.settings):
                yield finding, recipe


def test_no_alarm_on_what_a_recipe_has_settled() -> None:
    denied = {
        (finding.check, recipe, finding.text)
        for spot in GRID
        for finding, recipe in meetings(spot)
        if finding.verdict in ALARMS and (finding.check, recipe) not in AGREED
    }
    assert denied == set()


def test_every_pair_of_a_check_and_a_recipe_is_judged_twice() -> None:
    """Pairs that meet where the check cannot judge count for nothing, and would be missed here."""
    judged: Counter[tuple[str, str]] = Counter()
    met = set()
    for spot in GRID:
        for finding, recipe in meetings(spot):
            met.add((finding.check, recipe))
            judged[finding.check, recipe] += finding.verdict != "not judged"
    assert {pair for pair in met if judged[pair] < 2} == UNASKED
    assert len(met) >= 50
    assert {recipe for _, recipe in met} == {*SPOOLS, *(name for part in PARTS for name in part)}


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
