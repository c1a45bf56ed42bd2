"""A face under a finger, and closing layers over sparse filling.

Outside check, worked by hand as a clamped strip (Timoshenko): 0.8 mm of 13 to 53 MPa under 10 kPa gives by at most 0.02
mm over 4.6 mm, by 0.057 to 0.23 mm over 9 mm; over 18 mm it will dent.
"""

from __future__ import annotations

import pytest

from profilesmith.checks import face
from tests.checks.samples import case, only

SPOOL = {"spool.material": "TPU", "spool.hardness": "92 Shore A"}
SANDED = {**SPOOL, "part.sanding_allowance": "0.1 mm", "part.orientation": "lying", "part.form": "sheet"}


def over(density: str, pattern: str = "gyroid", **more: str) -> dict[str, str | None]:
    return {
        "infill.density": density,
        "infill.pattern": pattern,
        **{key.replace("__", "."): text for key, text in more.items()},
    }


@pytest.mark.parametrize(("density", "verdict"), [("30 %", "passed"), ("12 %", "note"), ("5 %", "caution")])
def test_filling_decides_whether_a_face_can_be_sanded(density: str, verdict: str) -> None:
    """Three layers of 0.2 mm over gyroid of 0.45 mm beads: 2.4, 6 and 14 mm of free span."""
    now = over(density, top__layers="3", bottom__layers="3")
    assert only(face.check(case(now, SANDED)), "face").verdict == verdict


def test_more_closing_layers_carry_a_wider_span() -> None:
    thin, thick = (
        only(face.check(case(over("10 %", top__layers=layers, bottom__layers=layers), SANDED)), "face").verdict
        for layers in ("3", "10")
    )
    assert (thin, thick) == ("note", "passed")


def test_only_where_a_face_is_asked_about() -> None:
    assert not [item for item in face.check(case(over("15 %"), SPOOL)) if item.check == "face"]
    assert [
        item
        for item in face.check(case(over("15 %"), {**SPOOL, "part.face_pressure": "20 kPa"}))
        if item.check == "face"
    ]


def test_a_part_that_its_closing_layers_fill_has_no_such_face() -> None:
    assert face.check(case(over("5 %"), {**SANDED, "part.thickness": "1.6 mm"})) == ()


@pytest.mark.parametrize(("density", "layers", "told"), [("5 %", "4", True), ("5 %", "6", False), ("20 %", "4", False)])
def test_pillows(density: str, layers: str, told: bool) -> None:
    found = face.check(case(over(density, top__layers=layers), SPOOL))
    assert any(item.check == "pillowing" for item in found) == told
