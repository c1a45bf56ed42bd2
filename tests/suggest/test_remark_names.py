"""Keys that are codes: their names stand in remarks of any kind, and what their values mean beside them."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from profilesmith.suggest.assign import assign, regrets
from profilesmith.suggest.detect_delimiters import find_delimiters
from profilesmith.suggest.detect_marks import find_marks, find_marks_behind
from profilesmith.suggest.key_tables import tabled_names
from profilesmith.suggest.left_alone import with_left_alone
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.modes import modes_of, told_values
from profilesmith.suggest.proposal import SURE
from profilesmith.suggest.remark_names import meanings, name_in, opened
from profilesmith.suggest.write_map import new_map
from profilesmith.workflows.suggest import MapOrder, suggest

CARD = {
    "layer.height": ("0.2", "THICKNESS OF EACH LAYER"),
    "first_layer.height": ("0.28", "THICKNESS OF FIRST LAYER"),
    "outer_wall.speed": ("2700", "F OUTER CONTOUR"),
    "infill.speed": ("4200", "F FILL"),
    "travel.speed": ("9000", "F RAPID MOVES"),
    "nozzle.temperature": ("208", "NOZZLE TEMPERATURE"),
    "bed.temperature": ("58", "PLATE TEMPERATURE"),
    "retraction.distance": ("1.2", "PULL BACK LENGTH"),
}


def proposals(tmp_path: Path, text: str) -> dict[str, Any]:
    base = tmp_path / "base.card"
    base.write_text(text)
    outcome = suggest(MapOrder((str(base),)))
    assert tomllib.loads(new_map(outcome.suggestion, accept_checks=True))["binding"]
    return {item.setting: item for item in outcome.suggestion.proposals}


@pytest.mark.parametrize(
    ("before", "behind"), [("(", ")"), ("[", "]"), ("{", "}"), ("//", ""), ("--", ""), ("'", ""), ("  ", "")]
)
def test_remarks_in_any_bracket_or_behind_any_mark_speak_for_a_key(tmp_path: Path, before: str, behind: str) -> None:
    lines = [f"P{at} = {value} {before} {words} {behind}" for at, (value, words) in enumerate(CARD.values(), 101)]
    found = proposals(tmp_path, f"{before} F IN MM/MIN, LENGTHS IN MM {behind}\n" + "\n".join(lines) + "\n")
    assert {name: found[name].key for name in CARD} == {name: f"P{at}" for at, name in enumerate(CARD, 101)}
    assert found["outer_wall.speed"].value == "45 mm/s"
    assert sum(found[name].certainty == SURE for name in CARD) >= 6


def test_a_table_further_up_names_the_keys(tmp_path: Path) -> None:
    table = "\n".join(f"' {'ABCDEFGH'[at] * 2}   {words.lower()}" for at, (_, words) in enumerate(CARD.values()))
    lines = "\n".join(f"{'ABCDEFGH'[at] * 2} = {value}" for at, (value, _) in enumerate(CARD.values()))
    found = proposals(tmp_path, f"' speeds (f) in mm/min, lengths in mm\n{table}\n\n{lines}\n")
    assert {name: found[name].key for name in CARD} == {name: "ABCDEFGH"[at] * 2 for at, name in enumerate(CARD)}


def test_one_key_that_chooses_is_bound_to_each_switch(tmp_path: Path) -> None:
    text = "\n".join(f"P{at} = {value} ; {words}" for at, (value, words) in enumerate(CARD.values(), 101))
    found = proposals(tmp_path, f"{text}\nP109 = 2 ; FOOT: 0 NOTHING, 1 SKIRT, 2 BRIM, 3 RAFT\n")
    assert {name: found[name].binding["on"] for name in ("brim.on", "raft.on")} == {"brim.on": "2", "raft.on": "3"}
    assert {found[name].binding["off"] for name in ("brim.on", "raft.on")} == {"0"}
    assert {found[name].value for name in ("brim.on", "raft.on")} == {"on", "off"}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("FOOT 0 NOTHING 1 SKIRT 2 BRIM", {"0": "NOTHING", "1": "SKIRT", "2": "BRIM"}),
        ("0 = none, 1 = bed only; 2 = everywhere", {"0": "none", "1": "bed only", "2": "everywhere"}),
        ("1 YES 0 NO", {"1": "YES", "0": "NO"}),
        ("20 % of the width", {}),
        ("3 walls", {}),
    ],
)
def test_what_values_mean(text: str, told: dict[str, str]) -> None:
    assert meanings(text) == told


def test_a_list_of_words_tells_what_a_word_is() -> None:
    assert told_values("brim", "none, skirt, brim, raft") == {w: w for w in ("none", "skirt", "brim", "raft")}
    assert told_values("wide", "none, skirt, brim, raft") == {}
    found = {mode.on: mode.off for mode in modes_of(told_values("brim", "none, skirt, brim, raft"), load_lexicon())}
    assert found == {"brim": "none", "raft": "none"}


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("F OUTER CONTOUR, MM/MIN", "F OUTER CONTOUR"),
        ("how thick a layer is, microns", "how thick a layer is"),
        ("FOOT 0 NOTHING 1 SKIRT", "FOOT"),
        ("nozzle temperature, C", "nozzle temperature"),
    ],
)
def test_a_name_is_what_is_left_without_units_and_meanings(text: str, name: str) -> None:
    assert name_in(text, load_lexicon().units) == name


def test_brackets_are_opened_and_tables_need_several_lines() -> None:
    assert opened("( OUTER )", "(") == "OUTER"
    assert opened("-- outer", "--") == "outer"
    keys = ["AA", "BB", "CC", "DD"]
    assert tabled_names([f"{key}  layer {key}" for key in keys], keys) == {key: f"layer {key}" for key in keys}
    assert tabled_names(["AA  layer"], keys) == {}


def test_marks_and_delimiters() -> None:
    lines = [f"P{at} = {at} (words here)" for at in range(9)]
    assert find_marks_behind(lines, (), ("=",)) == ("(",)
    assert find_marks_behind(["speed (mm/s) = 40"] * 9, (), ("=",)) == ()
    assert find_marks(["( a card )", "P1 = 2"]) == ("(",)
    assert find_delimiters([*["a = 1"] * 8, "b : 43mm/s", "c : 2"]) == ("=", ":")
    assert find_delimiters([*["a = 1"] * 8, "wall:speed = 40"]) == ("=",)
    assert find_delimiters(["start: G1 X=3", "b: 2"]) == (":",)


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("[keymap]\nnot_bound = []  # none\n", '[keymap]\nnot_bound = ["A", "[b] C"]  # none\n'),
        ('[keymap]\nnot_bound = ["A"]\n', '[keymap]\nnot_bound = ["A", "[b] C"]\n'),
        ('[keymap]\nname = "x"\n', '[keymap]\nnot_bound = ["A", "[b] C"]\nname = "x"\n'),
    ],
)
def test_refused_keys_are_added_to_the_map(text: str, after: str) -> None:
    assert with_left_alone(text, ["A", "[b] C"]) == after


def test_what_a_pair_is_worth_to_all() -> None:
    """The brute force: the best sum with the pair forbidden."""
    scores = {"a": {0: 3.0, 1: 2.5}, "b": {0: 2.0, 2: 1.0}, "c": {2: 0.5}}
    full = sum(scores[row][col] for row, col in assign(scores).items())
    for row, (col, lost) in regrets(scores).items():
        without = {name: {at: v for at, v in cols.items() if (name, at) != (row, col)} for name, cols in scores.items()}
        best = sum(without[name][at] for name, at in assign(without).items())
        assert lost == pytest.approx(full - best)


@pytest.mark.parametrize(
    ("remark", "name"),
    [
        ("drawing of a support, numbers as at le", "drawing of a support"),
        ("support lines drawn as: same numbers as R24", "support lines drawn as:"),
        ("Muster der Stützen, Zahlen wie unter Innen", "Muster der Stützen"),
        ("moved as fast as it may", "moved as fast as it may"),
    ],
)
def test_what_points_at_another_legend_names_nothing(remark: str, name: str) -> None:
    assert name_in(remark, {}) == name
