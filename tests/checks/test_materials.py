"""Materials: names, ranges, and what goes before them.

Outside checks: Gent's relation of 1958 gives 13.18 MPa at 85 Shore A (computed from the published formula); TPU of 95A
printed and measured at 100 to 146 MPa (Eng. Proc. 2025, 113(1), 19) must lie inside what we say of it.
"""

from __future__ import annotations

import pytest

from profilesmith.checks import facts_agree
from profilesmith.checks.materials import Material, flexible, material, materials, modulus, rigid_modulus
from profilesmith.facts.facts import read_hardness
from tests.checks.samples import case

NAMES = [
    ("PLA", "PLA"),
    ("rigid pla", "PLA"),
    ("PLA-P", "flexible PLA"),
    ("tpu95a", "TPU 95A"),
    ("TPU 85A", "TPU 85A"),
    ("SEBS", "TPS-SEBS"),
]


@pytest.mark.parametrize(("written", "key"), NAMES)
def test_names(written: str, key: str) -> None:
    found = material(written)
    assert found is not None
    assert found.key == key


@pytest.mark.parametrize("written", ["TPE", "", "unobtainium"])
def test_what_means_no_class_is_not_guessed(written: str) -> None:
    assert material(written) is None


@pytest.mark.parametrize(("hardness", "key"), [("84 Shore A", "TPU 85A"), ("96 Shore A", "TPU 95A")])
def test_a_family_with_a_hardness_means_the_nearest_class(hardness: str, key: str) -> None:
    found = material("TPU", read_hardness(hardness))
    assert found is not None
    assert found.key == key


def test_the_spools_own_modulus_goes_first() -> None:
    own = modulus(case(told={"spool.material": "TPU 85A", "spool.modulus": "12 MPa"}))
    assert own is not None
    assert (own.mpa.low, own.mpa.high) == (12, 12)


def test_a_range_for_a_known_material() -> None:
    own = modulus(case(told={"spool.material": "TPU 95A"}))
    assert own is not None
    assert own.mpa.holds(100)
    assert own.mpa.holds(146)


def test_a_hardness_alone_gives_a_factor_of_two() -> None:
    own = modulus(case(told={"spool.hardness": "85 Shore A"}))
    assert own is not None
    assert own.mpa.low == pytest.approx(13.18224 / 2, rel=1e-5)
    assert own.mpa.high == pytest.approx(13.18224 * 2, rel=1e-5)


@pytest.mark.parametrize("told", [{}, {"spool.hardness": "99 Shore A"}, {"spool.material": "unobtainium"}])
def test_nothing_is_made_up(told: dict[str, str]) -> None:
    assert modulus(case(told=told)) is None


def test_a_hardness_on_the_label_goes_before_the_class_of_a_rubber() -> None:
    """60 and 98 Shore A once gave one and the same modulus. Gent 1958: 3.605 MPa at 60 A; 88.3 MPa by Qi at 60 D."""
    found = {}
    for hardness in ("60 Shore A", "98 Shore A", "60 Shore D"):
        own = modulus(case(told={"spool.material": "TPU", "spool.hardness": hardness}))
        assert own is not None
        found[hardness] = own.mpa
    assert found["60 Shore A"].holds(3.605)
    assert found["60 Shore A"].high < found["98 Shore A"].low
    assert found["60 Shore D"].holds(10 ** (0.0235 * 110 - 0.6403))


def test_for_plasticised_pla_the_bracket_holds_both() -> None:
    own = modulus(case(told={"spool.material": "flexible PLA", "spool.hardness": "92 Shore A"}))
    assert own is not None
    assert own.mpa.holds(13.4)
    assert own.mpa.holds(1500)


@pytest.mark.parametrize(("hardness", "told"), [("92 Shore A", True), ("55 Shore D", False), ("99 Shore A", False)])
def test_a_label_and_a_name_that_mean_different_plastics_are_told(hardness: str, told: bool) -> None:
    findings = facts_agree.check(
        case(told={"spool.material": "TPU 95A" if not told else "flexible PLA", "spool.hardness": hardness})
    )
    assert any(item.check == "facts-hardness" for item in findings) == told


SOFT = [
    ({"spool.material": "TPU 85A"}, True),
    ({"spool.material": "PETG"}, False),
    ({"spool.hardness": "90 Shore A"}, True),
    ({"spool.modulus": "40 MPa"}, True),
    ({"spool.modulus": "3200 MPa"}, False),
    ({}, None),
    ({"spool.material": "TPE"}, None),
]


@pytest.mark.parametrize(("told", "soft"), SOFT)
def test_soft_or_not(told: dict[str, str], soft: bool | None) -> None:
    assert flexible(case(told=told)) is soft


def test_rigid_pla_is_the_measure() -> None:
    assert (rigid_modulus().mpa.low, rigid_modulus().mpa.high) == (2400, 4000)


TOLD = [item for item in materials().values() if "modulus" in item.ranges]


@pytest.mark.parametrize("known", TOLD, ids=lambda item: item.key)
def test_a_modulus_alone_calls_soft_what_its_material_is_called(known: Material) -> None:
    """Else a spool whose label tells only its modulus would get the cautions of the other kind."""
    for mpa in (known.ranges["modulus"].low, known.ranges["modulus"].high):
        assert flexible(case(told={"spool.modulus": f"{mpa} MPa"})) is known.flexible
