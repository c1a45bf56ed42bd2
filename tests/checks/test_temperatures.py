"""Temperatures against label, machine and liner.

Outside checks: PTFE at 250 °C is above what lined hot ends are commonly limited to (240 to 250 °C, common practice) and
below the fume fever reports, which begin at 300 °C (Shusterman 1993); 300 °C must be a stop, 210 °C nothing at all.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.checks import temperatures
from profilesmith.review.look_first import look_first_points
from profilesmith.review.render.brief import first_sentence
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


@pytest.mark.parametrize(("celsius", "lining"), [(300, ""), (250, "PTFE"), (300, "PTFE")])
def test_the_liners_first_sentence_says_limit_harm_and_what_to_do(celsius: int, lining: str) -> None:
    """A terminal shows no more of it, and once showed "Nobody said what the hot end is lined with"."""
    told = {"machine.liner": lining} if lining else {}
    first = first_sentence(only(temperatures.check_liner(case(heat(celsius), told)), "liner").text)
    assert f"{celsius} °C is above the 240 °C" in first
    assert "fumes" in first
    assert "stay below" in first or "do not print with it" in first


STRANGE = {"spool.material": "flexible PLA", "spool.nozzle_window": "300 °C to 320 °C"}


@pytest.mark.parametrize(("celsius", "verdict"), [(310, "note"), (215, "caution")])
def test_a_label_far_from_its_material_clears_nothing(celsius: int, verdict: str) -> None:
    found = only(temperatures.check_nozzle(case(heat(celsius), STRANGE)), "nozzle-temperature")
    assert (found.verdict, found.headroom) == (verdict, "")
    assert "The label itself contradicts what is usual for flexible PLA (200 to 230 °C)" in found.text


def test_a_label_beside_what_is_usual_clears_as_before() -> None:
    told = {**STRANGE, "spool.nozzle_window": "225 °C to 245 °C"}
    found = only(temperatures.check_nozzle(case(heat(230), told)), "nozzle-temperature")
    assert (found.verdict, found.text) == ("passed", "Inside the spool's label.")


def test_a_label_far_from_its_material_is_looked_at_first(
    derived: Callable[..., Any], bind: Callable[..., str]
) -> None:
    spool = '[spool]\nmaterial = "flexible PLA"\nnozzle_window = ["300 °C", "320 °C"]\n'
    rule = '[[rule]]\nsetting = "nozzle.temperature"\naim = "300 °C"\nwhy = "A test."\n'
    points = look_first_points(derived("tip = 210\n", bind("nozzle.temperature", "tip"), rule, facts=spool).review)
    alarms = {point.title: point.text for point in points if point.kind == "alarm"}
    assert sorted(alarms) == ["Facts that contradict", "PTFE liner"]
    assert "300 °C to 320 °C has nothing in common" in alarms["Facts that contradict"]
    assert "before you heat to it" in alarms["Facts that contradict"]
