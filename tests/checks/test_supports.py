"""Supports and overhangs: distances from plane geometry (0.45 mm at 15 % in one direction: 3 mm)."""

from __future__ import annotations

import pytest

from profilesmith.checks import supports
from tests.checks.samples import case, only

SOFT = {"spool.material": "TPU 95A"}


def support(density: str, **more: str) -> dict[str, str | None]:
    named = {key.replace("__", "."): text for key, text in more.items()}
    return {"support.on": "on", "support.density": density, "support.pattern": "lines", **named}


@pytest.mark.parametrize(("density", "verdict"), [("30 %", "passed"), ("18 %", "note"), ("10 %", "caution")])
def test_a_soft_underside(density: str, verdict: str) -> None:
    found = only(supports.check_spacing(case(support(density), SOFT, base=support("12 %"))), "support-spacing")
    assert (found.verdict, found.before) == (verdict, "3.75 mm")


def test_the_distance_is_that_of_the_geometry() -> None:
    found = only(supports.check_spacing(case(support("15 %"), SOFT)), "support-spacing")
    assert found.after == "3 mm"
    assert "23 %" in found.text
    assert (
        only(supports.check_spacing(case(support("15 %", support__pattern="grid"), SOFT)), "support-spacing").after
        == "6 mm"
    )


def test_a_pattern_that_is_not_known_gives_a_range() -> None:
    now = {**support("30 %"), "support.pattern": None}
    found = only(supports.check_spacing(case(now, SOFT)), "support-spacing")
    assert found.after == "1.5 to 3 mm"
    assert found.verdict == "note"
    assert "in a crossed pattern they stand 3 mm apart" in found.text


def test_contact_layers_and_supports_that_are_off_make_it_a_note() -> None:
    assert (
        only(
            supports.check_spacing(case(support("10 %", support__contact_layers="2"), SOFT)), "support-spacing"
        ).verdict
        == "note"
    )
    found = only(supports.check_spacing(case(support("10 %", support__on="off"), SOFT)), "support-spacing")
    assert found.verdict == "note"
    assert "off" in found.text


def test_contact_layers_carry_the_face() -> None:
    """0.45 mm beads at 50 % in one direction stand 0.9 mm apart, whatever stands below them."""
    now = support("10 %", support__contact_layers="2", support__contact_density="50 %")
    found = only(supports.check_spacing(case(now, SOFT)), "support-spacing")
    assert (found.verdict, found.after) == ("passed", "0.9 mm")
    none = {**now, "support.contact_layers": "0"}
    assert only(supports.check_spacing(case(none, SOFT)), "support-spacing").after == "4.5 mm"


def test_a_rigid_underside_spans_more() -> None:
    assert (
        only(supports.check_spacing(case(support("10 %"), {"spool.material": "PLA"})), "support-spacing").verdict
        == "passed"
    )


def test_not_judged_when_nobody_said_what_the_spool_is() -> None:
    found = only(supports.check_spacing(case(support("10 %"))), "support-spacing")
    assert found.verdict == "not judged"
    assert found.ask
    assert supports.check_spacing(case()) == ()


@pytest.mark.parametrize(
    ("angle", "verdict"), [("45 deg", "passed"), ("62 deg", "note"), ("80 deg", "caution"), ("90 deg", "caution")]
)
def test_overhang(angle: str, verdict: str) -> None:
    """h 0.2 mm, w 0.45 mm: 45° leaves 56 % of the bead on the one below, 60° 23 % (plane geometry)."""
    before: dict[str, str | None] = {"support.overhang_angle": "45 deg"}
    found = only(
        supports.check_overhang(case({"support.on": "on", "support.overhang_angle": angle}, base=before)), "overhang"
    )
    assert found.verdict == verdict
    if angle == "45 deg":
        assert found.after == "56 %"


def test_an_angle_that_did_not_get_worse_raises_no_alarm() -> None:
    steep: dict[str, str | None] = {"support.on": "on", "support.overhang_angle": "80 deg"}
    assert only(supports.check_overhang(case(steep)), "overhang").verdict == "note"
    assert only(supports.check_overhang(case(steep, base=steep)), "overhang").verdict == "note"
    assert (
        only(supports.check_overhang(case({**steep, "layer.height": "0.1 mm"}, base=steep)), "overhang").verdict
        == "note"
    )


def test_no_overhang_without_support_or_angle() -> None:
    assert supports.check_overhang(case({"support.on": "off", "support.overhang_angle": "80 deg"})) == ()
    assert supports.check_overhang(case({"support.on": "on"})) == ()


@pytest.mark.parametrize(("pattern", "distance"), [("lines", "3 mm"), ("grid", "6 mm"), ("triangles", "9 mm")])
def test_each_direction_of_a_pattern_takes_its_share_of_the_lines(pattern: str, distance: str) -> None:
    """At one density three directions stand three times as far apart: directions x bead width / density (geometry)."""
    found = only(supports.check_spacing(case(support("15 %", support__pattern=pattern), SOFT)), "support-spacing")
    assert found.after == distance
