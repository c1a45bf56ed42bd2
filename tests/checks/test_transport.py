"""A soft strand in a tube and below the gears: compared with rigid PLA, never in newtons or millimetres of its own.

Outside check: the published modulus of printed TPU 95A (100 to 146 MPa, Eng. Proc. 2025, 113(1), 19) against PLA's 3000
to 4000 MPa (Heliyon 2023, e15023) makes a factor of 21 to 40, which must lie inside what the check says.
"""

from __future__ import annotations

import pytest

from profilesmith.checks import transport
from profilesmith.checks.materials import modulus
from profilesmith.checks.transport import stretch_bracket
from tests.checks.samples import case, only

TUBE = {"machine.drive": "remote", "machine.tube_length": "420 mm"}


@pytest.mark.parametrize(
    ("material", "verdict"), [("TPU 85A", "caution"), ("TPU 95A", "caution"), ("flexible PLA", "note")]
)
def test_a_soft_strand_in_a_tube(material: str, verdict: str) -> None:
    found = only(transport.check_pull(case(told={**TUBE, "spool.material": material})), "retraction-stretch")
    assert found.verdict == verdict
    assert "420 mm" in found.text


def test_the_factor_holds_what_was_measured() -> None:
    told = case(told={**TUBE, "spool.material": "TPU 95A"})
    own = modulus(told)
    assert own is not None
    assert stretch_bracket(told, own).holds(3000 / 146)
    assert stretch_bracket(told, own).holds(4000 / 100)


def test_the_spools_own_modulus_narrows_it() -> None:
    found = only(
        transport.check_pull(case(told={**TUBE, "spool.material": "TPU 95A", "spool.modulus": "100 MPa"})),
        "retraction-stretch",
    )
    assert "24 to 40 times" in found.text


def test_as_stiff_as_pla_passes() -> None:
    told = {**TUBE, "spool.hardness": "92 Shore A", "spool.modulus": "3500 MPa"}
    assert only(transport.check_pull(case(told=told)), "retraction-stretch").verdict == "passed"


@pytest.mark.parametrize("told", [{"machine.drive": "direct", "spool.material": "TPU 95A"}, {"spool.material": "PLA"}])
def test_nothing_for_a_direct_drive_or_a_rigid_strand(told: dict[str, str]) -> None:
    assert transport.check_pull(case(told=told)) == ()


def test_nothing_where_nothing_is_pulled() -> None:
    told = {**TUBE, "spool.material": "TPU 95A"}
    assert transport.check_pull(case({"retraction.on": "off"}, told)) == ()
    assert transport.check_pull(case({"retraction.distance": "0 mm"}, told)) == ()


@pytest.mark.parametrize("told", [{"spool.material": "TPU 95A"}, TUBE])
def test_not_judged(told: dict[str, str]) -> None:
    found = only(transport.check_pull(case(told=told)), "retraction-stretch")
    assert found.verdict == "not judged"
    assert found.ask.endswith("?")


@pytest.mark.parametrize(
    ("distance", "bore", "verdict"),
    [("1 mm", "2 mm", "note"), ("0.7 mm", "2 mm", "caution"), ("1 mm", "1.5 mm", "not judged")],
)
def test_the_play_of_the_tube(distance: str, bore: str, verdict: str) -> None:
    """A half turn with 0.25 mm of play takes up 0.785 mm: difference of two arcs."""
    told = {**TUBE, "spool.material": "TPU 95A", "machine.tube_bore": bore, "machine.tube_bend": "180 deg"}
    assert (
        only(transport.check_pull(case({"retraction.distance": distance}, told)), "retraction-slack").verdict == verdict
    )


def test_play_alone_passes_only_what_does_not_stretch() -> None:
    """A pull of 0.8 mm with 0.79 mm of play once passed beside a strand that gives a hundred times as much."""
    told = {**TUBE, "machine.tube_bore": "2 mm", "machine.tube_bend": "180 deg"}
    pull: dict[str, str | None] = {"retraction.distance": "0.8 mm"}
    soft = only(transport.check_pull(case(pull, {**told, "spool.material": "TPU 85A"})), "retraction-slack")
    rigid = only(transport.check_pull(case(pull, {**told, "spool.material": "PLA"})), "retraction-slack")
    assert (soft.verdict, rigid.verdict) == ("note", "passed")
    assert "comes off too" in soft.text


@pytest.mark.parametrize(
    ("told", "verdict"),
    [
        ({"spool.material": "TPU 85A"}, "note"),
        ({"spool.material": "TPU 85A", "machine.unguided_gap": "8 mm"}, "caution"),
        ({"spool.material": "TPU 85A", "machine.unguided_gap": "4 mm"}, "not judged"),
        ({"spool.material": "TPU 85A", "machine.unguided_gap": "0 mm"}, "passed"),
        ({"spool.material": "flexible PLA", "machine.unguided_gap": "8 mm"}, "note"),
        ({}, "not judged"),
    ],
)
def test_pushing(told: dict[str, str], verdict: str) -> None:
    found = only(transport.check_push(case(told=told)), "buckling")
    assert found.verdict == verdict
    assert bool(found.ask) == ("machine.unguided_gap" not in told)


def test_a_gap_too_short_for_the_theory_is_not_called_safe() -> None:
    """Below some 2.5 diameters a column is too stubby for Euler (Timoshenko and Gere 1961, from memory)."""
    told = {"spool.material": "TPU 85A", "machine.unguided_gap": "4 mm"}
    assert "squeeze out" in only(transport.check_push(case(told=told)), "buckling").text


def test_a_rigid_strand_is_not_ranked() -> None:
    assert transport.check_push(case(told={"spool.material": "PETG"})) == ()


def test_no_absolute_force_is_ever_named() -> None:
    for material in ("TPU 85A", "TPU 95A", "flexible PLA", "TPS-SEBS"):
        told = case(told={**TUBE, "spool.material": material, "machine.unguided_gap": "8 mm"})
        for found in (*transport.check_push(told), *transport.check_pull(told)):
            assert " N" not in f"{found.text} {found.after}"
            assert "MPa" not in found.text
