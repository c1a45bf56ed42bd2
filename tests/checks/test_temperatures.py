"""Temperatures against label, machine and liner.

Outside checks: PTFE at 250 °C is above what lined hot ends are commonly limited to (240 to 250 °C, common practice) and
below the fume fever reports, which begin at 300 °C (Shusterman 1993); 300 °C must be a stop, 210 °C nothing at all.
"""

from __future__ import annotations

import pytest

from profilesmith.checks import temperatures
from tests.checks.samples import case, only


def heat(celsius: int) -> dict[str, str | None]:
    return {"nozzle.temperature": f"{celsius} °C", "first_layer.nozzle_temperature": f"{celsius} °C"}


@pytest.mark.parametrize(
    ("celsius", "verdict", "word"),
    [
        (215, "passed", "Inside"),
        (210, "passed", "Inside"),
        (205, "caution", "5 °C below"),
        (225, "caution", "5 °C above"),
    ],
)
def test_the_label(celsius: int, verdict: str, word: str) -> None:
    told = {"spool.nozzle_window": "210 °C to 220 °C"}
    found = only(temperatures.check_nozzle(case(heat(celsius), told, base={})), "nozzle-temperature")
    assert found.verdict == verdict
    assert word in found.text
    assert (found.before, found.limit) == ("205 °C", "210 to 220 °C")


def test_the_first_layer_is_told_apart() -> None:
    told = {"spool.nozzle_window": "210 °C to 220 °C"}
    found = only(
        temperatures.check_nozzle(case({"first_layer.nozzle_temperature": "208 °C"}, told)), "nozzle-temperature"
    )
    assert "It is 5 °C (the first layer 2 °C) below" in found.text
    mixed: dict[str, str | None] = {"nozzle.temperature": "215 °C", "first_layer.nozzle_temperature": "230 °C"}
    assert (
        "The first layer is 10 °C above"
        in only(temperatures.check_nozzle(case(mixed, told)), "nozzle-temperature").text
    )


def test_a_material_alone_never_cautions() -> None:
    found = only(temperatures.check_nozzle(case(heat(205), {"spool.material": "TPU 95A"})), "nozzle-temperature")
    assert found.verdict == "note"
    assert found.ask


@pytest.mark.parametrize(("celsius", "verdict"), [(60, "passed"), (0, "note"), (80, "caution")])
def test_the_bed(celsius: int, verdict: str) -> None:
    told = {"spool.bed_window": "30 °C to 60 °C"}
    assert (
        only(temperatures.check_bed(case({"bed.temperature": f"{celsius} °C"}, told)), "bed-temperature").verdict
        == verdict
    )


def test_not_judged_without_label_and_material() -> None:
    for found in (
        *temperatures.check_nozzle(case()),
        *temperatures.check_bed(case()),
        *temperatures.check_machine(case()),
    ):
        assert found.verdict == "not judged"
        assert found.ask.endswith("?")


def test_nothing_without_temperatures() -> None:
    cold: dict[str, str | None] = dict.fromkeys(
        ("nozzle.temperature", "first_layer.nozzle_temperature", "bed.temperature")
    )
    for check in (
        temperatures.check_nozzle,
        temperatures.check_bed,
        temperatures.check_machine,
        temperatures.check_liner,
    ):
        assert check(case(cold)) == ()


@pytest.mark.parametrize(("most", "verdict"), [("240 °C", "passed"), ("205 °C", "passed"), ("200 °C", "stop")])
def test_the_machines_own_limit(most: str, verdict: str) -> None:
    found = only(temperatures.check_machine(case(told={"machine.maximum_nozzle_temperature": most})), "nozzle-maximum")
    assert found.verdict == verdict


@pytest.mark.parametrize(
    ("celsius", "lining", "verdict"),
    [
        (210, "PTFE", "passed"),
        (240, "PTFE", "passed"),
        (250, "PTFE", "caution"),
        (300, "PTFE", "stop"),
        (210, "", "passed"),
        (250, "", "caution"),
    ],
)
def test_the_liner(celsius: int, lining: str, verdict: str) -> None:
    told = {"machine.liner": lining} if lining else {}
    found = only(temperatures.check_liner(case(heat(celsius), told)), "liner")
    assert found.verdict == verdict
    assert bool(found.ask) == (not lining)


def test_an_all_metal_hot_end_has_no_liner() -> None:
    assert temperatures.check_liner(case(heat(280), {"machine.liner": "all-metal"})) == ()
