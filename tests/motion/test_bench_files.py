"""Files of our own generator: clean ones have no finding, and each exact setting that is wrong by one step is found."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest

from profilesmith.motion.figures import Figures
from profilesmith.motion.judging.judge import certainties, judge
from profilesmith.motion.judging.outcome import JudgedSetting
from profilesmith.motion.measure import measure
from profilesmith.motion.practice import Practice
from profilesmith.motion.words_map import read_words_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Value
from tests.motion.generators.bench import SOFT, Settings, Style, lay_part, words_map

STYLES = {
    "box": Style(),
    "tube": Style(corners=60, size=18.0),
    "absolute strand": Style(relative=False),
    "wiped": Style(wipe_mm=1.0),
}
EXACT = [
    "layer.height",
    "first_layer.height",
    "nozzle.temperature",
    "first_layer.nozzle_temperature",
    "bed.temperature",
    "first_layer.bed_temperature",
    "fan.power",
    "fan.off_layers",
    "retraction.distance",
    "retraction.speed",
    "retraction.lift",
]
WITH_WORDS = ["wall.count", "top.layers", "bottom.layers", "skirt.loops"]


@cache
def practice() -> Practice:
    told, problems = read_words_map(words_map().encode(), "words.toml")
    assert problems == []
    assert told is not None
    return told


@cache
def figures(style: str, words: bool) -> Figures:
    text = lay_part(style=STYLES[style])
    return measure([text.encode()], practice() if words else Practice())


def promised(settings: Settings) -> dict[str, Value]:
    return {name: value if isinstance(value, bool | str) else Fraction(str(value)) for name, value in settings.items()}


def outcomes(seen: Figures, settings: Settings) -> dict[str, JudgedSetting]:
    return {item.setting: item for item in judge(seen, promised(settings))}


@pytest.mark.parametrize("words", [True, False])
@pytest.mark.parametrize("style", STYLES)
def test_a_clean_file_has_no_finding(style: str, words: bool) -> None:
    got = outcomes(figures(style, words), SOFT)
    assert [name for name, item in got.items() if item.outcome.verdict == "found"] == []
    assert [name for name in EXACT if got[name].outcome.verdict != "passed"] == []
    if words and style != "tube":
        assert [name for name in WITH_WORDS if got[name].outcome.verdict != "passed"] == []


@pytest.mark.parametrize("name", EXACT)
@pytest.mark.parametrize("sign", [1, -1])
def test_an_exact_setting_wrong_by_one_step_is_found_without_words(name: str, sign: int) -> None:
    step = load_vocabulary().settings[name].step
    assert step is not None
    wrong: Settings = {**SOFT, name: float(SOFT[name]) + sign * float(step)}
    got = outcomes(figures("box", False), wrong)
    assert got[name].outcome.verdict == "found"


@pytest.mark.parametrize("name", WITH_WORDS)
def test_a_count_wrong_by_one_is_found_with_words(name: str) -> None:
    got = outcomes(figures("box", True), {**SOFT, name: float(SOFT[name]) + 1})
    assert got[name].outcome.verdict == "found"


@pytest.mark.parametrize("name", ["outer_wall.speed", "inner_wall.speed", "infill.speed", "top.speed", "bottom.speed"])
def test_speeds_are_one_sided(name: str) -> None:
    slower = outcomes(figures("box", True), {**SOFT, name: float(SOFT[name]) - 1})
    assert slower[name].outcome.verdict == "found"
    assert slower[name].outcome.spots[0].line > 0
    faster = outcomes(figures("box", True), {**SOFT, name: float(SOFT[name]) + 50})
    assert faster[name].outcome.verdict == "passed"


def test_a_raft_is_known_with_words_only() -> None:
    settings: Settings = {**SOFT, "raft.on": True, "raft.layers": 3.0, "raft.gap": 0.22, "raft.speed": 24.0}
    text = lay_part(settings, Style(layers=12))
    with_words = outcomes(measure([text.encode()], practice()), settings)
    assert [name for name, item in with_words.items() if item.outcome.verdict == "found"] == []
    for name in ("raft.on", "raft.layers", "raft.gap", "raft.speed", "layer.height"):
        assert with_words[name].outcome.verdict == "passed"
    without = outcomes(measure([text.encode()]), settings)
    assert without["first_layer.height"].outcome.code == "over-raft"
    assert without["raft.layers"].outcome.code == "no-words"


RAFTED: Settings = {**SOFT, "raft.on": True, "raft.layers": 3.0, "raft.gap": 0.22, "raft.speed": 24.0}


@pytest.mark.parametrize(
    ("changed", "verdict"),
    [
        ({}, "passed"),
        ({"first_layer.height": 0.27}, "found"),  # neither the raft's lowest layer nor the part's
        (
            {"first_layer.height": 0.27, "layer.height": 0.26},
            "not judged",
        ),  # the part begins with a layer like all others
        ({"first_layer.height": 0.27, "raft.gap": 0.21}, "passed"),  # then the part's lowest is such a layer
    ],
)
def test_a_first_layer_over_a_raft(changed: Settings, verdict: str) -> None:
    """A clean file, held against promises of which some are changed."""
    laid = measure([lay_part(RAFTED, Style(layers=12)).encode()], practice())
    assert outcomes(laid, {**RAFTED, **changed})["first_layer.height"].outcome.verdict == verdict


@pytest.mark.parametrize(("promised", "verdict"), [(16.0, "passed"), (15.0, "found")])
def test_a_first_layer_s_speed_over_a_raft(promised: float, verdict: str) -> None:
    laid = measure([lay_part(RAFTED, Style(layers=12)).encode()], practice())
    assert outcomes(laid, {**RAFTED, "first_layer.speed": promised})["first_layer.speed"].outcome.verdict == verdict


def test_a_first_layer_s_speed_over_a_raft_that_only_one_reading_keeps() -> None:
    quick = lay_part(RAFTED, Style(layers=12)).replace(f"F{16 * 60}", f"F{14 * 60}", 1)
    laid = measure([quick.encode()], practice())
    outcome = outcomes(laid, {**RAFTED, "first_layer.speed": 15.0})["first_layer.speed"].outcome
    assert outcome.code in ("over-raft", "no-faster-not-met")


def spiral(step: float) -> str:
    """A sole of four rings and a wall that climbs without an end."""
    lines = ["G21", "G90", "M83", "M104 S200", "G28", "G1 X0 Y0 Z0.2 F1800", "; rim, seen"]
    for layer in range(4):
        lines.append(f"G1 Z{0.2 + step * layer:.3f}")
        lines += [f"G1 X{x} Y{y} E0.5" for x, y in ((20, 0), (20, 20), (0, 20), (0, 0))]
        lines += ["G1 E-1", "G1 E1"]
    z = 0.2 + step * 3
    for turn in range(40):
        for corner, (x, y) in enumerate(((20, 0), (20, 20), (0, 20), (0, 0)), 1):
            lines.append(f"G1 X{x} Y{y} Z{z + 0.2 * (turn + corner / 4):.3f} E0.5")
    return "\n".join([*lines, "M104 S0", "M2"]) + "\n"


def test_a_first_layer_that_is_too_quick_is_one_layer() -> None:
    """However many kinds of line it has."""
    outcome = outcomes(figures("box", True), {**SOFT, "first_layer.speed": 15.0})["first_layer.speed"].outcome
    assert (outcome.verdict, outcome.data["fast"]) == ("found", 1)


@pytest.mark.parametrize(("step", "code"), [(0.2, "spiral-above"), (0.25, "height-below-spiral-not-met")])
def test_flat_layers_below_a_spiral_may_break_a_promise(step: float, code: str) -> None:
    laid = measure([spiral(step).encode()], practice())
    outcome = outcomes(laid, {**SOFT, "layer.height": 0.2})["layer.height"].outcome
    assert outcome.code == code
    assert outcome.seen == (step,)


@pytest.mark.parametrize(("promised_density", "verdict"), [(20.0, "passed"), (23.0, "not judged"), (30.0, "found")])
def test_density_from_straight_lines(promised_density: float, verdict: str) -> None:
    got = outcomes(figures("box", True), {**SOFT, "infill.density": promised_density})
    assert got["infill.density"].outcome.verdict == verdict


def test_a_bead_is_not_judged_where_layers_vary() -> None:
    thick: Settings = {**SOFT, "layer.height": 0.24}
    got = outcomes(figures("box", True), thick)
    assert got["layer.height"].outcome.verdict == "found"
    assert got["outer_wall.bead_width"].outcome.code == "height-varies"


def test_each_setting_of_the_vocabulary_has_its_certainty() -> None:
    assert set(certainties()) == set(load_vocabulary().settings)


def test_a_kilogram_in_metres() -> None:
    """facts 32: 1 kg of 1.75 mm filament at 1.24 g/cm3 is 335.28 m."""
    from profilesmith.review.motion.totals import Spool

    grams = Spool(1.75, 1.24).grams(335_283.6)
    assert grams == pytest.approx(1000.0, rel=1e-6)
