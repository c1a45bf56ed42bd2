"""The case: plain numbers, zero and missing kept apart, one view for each tool."""

from __future__ import annotations

from profilesmith.checks.amounts import count, switch
from profilesmith.checks.case import MOST_TOOLS, Case, CaseAnswers
from tests.checks.samples import case, profile


def test_zero_is_a_number_but_no_size() -> None:
    empty = case({"infill.density": "0 %"})
    assert empty.number("infill.density") == 0
    assert empty.size("infill.density") is None
    assert case({"infill.density": None}).number("infill.density") is None


def test_before_is_known_only_of_a_change() -> None:
    assert case().before("layer.height") is None
    assert case({"layer.height": "0.12 mm"}, base={}).before("layer.height") == 0.2


def test_facts_by_their_kind() -> None:
    told = case(
        told={"spool.nozzle_window": "210 °C to 220 °C", "machine.drive": "remote", "spool.hardness": "92 Shore A"}
    )
    assert told.window("spool.nozzle_window") == (210, 220)
    assert told.window("spool.hardness") is None  # a hardness is two things too, but no window
    assert (told.word("machine.drive"), told.word("machine.liner")) == ("remote", "")
    assert told.quantity("machine.drive") is None
    hardness = told.hardness()
    assert hardness is not None
    assert hardness.scale == "A"


def test_what_many_checks_ask_is_worked_out_once() -> None:
    asked: list[Case] = []

    def height(one: Case) -> float | None:
        asked.append(one)
        return one.size("layer.height")

    thick = case({"layer.height": "0.28 mm"})._replace(known=CaseAnswers())
    assert [thick.once(height), thick.once(height)] == [0.28, 0.28]
    assert len(asked) == 1
    # A case that was made of it has the same answers beside it, and other ones of its own.
    thin = thick._replace(base=case({"layer.height": "0.12 mm"}).base)
    assert [thin.once(height), thick.once(height), thin.once(height)] == [0.12, 0.28, 0.12]


def test_a_case_without_answers_keeps_none() -> None:
    asked: list[int] = []
    plain = case()
    assert plain.known is None
    for _ in range(2):
        plain.once(lambda _: asked.append(1))
    assert len(asked) == 2


def test_a_contradicted_nozzle_is_not_known() -> None:
    assert case(told={"machine.nozzle_diameter": "0.4 mm"}).nozzle() == 0.4
    assert case(told={"machine.nozzle_diameter": "0.6 mm"}).nozzle() is None
    assert case({"nozzle.diameter": None}).nozzle() is None


def test_tools_with_the_same_settings_are_seen_once() -> None:
    assert [tool for tool, _ in case({"nozzle.temperature": "205 °C | 230 °C | 205 °C"}).tools()] == [1, 2]
    seen = dict(case({"nozzle.temperature": "205 °C | 230 °C"}).tools())
    assert seen[2].number("nozzle.temperature") == 230
    assert seen[2].number("bed.temperature") == 60


def test_a_list_that_no_machine_has_is_cut() -> None:
    long = case({"nozzle.temperature": " | ".join(f"{180 + number} °C" for number in range(90))})
    assert len(list(long.tools())) == MOST_TOOLS


def test_switches_and_counts() -> None:
    told = profile({"raft.on": "off"})
    assert switch(told, "raft.on") is False
    assert switch(told, "brim.on") is None
    assert (count(told, "wall.count"), count(told, "layer.height")) == (3, None)
