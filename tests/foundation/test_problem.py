"""Problems, places, nearest names, exit codes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilesmith.foundation.comparison import read_comparison
from profilesmith.foundation.likeness import slips
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, INPUT, Problem, Refused, did_you_mean, nearest, refuse_if
from profilesmith.vocabulary.setting import Vocabulary


@pytest.mark.parametrize(
    ("place", "text"),
    [
        (Place(), ""),
        (Place("a.cfg"), "a.cfg"),
        (Place("a.cfg", 3), "a.cfg:3"),
        (Place("r.toml", 3, "rule 1, cap"), "r.toml:3 (rule 1, cap)"),
        (Place(path="rule 1"), "rule 1"),
    ],
)
def test_a_place_as_people_point(place: Place, text: str) -> None:
    assert str(place) == text


def test_a_wrong_input_counts_before_a_conflict() -> None:
    conflict, mistake = Problem("conflict", "x", severity=CONFLICT), Problem("toml", "y")
    assert Refused([conflict]).exit_code == CONFLICT == 3
    assert Refused([conflict, mistake]).exit_code == INPUT == 2


def test_the_same_problem_is_told_once_and_in_order() -> None:
    first, second = Problem("a", "first", Place("f")), Problem("b", "second", Place("f"))
    assert Refused([second, first, second]).problems == (second, first)


def test_no_problem_raises_nothing() -> None:
    refuse_if([])
    with pytest.raises(Refused):
        refuse_if([Problem("a", "b")])


@pytest.mark.parametrize(
    ("word", "near"),
    [("outer_wall.sped", "outer_wall.speed"), ("Support.Density", "support.density"), ("xyzzy", ""), ("", "")],
)
def test_nearest_name(word: str, near: str) -> None:
    assert nearest(word, ["outer_wall.speed", "support.density", "raft.on"]) == near
    assert did_you_mean(word, ["outer_wall.speed", "support.density"], "Else.") == (
        f"Did you mean {near!r}?" if near else "Else."
    )


NEAR_NOTHING = [
    *("banana", "kitchen", "hello", "stepper", "color", "password", "glue", "noise", "printer", "quality", "config"),
    *("tree", "setting", "export", "report", "window", "temperature", "speed"),
    *("fan.speed", "retraction.lenght", "infill.colour"),
]


@pytest.mark.parametrize("word", NEAR_NOTHING)
def test_a_word_that_is_near_nothing_is_taken_for_nothing(word: str, vocabulary: Vocabulary) -> None:
    """A wrong guess sends people astray: better the list of what there is. Of many with one word in common none is."""
    assert nearest(word, vocabulary.names()) == ""
    assert nearest(word, ["derive", "review", "recipe", "guide", "materials", "motion", "terminal", "html"]) == ""


@pytest.mark.parametrize(
    ("word", "near"),
    [
        ("nozzel.temperatur", "nozzle.temperature"),
        ("nozzle.temp", "nozzle.temperature"),
        ("layerheight", "layer.height"),
        ("first layer speed", "first_layer.speed"),
        ("retracting.speed", "retraction.speed"),
        ("printing-speed", "printing speeds"),
        ("fisrt_layer.speed", "first_layer.speed"),
        ("FIRST_LAYER.HIEGHT", "first_layer.height"),
    ],
)
def test_slips_and_short_forms_of_a_setting(word: str, near: str, vocabulary: Vocabulary) -> None:
    assert nearest(word, vocabulary.names()) == near


@pytest.mark.parametrize(
    ("word", "near"),
    [
        ("nozzle_diametr", "machine.nozzle_diameter"),
        ("drying_temp", "spool.drying_temperature"),
        ("material", "spool.material"),
        ("temperature", ""),
        ("matrial", ""),
    ],
)
def test_a_part_of_one_name_alone_is_that_name(word: str, near: str) -> None:
    facts = ["machine.nozzle_diameter", "spool.drying_temperature", "spool.bed_temperature", "spool.material"]
    assert nearest(word, facts) == near


@pytest.mark.parametrize(
    ("one", "other", "many"),
    [
        ("html", "html", 0),
        ("htm", "html", 1),
        ("jsno", "json", 1),
        ("md", "me", None),
        ("glue", "guide", None),
        ("derrvie", "derive", 2),
        ("accelarashion", "acceleration", 3),
        ("tree", "free", 1),
        ("record", "report", None),
    ],
)
def test_so_many_slips(one: str, other: str, many: int | None) -> None:
    assert slips(one, other) == slips(other, one) == many


@pytest.mark.parametrize(
    ("text", "value", "holds"),
    [
        ("> 0", 1, True),
        ("> 0", 0, False),
        (">= 0", 0, True),
        ("< 3", 3, False),
        ("<=3", 3, True),
        ("= 2", 2, True),
        ("!= 2", 2, False),
    ],
)
def test_comparisons(text: str, value: int, holds: bool) -> None:
    comparison = read_comparison(text)
    assert comparison is not None
    assert comparison.holds(Fraction(value), Fraction(comparison.operand)) is holds


@pytest.mark.parametrize("text", ["", ">", "3", "≥ 3", "over 3"])
def test_no_comparison(text: str) -> None:
    assert read_comparison(text) is None
