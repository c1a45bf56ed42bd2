"""What a text says of its codes, wherever it says it."""

import pytest

from profilesmith.suggest.borrowed_words import completed, resolved
from profilesmith.suggest.explanations import KeyPlace, explanations
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.unit_signs import unit_signs


def told(text: str, sign: str = "=") -> dict[str, str]:
    """Key -> words, of lines "code = value words"; all other lines are free."""
    lines = text.strip("\n").split("\n")
    places, free = [], set()
    for number, line in enumerate(lines, 1):
        key, found, rest = line.partition(f" {sign} ")
        if found:
            places.append(KeyPlace(number, key.strip(), rest.partition(" ")[2]))
        else:
            free.add(number)
    return {key: one.text for key, one in explanations(lines, places, free, {}).items()}


def test_one_remark_may_explain_several_codes() -> None:
    words = told(
        "C31 = 45\nC32 = 70 << pace of walls: C31 the outermost, C32 those behind >>\nC33 = 80 << ditto, filling >>"
    )
    assert words == {
        "C31": "pace of walls, the outermost",
        "C32": "pace of walls, those behind",
        "C33": "pace, filling",
    }


def test_in_that_order() -> None:
    words = told("B28 = 5\nB29 = 4 << B29 and B28, in this order: layers that close the part below; above >>")
    assert words == {"B29": "layers that close the part below", "B28": "above"}


def test_words_of_another_code_are_borrowed() -> None:
    words = told("B3 = 1 << how wide a bead is >>\nB5 = 1 << same, on top >>\nB4 = 1 << as B3, for the first layer >>")
    assert words["B4"] == "how wide a bead is, for the first layer"
    assert words["B5"] == "how wide a bead is, on top"


def test_the_legend_of_another_code_is_borrowed() -> None:
    words = told("B3 = 1 << shape of the filling. 1 lines, 2 grid >>\nB4 = 1 << look of props, numbers as in B3 >>")
    assert words["B4"] == "look of props ; 1 lines, 2 grid"


def test_a_line_above_may_explain_a_run_of_codes() -> None:
    words = told("| PACE OF TOP / OF BOTTOM |\nNABRU = 20\nNELKA = 30\n| WALLS |\nJASPO = 3")
    assert words == {"NABRU": "PACE OF TOP", "NELKA": "PACE OF BOTTOM", "JASPO": "WALLS"}


def test_notes_tell_of_the_letters_that_codes_end_in() -> None:
    notes = (
        "1) how thick a layer is; b is the first one, a all others.\n2) walls.\n"
        "3) of the inside, so much\n   is filled.\n"
    )
    words = told(f"II.a = 24 [1]\nII.b = 30 [1]\nIII.a = 2 [2]\nIII.d = 12 [3]\n\nNOTES\n{notes}4) spare")
    assert words["II.b"] == "how thick a layer is, is the first one"
    assert words["II.a"] == "how thick a layer is, all others"
    assert words["III.d"] == "of the inside, so much is filled."


@pytest.mark.parametrize(
    ("text", "before", "whole"),
    [
        (
            "same, during the first layer",
            "heat at the tip when the first layer is laid",
            "heat at the tip, during the first layer",
        ),
        ("SAME TWO FOR THE BED", "TIP IN FIRST LAYER", "IN FIRST LAYER FOR THE BED"),
        ("ditto", "pace of walls", "pace of walls"),
        ("pace of lids", "pace of walls", "pace of lids"),
    ],
)
def test_same_points_at_what_stands_before(text: str, before: str, whole: str) -> None:
    assert resolved(text, before) == whole


def test_a_part_without_a_head_takes_that_of_the_first() -> None:
    assert completed("OF WALLS BEHIND", "PACE OF OUTERMOST WALL") == "PACE OF WALLS BEHIND"
    assert completed("its shape", "filling of the inside") == "filling its shape"
    assert completed("solid layers", "walls") == "solid layers"


def test_signs_for_units_are_explained_once() -> None:
    lines = [
        "R red     degrees C      W white   mm       Y yellow  mm per second, per second",
        "K black   a plain number",
    ]
    assert unit_signs(lines, ["R", "W", "Y", "K", "N"], load_lexicon()) == {"R": "°C", "W": "mm", "Y": "mm/s2", "K": ""}
    assert unit_signs(["'um thousandths of a mm   'mm   's seconds"], ["'um", "'mm", "'s"], load_lexicon()) == {
        "'um": "um",
        "'mm": "mm",
        "'s": "s",
    }
    assert unit_signs(["the rest is plain"], ["R", "W"], load_lexicon()) == {}
