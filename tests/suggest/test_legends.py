"""What single values mean where another key, or no key, is told it; and how shapes are called."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from profilesmith.suggest.legends import Legends
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.modes import told_values
from profilesmith.suggest.proposal import SURE, Proposal
from profilesmith.suggest.remark_names import meanings, name_in
from profilesmith.suggest.shapes import pattern_of

SHAPES = {"D6": "filling drawn as: 1 lines, 2 crossed, 3 triangles, 4 waves", "E4": "prop drawn as: numbers as at D6"}


Proposals = Callable[[str], dict[str, Proposal]]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("figure. L lines, X crossing, H honeycomb", {"L": "lines", "X": "crossing", "H": "honeycomb"}),
        ("inside (A lines B grid C cubes)", {"A": "lines", "B": "grid", "C": "cubes"}),
        ("G grid / H honeycomb / L lines", {"G": "grid", "H": "honeycomb", "L": "lines"}),
        ("shape: c = crossed, t = three-cornered, r = rings", {"c": "crossed", "t": "three-cornered", "r": "rings"}),
        ("tip heat, X and Y", {}),
        ("MM/MIN, F OUTER CONTOUR", {}),
    ],
)
def test_letters_that_stand_for_words(text: str, told: dict[str, str]) -> None:
    assert meanings(text) == told


def test_a_name_ends_where_letters_are_explained() -> None:
    assert name_in("core: figure. L lines, X crossing, T triangles", {}) == "core: figure"


@pytest.mark.parametrize(
    "remark", ["numbers as at D6", "see D6", "Zahlen wie bei D6", "chiffres comme en D6", "same list as for D6"]
)
def test_a_legend_that_stands_beside_another_key(remark: str) -> None:
    legends = Legends({**SHAPES, "E4": remark}, (), load_lexicon())
    assert legends.of("E4", "2", remark)["2"] == "crossed"


def test_a_remark_adds_to_the_legend_that_it_points_at() -> None:
    remark = "shape of a prop, letters as D6, z = zigzag"
    legends = Legends({"D6": "filling: c = crossed, t = triangles, r = rings"}, (), load_lexicon())
    assert legends.of("E4", "z", remark)["z"] == "zigzag"
    assert legends.of("E4", "r", remark)["r"] == "rings"


def test_a_key_that_is_only_named_lends_no_legend() -> None:
    assert Legends(SHAPES, (), load_lexicon()).of("F1", "2", "D6 again") == {}


def test_a_line_that_begins_with_a_key_explains_it() -> None:
    legends = Legends({"ft": ""}, ["ft = what is under the part: 0 nil, 1 loops, 2 border"], load_lexicon())
    assert legends.of("ft", "2", "") == {"0": "nil", "1": "loops", "2": "border"}


def test_legends_of_shapes_that_differ_say_nothing() -> None:
    lines = ["fill: 1 lines, 2 grid, 3 cubes", "props: 1 grid, 2 lines"]
    legends = Legends({}, lines, load_lexicon())
    assert legends.shapes("3")["3"] == "cubes"
    assert legends.shapes("1") == {}


def test_both_patterns_are_read_by_one_legend(proposals: Proposals) -> None:
    text = """\
K1 = 0.2   {thickness of a layer, mm}
K2 = 0.3   {thickness of the first layer, mm}
K3 = 3     {walls around the part}
K4 = 4     {filling drawn as: 1 lines, 2 crossed, 3 triangles, 4 waves}
K5 = 1     {supports drawn as: numbers as at K4}
K6 = 40    {speed of the outer wall, mm/s}
K7 = 60    {speed of the infill, mm/s}
K8 = 205   {nozzle temperature}
"""
    found = proposals(text)
    assert found["infill.pattern"].value == "gyroid"
    assert found["support.pattern"].value == "lines"
    assert found["support.pattern"].certainty == SURE
    assert "support.on" not in found


@pytest.mark.parametrize(
    ("words", "shape"),
    [
        ("rings that follow the outline", "concentric"),
        ("lines to and fro", "lines"),
        ("cubes on their corners", "cubic"),
        ("grd", "grid"),
        ("hxg", "hexagons"),
        ("gyr", "gyroid"),
        ("xyz", ""),
    ],
)
def test_shapes_in_several_words_and_cut_short(words: str, shape: str) -> None:
    assert pattern_of(words, load_lexicon()) == shape


def test_a_list_of_words_with_what_brackets_say_of_them() -> None:
    said = "one of: none / loops (around, not touching) / hem (flat rim, one layer) / stand (base of layers)"
    told = told_values("Hem", said)
    assert told["Hem"] == "hem (flat rim, one layer)"
    assert list(told) == ["none", "loops", "Hem", "stand"]


def test_a_value_in_words_chooses_one_of_several_things(proposals: Proposals) -> None:
    text = """\
# the machine's own list
layer height; 0.2 mm
outer wall speed; 40 mm/s
infill speed; 60 mm/s
nozzle temperature; 205 C
bed temperature; 55 C
infill density; 15 %
# one of: none / loops (skirt around the part) / hem (brim, one layer) / stand (raft of layers)
we lay; hem
"""
    found = proposals(text)
    assert {name: found[name].value for name in ("brim.on", "raft.on")} == {"brim.on": "on", "raft.on": "off"}
    assert found["raft.on"].binding["on"] == "stand"


def test_a_shape_that_no_word_list_knows_is_to_be_checked(proposals: Proposals) -> None:
    text = "layer height = 0.2\ninfill pattern = flurble\ninfill density = 15 %\ninfill speed = 60 mm/s\n"
    assert proposals(text)["infill.pattern"].certainty != SURE


def test_the_remark_of_a_switch_may_describe_its_thing(proposals: Proposals) -> None:
    rows = [
        "K1 = 0.2   {thickness of a layer, mm}",
        "K2 = 40    {speed of the outer wall, mm/s}",
        "K3 = 60    {speed of the infill, mm/s}",
        "K4 = 205   {nozzle temperature, C}",
        "K5 = 4     {brim width, mm}",
        "K6 = 1     {flat border, one layer thick, holds the edges at the bottom}",
        "K7 = 0     {1 = raft below the part}",
        "K8 = 15    {infill density, %}",
    ]
    found = proposals("\n".join(rows) + "\n")
    assert {name: found[name].value for name in ("brim.on", "raft.on")} == {"brim.on": "on", "raft.on": "off"}


def test_a_list_stands_between_semicolons() -> None:
    assert told_values("drawn", "raft ; drawn/blank") == {"drawn": "drawn", "blank": "blank"}
