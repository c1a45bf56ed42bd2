"""Sanding, bending, paint.

Outside checks: a wall of 3 beads of 0.45 x 0.2 mm is 1.264 mm thick, and with 0.3 mm sanded off keeps 0.964 mm; 1.2 mm
bent to 10 mm is stretched by 5.66 % (geometry). Hard paint that cracks where ASTM D522 method B has it at 28 % (3.175
mm mandrel) must be found, one that is stated at 30 % must hold.
"""

from __future__ import annotations

import pytest

from profilesmith.checks import bending, sanding
from profilesmith.checks.beads import wall_mm
from profilesmith.physics.answer import Bracket
from tests.checks.samples import case, only, profile


def sanded(off: str, **more: str) -> dict[str, str]:
    return {"part.sanding_allowance": off, **{f"part.{key}": text for key, text in more.items()}}


def test_what_is_left_of_a_wall() -> None:
    found = only(sanding.check(case(told=sanded("0.3 mm"), base={"wall.count": "2"})), "sanding-wall")
    assert (found.verdict, found.before, found.after) == ("passed", "0.56 mm", "0.96 mm")
    assert "stiffness" not in found.text  # what a free plate loses is not what a part's wall loses


@pytest.mark.parametrize(("spool", "soft"), [("85 Shore A", True), ("95 Shore A", False), ("60 Shore D", False)])
def test_geometry_alone_passes_nothing_so_soft_that_it_smears(spool: str, soft: bool) -> None:
    found = sanding.check(case(told={**sanded("0.3 mm"), "spool.material": "TPU", "spool.hardness": spool}))
    assert {item.verdict for item in found} == ({"note"} if soft else {"passed"})
    assert all(("smears" in item.also) == soft for item in found)
    assert all(("filler" in only(found, item.check).text) == soft for item in found)


def test_walls_of_two_widths() -> None:
    """Sum of the spacings plus the two round edges; all alike it is the published w + (n - 1) s."""
    assert wall_mm(profile()) == pytest.approx(1.264159, abs=1e-6)
    wider = wall_mm(profile({"outer_wall.bead_width": "0.55 mm"}))
    assert wider == pytest.approx(1.364159, abs=1e-6)
    assert wall_mm(profile({"wall.count": "0"})) == 0
    assert wall_mm(profile({"bead.width": "0.1 mm"})) is None


@pytest.mark.parametrize(("off", "verdict"), [("0.3 mm", "passed"), ("0.5 mm", "caution"), ("1.3 mm", "stop")])
def test_against_the_least_wall(off: str, verdict: str) -> None:
    found = only(sanding.check(case(told=sanded(off, minimum_wall="0.9 mm"))), "sanding-wall")
    assert found.verdict == verdict


def test_the_walls_that_it_asks_for_are_enough() -> None:
    told = sanded("0.5 mm", minimum_wall="0.9 mm")
    assert "4 walls" in only(sanding.check(case(told=told)), "sanding-wall").text
    assert only(sanding.check(case({"wall.count": "4"}, told)), "sanding-wall").verdict == "passed"


@pytest.mark.parametrize(("off", "verdict"), [("0.3 mm", "passed"), ("0.65 mm", "caution"), ("0.8 mm", "stop")])
def test_closing_layers(off: str, verdict: str) -> None:
    assert only(sanding.check(case(told=sanded(off))), "sanding-skin").verdict == verdict


@pytest.mark.parametrize(("off", "verdict"), [("0.1 mm", "passed"), ("0.05 mm", "note")])
def test_layer_lines(off: str, verdict: str) -> None:
    """The valleys between layers of 0.2 mm are up to 0.1 mm deep."""
    assert only(sanding.check(case(told=sanded(off))), "sanding-lines").verdict == verdict


def test_sanding_not_judged_or_not_done() -> None:
    assert only(sanding.check(case()), "sanding-wall").verdict == "not judged"
    assert only(sanding.check(case({"wall.count": None}, sanded("0.3 mm"))), "sanding-wall").verdict == "not judged"
    assert sanding.check(case(told=sanded("0 mm"))) == ()


def bent(thickness: str, radius: str, **more: str) -> dict[str, str]:
    return {
        "part.thickness": thickness,
        "part.bend_radius": radius,
        **{key.replace("__", "."): text for key, text in more.items()},
    }


@pytest.mark.parametrize(("material", "verdict"), [("TPU 95A", "passed"), ("PLA", "caution")])
def test_bending(material: str, verdict: str) -> None:
    found = only(bending.check_part(case(told=bent("1.2 mm", "10 mm", spool__material=material))), "bending")
    assert (found.verdict, found.after) == (verdict, "5.7 %")


