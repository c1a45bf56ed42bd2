"""Layer, bead and first layer against the nozzle. The shares are common practice, no source."""

from __future__ import annotations

import pytest

from profilesmith.checks import sizes
from tests.checks.samples import case, only


@pytest.mark.parametrize(
    ("height", "verdict"), [("0.2 mm", "passed"), ("0.08 mm", "note"), ("0.31 mm", "note"), ("0.36 mm", "caution")]
)
def test_layer_height(height: str, verdict: str) -> None:
    found = only(sizes.check_sizes(case({"layer.height": height}, base={})), "layer-height")
    assert found.verdict == verdict
    assert (found.before, found.limit) == ("0.2 mm", "0.1 to 0.3 mm")


@pytest.mark.parametrize(
    ("width", "verdict"),
    [("0.45 mm", "passed"), ("0.35 mm", "note"), ("0.65 mm", "note"), ("0.9 mm", "caution"), ("0.19 mm", "caution")],
)
def test_bead_width(width: str, verdict: str) -> None:
    assert only(sizes.check_sizes(case({"bead.width": width})), "bead-width").verdict == verdict


def test_the_outer_walls_own_bead_is_seen() -> None:
    found = only(sizes.check_sizes(case({"outer_wall.bead_width": "0.3 mm"})), "bead-width")
    assert (found.verdict, found.after) == ("note", "0.3 mm")


@pytest.mark.parametrize("told", [{}, {"machine.nozzle_diameter": "0.6 mm"}])
def test_not_judged_without_a_certain_nozzle(told: dict[str, str]) -> None:
    now: dict[str, str | None] = {} if told else {"nozzle.diameter": None}
    for found in sizes.check_sizes(case(now, told)):
        assert found.verdict == "not judged"
        assert found.ask
    assert only(sizes.check_first_layer(case(now, told)), "first-layer-height").verdict == "not judged"


@pytest.mark.parametrize(
    ("height", "verdict"), [("0.25 mm", "passed"), ("0.31 mm", "note"), ("0.34 mm", "caution"), ("0.15 mm", "note")]
)
def test_first_layer_height(height: str, verdict: str) -> None:
    assert only(sizes.check_first_layer(case({"first_layer.height": height})), "first-layer-height").verdict == verdict


@pytest.mark.parametrize(("speed", "verdict"), [("25 mm/s", "passed"), ("55 mm/s", "note")])
def test_first_layer_speed(speed: str, verdict: str) -> None:
    assert only(sizes.check_first_layer(case({"first_layer.speed": speed})), "first-layer-speed").verdict == verdict


@pytest.mark.parametrize(
    ("speed", "words"),
    [
        ("24 mm/s", "as usual: 30 to 50 %."),
        ("12 mm/s", "below the usual 30 to 50 %."),
        ("34.2 mm/s", "above the usual 30 to 50 %. Up to 60 % passes here; slower sticks better."),
        ("55 mm/s", "above the usual 30 to 50 %. A slower first layer sticks better."),
    ],
)
def test_the_first_layers_words_agree_with_its_usual(speed: str, words: str) -> None:
    found = only(sizes.check_first_layer(case({"first_layer.speed": speed})), "first-layer-speed")
    assert found.text.endswith(words)


@pytest.mark.parametrize(
    ("first", "wall", "reason"),
    [
        ("4 mm/s", "60 mm/s", "first-layer-slow"),
        ("4 mm/s", "20 mm/s", "first-layer-slow"),  # a slow wall is no reason to drag the first layer
        ("4 mm/s", "10 mm/s", "first-layer-paced"),
        ("6 mm/s", "30 mm/s", "first-layer-paced"),
    ],
)
def test_a_first_layer_has_a_usual_lower_bound(first: str, wall: str, reason: str) -> None:
    found = sizes.check_first_layer(case({"first_layer.speed": first, "outer_wall.speed": wall}))
    assert [item.reason for item in found if item.check == "first-layer-speed"] == [reason]


def test_nothing_is_said_of_a_first_layer_that_the_text_does_not_name() -> None:
    assert sizes.check_first_layer(case({"first_layer.height": None, "first_layer.speed": None})) == ()
    assert sizes.check_sizes(case({"layer.height": None, "bead.width": None})) == ()
