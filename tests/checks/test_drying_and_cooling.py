"""Drying below softening; time to set. Limits: common practice, no source.

Outside check: PLA's glass transition of 45 to 65 °C (property poster of a thermal analysis laboratory) makes 60 °C too
warm for a spool of PLA and 45 °C, which is usual, not.
"""

from __future__ import annotations

import pytest

from profilesmith.checks import air
from tests.checks.samples import case, only

DRY = [
    ("PLA", "45 °C", {}, "passed"),
    ("PLA", "60 °C", {}, "note"),
    ("TPU 95A", "60 °C", {}, "passed"),
    ("flexible PLA", "40 °C", {}, "passed"),
    ("flexible PLA", "45 °C", {}, "note"),
    ("TPE", "50 °C", {"spool.softening_temperature": "80 °C"}, "passed"),
    ("TPE", "72 °C", {"spool.softening_temperature": "80 °C"}, "note"),
    ("TPE", "78 °C", {"spool.softening_temperature": "80 °C"}, "caution"),
    ("TPE", "80 °C", {"spool.softening_temperature": "80 °C"}, "stop"),
    ("TPE", "50 °C", {}, "not judged"),
]


@pytest.mark.parametrize(("material", "celsius", "more", "verdict"), DRY)
def test_drying(material: str, celsius: str, more: dict[str, str], verdict: str) -> None:
    told = {"spool.material": material, "spool.drying_temperature": celsius, **more}
    assert only(air.check_drying(case(told=told)), "drying").verdict == verdict


def test_a_soft_spool_wants_to_be_dried() -> None:
    assert only(air.check_drying(case(told={"spool.material": "TPU 85A"})), "drying").verdict == "not judged"
    assert air.check_drying(case(told={"spool.material": "PLA"})) == () == air.check_drying(case())


@pytest.mark.parametrize(
    ("seconds", "material", "verdict"),
    [
        ("10 s", "TPU 95A", "passed"),
        ("6 s", "TPU 95A", "note"),
        ("6 s", "PLA", "passed"),
        ("3 s", "PLA", "note"),
        ("6 s", "", "passed"),
    ],
)
def test_time_to_set(seconds: str, material: str, verdict: str) -> None:
    told = {"spool.material": material} if material else {}
    assert only(air.check_cooling(case({"layer.minimum_time": seconds}, told)), "cooling-time").verdict == verdict


def test_bridges() -> None:
    assert only(air.check_cooling(case()), "cooling-bridges").verdict == "passed"
    assert only(air.check_cooling(case({"bridge.fan": "30 %"})), "cooling-bridges").verdict == "note"
    assert air.check_cooling(case({"bridge.fan": None, "layer.minimum_time": None})) == ()
