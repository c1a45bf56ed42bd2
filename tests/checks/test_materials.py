"""Materials: names, ranges, and what goes before them.

Outside checks: Gent's relation of 1958 gives 13.18 MPa at 85 Shore A (computed from the published formula); TPU of 95A
printed and measured at 100 to 146 MPa (Eng. Proc. 2025, 113(1), 19) must lie inside what we say of it.
"""

from __future__ import annotations

import pytest

from profilesmith.checks.materials import flexible, material, modulus, rigid_modulus
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
    assert (rigid_modulus().mpa.low, rigid_modulus().mpa.high) == (3000, 4000)
