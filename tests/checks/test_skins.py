"""Closing layers, counted exactly: 4 x 0.2 mm become 7 x 0.12 mm; 3 x 0.1 mm are 0.3 mm and not 0.30000000000000004."""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilesmith.checks.skins import check, thickness
from tests.checks.samples import case, only, profile


def test_passes_when_the_thickness_is_kept() -> None:
    found = only(check(case({"layer.height": "0.12 mm", "top.layers": "7"}, base={})), "skin-top")
    assert (found.verdict, found.before, found.after) == ("passed", "0.8 mm", "0.84 mm")


def test_a_thinner_skin_is_found_with_the_layers_that_would_keep_it() -> None:
    found = only(check(case({"layer.height": "0.12 mm"}, base={})), "skin-top")
    assert found.verdict == "caution"
    assert found.after == "0.48 mm"
    assert "7 layers would keep it" in found.text


@pytest.mark.parametrize(("layers", "verdict"), [("4", "passed"), ("2", "note"), ("0", "note")])
def test_a_profile_alone(layers: str, verdict: str) -> None:
    found = only(check(case({"top.layers": layers})), "skin-top")
    assert (found.verdict, found.before) == (verdict, "")


def test_nothing_without_layers_or_height() -> None:
    assert check(case({"layer.height": None})) == ()
    assert check(case({"top.layers": None, "bottom.layers": None})) == ()


def test_exactly() -> None:
    assert thickness(profile({"layer.height": "0.1 mm", "top.layers": "3"}), "top") == Fraction("0.3")
    assert thickness(
        profile({"layer.height": "0.1 mm", "bottom.layers": "3", "first_layer.height": "0.25 mm"}), "bottom"
    ) == Fraction("0.45")


def test_a_skin_of_exactly_the_least_thickness_passes() -> None:
    """In floats 3 x 0.2 is more than 0.6 and 6 x 0.1 less."""
    for height, layers in (("0.2 mm", "3"), ("0.1 mm", "6")):
        assert only(check(case({"layer.height": height, "top.layers": layers})), "skin-top").verdict == "passed"


@pytest.mark.parametrize(
    ("layers", "words"), [("1", "1 layer makes 0.2 mm. So thin"), ("2", "2 layers make 0.4 mm. So thin")]
)
def test_one_layer_is_told_as_one(layers: str, words: str) -> None:
    found = only(check(case({"top.layers": layers})), "skin-top").text
    assert found.startswith(words)
    thick = only(
        check(case({"layer.height": "0.8 mm", "top.layers": "1"}, base={"layer.height": "0.8 mm", "top.layers": "2"})),
        "skin-top",
    ).text
    assert "1 layers" not in thick
