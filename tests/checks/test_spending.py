"""Hours, grams and money; moisture; warmth and many bends.

Outside checks: 84 g of PLA (1.21 to 1.43 g/cm3, property poster) are 65 to 87 g of TPU (1.10 to 1.25); an open strand
of 1.75 mm takes 3.9 to 12.7 h to half of what it holds (Crank's series by an outside library, D of a published study).
"""

from __future__ import annotations

import pytest

from profilesmith.checks import air, bending, flow, print_time, spending
from profilesmith.checks.case import Measure, Measured
from profilesmith.physics.answer import Bracket
from tests.checks.samples import case, only

OLD = {"part.rigid_time": "380 min", "part.rigid_mass": "84 g", "spool.material": "TPU 95A"}
SLOW: dict[str, str | None] = {"outer_wall.speed": "30 mm/s"}


def test_hours_of_the_same_path() -> None:
    found = only(spending.check(case(SLOW, OLD, base={})), "print-hours")
    assert (found.before, found.after) == ("6.3 h", "6.3 to 12.7 h")


def test_grams_metres_and_money() -> None:
    told = case(SLOW, {**OLD, "spool.price": "40"}, base={})
    found = spending.grams(told)
    assert found is not None
    assert (found.low, found.high) == pytest.approx((84 * 1.10 / 1.43, 84 * 1.25 / 1.21))
    text = only(spending.check(told), "plastic").text
    assert " m, at a price of 2.5 to 3.5" in text


@pytest.mark.parametrize(("left", "verdict"), [("500 g", "passed"), ("80 g", "caution"), ("60 g", "stop")])
def test_is_the_spool_enough(left: str, verdict: str) -> None:
    assert only(spending.check(case(SLOW, {**OLD, "spool.left": left}, base={})), "plastic").verdict == verdict


@pytest.mark.parametrize("change", [{"raft.on": "on"}, {"wall.count": "2"}, {"infill.density": "5 %"}])
def test_another_path_waits_for_a_motion_file(change: dict[str, str | None]) -> None:
    base: dict[str, str | None] = {"raft.on": "off"}
    found = spending.check(case({**base, **SLOW, **change}, OLD, base=base))
    assert {item.verdict for item in found} == {"not judged"}
    assert all("motion file" in only(found, item.check).text for item in found)


def test_nobody_told_of_the_old_print() -> None:
    assert spending.check(case(SLOW, base={})) == () == spending.check(case(told=OLD))


def test_what_was_measured_takes_the_place_of_brackets() -> None:
    measured = Measured(Measure(hours=Bracket(6, 6)), Measure(hours=Bracket(9, 9), grams=80.0, flow_mm3_s=3.5))
    told = case({"raft.on": "on", **SLOW}, {**OLD, "spool.maximum_flow": "4 mm3/s"}, base={"raft.on": "off"})
    told = told._replace(measured=measured)
    assert print_time.time_bracket(told) == Bracket(1.5, 1.5)
    assert only(spending.check(told), "print-hours").after == "9 h"
    assert only(spending.check(told), "plastic").after == "80 g"
    found = only(flow.check(told), "flow-spool")
    assert (found.verdict, found.after) == ("passed", "3.5 mm³/s")
    narrow = told._replace(measured=measured._replace(time_ratio=Bracket(1.4, 1.6)))
    assert print_time.time_bracket(narrow) == Bracket(1.4, 1.6)
    fast = told._replace(measured=Measured(after=Measure(flow_mm3_s=4.2)))
    assert only(flow.check(fast), "flow-spool").verdict == "caution"


def test_half_wet_after_hours() -> None:
    half = air.half_time_h(1.75)
    assert (half.low, half.high) == pytest.approx((3.9444, 12.6517), rel=1e-4)
    assert "3.9 to 12.7 h" in only(air.check_moisture(case(told={"spool.material": "TPU 85A"})), "moisture").text


@pytest.mark.parametrize(("hours", "verdict"), [("6 h", "passed"), ("15 min", "note")])
def test_what_drying_leaves(hours: str, verdict: str) -> None:
    told = {"spool.material": "TPU 95A", "spool.drying_temperature": "60 °C", "spool.drying_time": hours}
    assert only(air.check_moisture(case(told=told)), "moisture").verdict == verdict


def test_moisture_of_what_is_not_published_is_not_judged() -> None:
    found = only(air.check_moisture(case(told={"spool.material": "flexible PLA"})), "moisture")
    assert found.verdict == "not judged"
    assert "desiccant" in found.text
    assert air.check_moisture(case(told={"spool.material": "PLA"})) == ()


@pytest.mark.parametrize(("material", "verdict"), [("flexible PLA", "note"), ("TPU 95A", "passed")])
def test_warmth(material: str, verdict: str) -> None:
    found = only(
        bending.check_in_use(case(told={"spool.material": material, "part.skin_contact": "yes"})), "in-use-warmth"
    )
    assert found.verdict == verdict
    assert ("closed car" in found.text) == (verdict == "note")


def test_many_bends_are_not_known() -> None:
    told = {"spool.material": "TPU 95A", "part.thickness": "2 mm", "part.bend_radius": "20 mm"}
    found = only(bending.check_in_use(case(told=told)), "in-use-bends")
    assert found.verdict == "not judged"
    assert "no published law" in found.text
    assert "4.8 %" in found.text


def test_a_bend_beside_what_rubbers_bear() -> None:
    """20 J/m2, a groove of 0.1 mm, 146 MPa: sqrt(0.02 / (1.258 x 3.1416 x 0.1 x 146)) = 1.9 % (worked by hand)."""
    told = {"spool.modulus": "146 MPa", "spool.material": "TPU 95A", "part.thickness": "2 mm"}
    tight = only(bending.check_in_use(case(told={**told, "part.bend_radius": "10 mm"})), "in-use-bends")
    assert "is above the 1.86 to 4.2 %" in tight.text
    assert "welded layers bear less" in tight.text
    gentle = only(bending.check_in_use(case(told={**told, "part.bend_radius": "200 mm"})), "in-use-bends")
    assert "stays below the 1.86 to 4.2 %" in gentle.text


def test_hours_on_skin() -> None:
    """1.03 t^2 / a: 4 mm at 0.08 mm2/s take 206 s, 3.4 min (worked by hand)."""
    told = {"spool.material": "flexible PLA", "part.skin_contact": "yes", "part.thickness": "4 mm"}
    found = only(bending.check_in_use(case(told={**told, "part.worn_time": "8 h"})), "in-use-warmth")
    assert "warm right through within 3.4 min" in found.text
    assert "For the rest of 8 h" in found.text
    assert "is not published" in found.text
    assert "For how long" in only(bending.check_in_use(case(told=told)), "in-use-warmth").ask
