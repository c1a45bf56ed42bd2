"""How hard the part pushes back, what would make it softer, and how it compares with a rubber sheet.

Outside checks: a solid strip of 20 x 1.8 mm, 50 mm free, of 92 Shore A (Gent: 26.6 MPa, to a factor of two) gives 0.003
to 0.012 N/mm, of rigid PLA (2400 to 4000 MPa) 0.56 to 0.93 (beam theory, worked by hand). Two and two closing layers in
place of four and four leave 63 to 67 % of a bar of 20 x 6 mm (1 - 0.592 (1 - r) over 1 - 0.356 (1 - r), worked by
hand).
"""

from __future__ import annotations

import pytest

from profilesmith.checks import softness, wanted
from profilesmith.checks.figure_softness import softness_figure
from profilesmith.checks.materials import rigid_modulus
from tests.checks.samples import case, only

STRIP = {
    "part.thickness": "1.8 mm",
    "part.width": "20 mm",
    "part.free_length": "50 mm",
    "part.form": "sheet",
    "part.orientation": "lying",
}
RUBBER = {"spool.material": "TPU", "spool.hardness": "92 Shore A"}
SOLID: dict[str, str | None] = {"infill.density": "100 %"}


def test_the_worked_strip() -> None:
    told = case(SOLID, {**STRIP, **RUBBER}, base=SOLID)
    found = only(softness.check_felt(told), "felt-stiffness")
    assert (found.before, found.after) == ("0.56 to 0.94 N/mm", "0.0031 to 0.0124 N/mm")
    assert "60 to 90 Shore A" in found.text
    rigid = softness.tip_stiffness(told, told.base, rigid_modulus())
    assert not isinstance(rigid, str)
    assert (rigid.low, rigid.high) == pytest.approx((0.56, 0.933), abs=5e-3)


@pytest.mark.parametrize("missing", ["part.width", "part.thickness"])
def test_what_it_needs_is_asked(missing: str) -> None:
    told = {name: text for name, text in {**STRIP, **RUBBER}.items() if name != missing}
    found = only(softness.check_felt(case(told=told)), "felt-stiffness")
    assert found.verdict == "not judged"
    assert found.ask


def test_nobody_asked() -> None:
    assert softness.check_felt(case(told=RUBBER)) == ()


def test_a_stubby_strip_is_not_judged() -> None:
    found = only(softness.check_felt(case(told={**STRIP, **RUBBER, "part.free_length": "10 mm"})), "felt-stiffness")
    assert "too stubby" in found.text


def test_two_and_two_closing_layers() -> None:
    told = {**STRIP, "part.thickness": "6 mm"}
    now: dict[str, str | None] = {"wall.count": "2", "infill.density": "5 %", "first_layer.height": "0.2 mm"}
    levers = softness.levers(case(now, told))
    faces = next(lever for lever in levers if lever.name == "fewest-faces")
    assert 0.63 <= faces.left.low <= faces.left.high <= 0.67


def test_thickness_counts_with_its_third_power() -> None:
    levers = softness.levers(case(SOLID, STRIP))
    thinner = next(lever for lever in levers if lever.name == "thinner")
    assert (thinner.left.low, thinner.left.high) == pytest.approx((0.512, 0.512))
    text = only(softness.check(case(SOLID, STRIP)), "softness").text
    assert "Thickness is all that there is" in text


@pytest.mark.parametrize(("thickness", "verdict"), [("1.2 mm", "passed"), ("6 mm", "note")])
def test_as_soft_as_a_rubber_sheet(thickness: str, verdict: str) -> None:
    """2 mm of 60 Shore A (3.6 MPa) bends like 1.03 mm of 92 A (26.6 MPa): cube root of the moduli."""
    told = {**STRIP, **RUBBER, "part.thickness": thickness, "part.like_hardness": "60 Shore A"}
    found = only(wanted.check(case(SOLID, {**told, "part.like_thickness": "2 mm"})), "softness-like")
    assert found.verdict == verdict
    assert only(wanted.check(case(SOLID, told)), "softness-like").verdict == "not judged"


def test_the_figure_marks_both_sides_and_starts_from_the_part_as_it_was() -> None:
    figure = softness_figure(
        case({"top.layers": "2", "bottom.layers": "2"}, {**STRIP, "part.thickness": "4 mm"}, base={})
    )
    assert figure is not None
    before, after = figure["marks"]
    assert (before["x"], before["y"]) == (4, 100)
    assert after["y"] < 100
    assert {series["name"][0] for series in figure["series"]} == {(2, "lying"), (4, "lying")}
    assert softness_figure(case(told={"part.thickness": "4 mm"})) is None  # lying or standing, nobody said


ASKED = {**STRIP, "spool.material": "TPU", "spool.modulus": "30 MPa", "part.thickness": "2 mm"}


def test_which_thickness_gives_a_force() -> None:
    """3 x 30 MPa x 20 t^3 / 12 / 50^3 = 0.0163 N/mm at t = 2.388 mm (worked by hand); solid: faces do not count."""
    found = only(wanted.check(case(SOLID, {**ASKED, "part.softness": "0.01634 N/mm"}, base=SOLID)), "softness-asked")
    assert (found.verdict, found.misses_aim) == ("note", True)
    assert "2 closing layers and 2.4 mm" in found.text
    assert found.after == "0.59 times"
    met = only(wanted.check(case(SOLID, {**ASKED, "part.softness": "0.0096 N/mm"})), "softness-asked")
    assert (met.verdict, met.misses_aim) == ("passed", False)


@pytest.mark.parametrize(("softness", "off"), [("1 N/mm", "softer"), ("0.0001 N/mm", "harder")])
def test_what_nothing_in_the_table_reaches(softness: str, off: str) -> None:
    found = only(wanted.check(case(SOLID, {**ASKED, "part.softness": softness})), "softness-asked")
    assert f"all of it is {off}" in found.text


def test_what_is_needed_for_a_force_is_asked() -> None:
    told = {name: text for name, text in ASKED.items() if name != "part.free_length"}
    found = only(wanted.check(case(SOLID, {**told, "part.softness": "0.01 N/mm"})), "softness-asked")
    assert (found.verdict, found.ask[:8]) == ("not judged", "How long")
    open_pose = {name: text for name, text in ASKED.items() if name != "part.orientation"}
    found = only(wanted.check(case(SOLID, {**open_pose, "part.softness": "0.01 N/mm"})), "softness-asked")
    assert "lying or standing" in found.ask


def test_the_figure_marks_what_was_asked() -> None:
    told = {**ASKED, "part.softness": "0.01 N/mm"}
    figure = softness_figure(case({"top.layers": "2", "bottom.layers": "2"}, told, base=SOLID))
    assert figure is not None
    assert [limit["name"] for limit in figure["limits"]][1:] == [("asked", "at-least"), ("asked", "at-most")]
    assert any(mark["name"] == ("asked", (2, "lying")) for mark in figure["marks"])
