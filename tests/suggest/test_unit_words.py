"""Units that a text states once: for all keys with a word, or at the head of a block."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from profilesmith.suggest.block_units import block_units
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.proposal import Proposal
from profilesmith.suggest.stated import stated_units
from profilesmith.suggest.unit_words import unit_words, units_by_word

Proposals = Callable[[str], dict[str, Proposal]]


@pytest.mark.parametrize(
    ("remark", "units"),
    [
        ("pace = cm/min, push = mm/s2, heat = C", {"pace": "cm/min", "push": "mm/s2", "heat": "°C"}),
        ("all paces in mm/min; lengths are in microns", {"pace": "mm/min", "length": "um"}),
        ("Tempo in mm/s und Wege in mm", {"tempo": "mm/s", "wege": "mm"}),
        ("pace = how fast the head goes", {}),
        ("house pace, other paces as a share of it", {}),
    ],
)
def test_words_with_a_unit(remark: str, units: dict[str, str]) -> None:
    assert unit_words([remark], load_lexicon()) == units


def test_a_key_has_the_unit_of_its_word() -> None:
    assert units_by_word("pace.behind_kerb", {"pace": "cm/min"}) == ["cm/min"]
    assert units_by_word("push.kerb", {"pace": "cm/min"}) == []


def test_a_word_whose_unit_is_stated_is_no_sign_for_that_unit(proposals: Proposals) -> None:
    text = """\
; pace = cm/min, push = mm/s2, heat = C
layer.height = 0.2 mm
pace.outer_wall = 270
pace.infill = 540
pace.travel = 1050
push.print = 1600
heat.nozzle = 207
"""
    found = proposals(text)
    assert found["outer_wall.speed"].value == "45 mm/s"
    assert found["travel.speed"].value == "175 mm/s"
    assert found["print.acceleration"].value == "1600 mm/s²"


def test_a_remark_at_the_head_of_a_block_states_its_unit(proposals: Proposals) -> None:
    text = """\
[speeds]
; in/s unless it says otherwise
outer wall = 1.2
infill = 2.75
travel = 390 in/min
[accelerations]
; in/s^2
print = 50
travel = 90
[heat]
nozzle = 401 F
"""
    found = proposals(text)
    assert found["outer_wall.speed"].binding["unit"] == "in/s"
    assert found["travel.speed"].value == "165.1 mm/s"
    assert found["travel.acceleration"].value == "2286 mm/s²"


def test_a_block_ends_at_the_next_remark_or_heading() -> None:
    lines = ["[a]", "; um", "x = 1", "", "y = 2", "; of another kind", "z = 3", "[b]", "w = 4"]
    remarks = {2: "um", 6: "of another kind"}
    assert block_units(lines, remarks, {1, 8}, 3, load_lexicon()) == {3: ("um",), 5: ("um",)}


def test_without_headings_a_block_ends_at_a_blank_line() -> None:
    lines = ["; lengths in mm", "x = 1", "", "; mm/min", "y = 2", "", "z = 3"]
    assert block_units(lines, {1: "lengths in mm", 4: "mm/min"}, (), 2, load_lexicon()) == {5: ("mm/min",)}


def test_inches_are_inches_a_second_where_a_remark_says_so(proposals: Proposals) -> None:
    text = """\
; Inches where it says in, else millimetres. Speeds per second.
layer height = 0.2
outer wall speed = 1.2 in
infill speed = 2.0 in
bead width = 0.02 in
retraction distance = 1.5
"""
    found = proposals(text)
    assert found["outer_wall.speed"].binding["unit"] == "in/s"
    assert found["outer_wall.speed"].value == "30.48 mm/s"
    assert found["bead.width"].binding["unit"] == "in"


def test_inches_alone_are_no_speed(proposals: Proposals) -> None:
    text = "layer height = 0.2 mm\nouter wall speed = 1.2 in\ninfill density = 15 %\nnozzle temperature = 205 C\n"
    assert "outer_wall.speed" not in proposals(text)


def test_a_part_of_a_line_is_a_share(proposals: Proposals) -> None:
    text = "layer height = 0.2 mm\ninfill overlap = 0.2 of a bead\ninfill density = 15 %\nouter wall speed = 40 mm/s\n"
    assert proposals(text)["infill.overlap"].value == "20 %"


def test_shares_of_one_are_said_of_no_speed() -> None:
    lexicon = load_lexicon()
    assert "share:speed" not in stated_units(["paces in mm/s, shares as parts of one"], lexicon)
    assert "share:speed" in stated_units(["house pace in mm/s, all other paces as a share of it"], lexicon)