def test_the_radius_that_it_names_is_gentle_enough() -> None:
    found = only(bending.check_part(case(told=bent("1.2 mm", "10 mm", spool__material="PLA"))), "bending")
    assert "59.4 mm" in found.text
    assert (
        only(bending.check_part(case(told=bent("1.2 mm", "59.4 mm", spool__material="PLA"))), "bending").verdict
        == "passed"
    )


@pytest.mark.parametrize(
    "told",
    [
        {},
        {"part.thickness": "2 mm"},
        bent("2 mm", "20 mm"),
        bent("4 mm", "2 mm", spool__material="TPU 95A"),
        bent("2 mm", "0 mm", spool__material="TPU 95A"),
    ],
)
def test_bending_not_judged(told: dict[str, str]) -> None:
    found = only(bending.check_part(case(told=told)), "bending")
    assert found.verdict == "not judged"
    assert found.ask.endswith("?")


PAINT = [
    ("rigid", {}, "40 mm", "note"),
    ("rigid", {}, "20 mm", "caution"),
    ("rigid", {}, "200 mm", "note"),
    ("elastic", {}, "20 mm", "note"),
    ("elastic", {}, "2.1 mm", "note"),
    ("rigid", {"part.coating_elongation": "30 %"}, "20 mm", "passed"),
    ("elastic", {"part.coating_elongation": "2 %"}, "20 mm", "caution"),
]


@pytest.mark.parametrize(("kind", "more", "radius", "verdict"), PAINT)
def test_paint(kind: str, more: dict[str, str], radius: str, verdict: str) -> None:
    found = only(bending.check_paint(case(told={**bent("2 mm", radius), "part.coating": kind, **more})), "coating")
    assert found.verdict == verdict
    assert bool(found.ask) == (not more)


def test_what_to_look_for_on_the_data_sheet() -> None:
    """1.8 mm bent to 25 mm: 3.5 % of the part's outside, twice that asked of the paint; no class from memory
    passes it.
    """
    found = only(bending.check_paint(case(told={**bent("1.8 mm", "25 mm"), "part.coating": "elastic"})), "coating")
    assert "it must stretch 8 %" in found.text
    assert "data sheet" in found.text
    assert "holds" not in found.text


def test_a_hard_paint_is_likely_to_crack_and_no_more() -> None:
    found = only(bending.check_paint(case(told={**bent("1.8 mm", "10 mm"), "part.coating": "rigid"})), "coating")
    assert found.verdict == "caution"
    assert "likely to crack" in found.text
    assert "picture varnish" in found.text


def test_the_radius_that_suits_the_paint_suits_it() -> None:
    told = {**bent("1.8 mm", "10 mm"), "part.coating": "elastic", "part.coating_elongation": "12 %"}
    radius = bending.standing_radius_mm(case(told=told), 0.12)
    assert isinstance(radius, Bracket)
    gentle = {**told, "part.bend_radius": f"{radius.high * 1.001:.4f} mm"}
    assert only(bending.check_paint(case(told=gentle)), "coating").verdict == "passed"
    sharp = {**told, "part.bend_radius": f"{radius.low * 0.99:.4f} mm"}
    assert only(bending.check_paint(case(told=sharp)), "coating").verdict != "passed"


@pytest.mark.parametrize(("elongation", "verdict"), [("60 %", "passed"), ("5 %", "caution")])
def test_paint_on_the_published_mandrel(elongation: str, verdict: str) -> None:
    """ASTM D522 method B: 28 % on a mandrel of 3.175 mm, sheet 0.8 mm, film 25 µm (5 % read at 15 mm)."""
    told = {**bent("0.79375 mm", "1.5875 mm"), "part.coating": "rigid", "part.coating_thickness": "0.0254 mm"}
    assert (
        only(bending.check_paint(case(told={**told, "part.coating_elongation": elongation})), "coating").verdict
        == verdict
    )


def test_paint_not_judged_or_not_there() -> None:
    assert bending.check_paint(case(told={"part.coating": "none"})) == () == bending.check_paint(case())
    for told in ({}, bent("4 mm", "2 mm"), bent("2 mm", "0 mm"), {"part.bend_radius": "20 mm"}):
        assert (
            only(bending.check_paint(case(told={**told, "part.coating": "rigid"})), "coating").verdict == "not judged"
        )
