"""Facts files: what is read, what is refused, several that add up or disagree."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.facts.facts import Hardness, fact_kinds, how_to, out_of_range, read_fact, read_hardness, why_not
from profilesmith.facts.load_facts import load_facts
from profilesmith.foundation.quantity import read_quantity

F = Fraction
Load = Callable[..., tuple[dict[str, Any], list[Any]]]


@pytest.fixture
def load() -> Load:
    def run(*texts: str) -> tuple[dict[str, Any], list[Any]]:
        files = []
        for number, text in enumerate(texts, 1):
            files.append((f"format = 1\n{text}".encode(), f"f{number}.toml"))
        facts, problems = load_facts(files)
        return {name: fact.value for name, fact in facts.items()}, problems

    return run


def test_every_kind_of_fact(load: Load) -> None:
    text = (
        '[machine]\nname = "m"\ndrive = "remote"\ntube_length = "42 cm"\n'
        'maximum_nozzle_temperature = "473 °F"\nacceleration = "1 m/s2"\n'
        '[spool]\nhardness = "92 Shore A"\nnozzle_window = ["210 °C", "220 °C"]\n'
        'maximum_flow = "18 cm3/h"\ndrying_time = "6 h"\n[part]\nthickness = "2.4 mm"\n'
        'note = "collar"\n'
    )
    values, problems = load(text)
    assert problems == []
    assert values == {
        "machine.drive": "remote",
        "machine.tube_length": 420,
        "machine.maximum_nozzle_temperature": 245,
        "machine.acceleration": 1000,
        "spool.hardness": Hardness(F(92), "A"),
        "spool.nozzle_window": (210, 220),
        "spool.maximum_flow": 5,
        "spool.drying_time": 21600,
        "part.thickness": F("2.4"),
    }


@pytest.mark.parametrize("text", ["92 Shore A", "Shore 92A", "92A", "92 a", "shore 92 A"])
def test_a_hardness_in_its_spellings(text: str) -> None:
    assert read_hardness(text) == Hardness(F(92), "A")


@pytest.mark.parametrize(
    "text", ["", "A", "92", "92 Shore B", "Shore", "120 A", "-5 A", "²A", "٩A", "9" * 50 + "A", "92..5A", "soft A"]
)
def test_no_hardness(text: str) -> None:
    assert read_hardness(text) is None


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ('[machine]\ndrive = "sideways"', "fact-value"),
        ("[machine]\ndrive = 1", "fact-value"),
        ('[machine]\ntube_length = "long"', "fact-value"),
        ("[machine]\ntube_length = 420", "fact-value"),
        ('[machine]\ntube_length = "420"', "fact-value"),
        ('[machine]\ntube_length = "420 °C"', "fact-value"),
        ('[machine]\ntube_length = "1e999 mm"', "fact-value"),
        ('[machine]\nnozzle_diameter = "40 mm"', "fact-range"),
        ('[spool]\nnozzle_window = ["220 °C", "210 °C"]', "fact-value"),
        ('[spool]\nnozzle_window = ["220 °C"]', "fact-value"),
        ('[spool]\nnozzle_window = ["210 °C", "220 °C", "230 °C"]', "fact-value"),
        ("[spool]\nnozzle_window = [210, 220]", "fact-value"),
        ('[spool]\nnozzle_window = ["20 °C", "30 °C"]', "fact-range"),
        ('[spool]\nhardness = "soft"', "fact-value"),
        ("[spool]\nhardness = 92", "fact-value"),
        ('[machine]\ndrve = "direct"', "unknown-fact"),
        ("[shelf]\nx = 1", "unknown-key"),
        ("machine = 3", "wrong-type"),
        ("[part]\nthickness = nan", "fact-value"),
    ],
)
def test_refused(line: str, code: str, load: Load) -> None:
    values, problems = load(line)
    assert [problem.code for problem in problems] == [code]
    assert values == {}
    assert problems[0].message.endswith(".")
    assert problems[0].hint.endswith((".", "?"))
    assert problems[0].place.file == "f1.toml"


@pytest.mark.parametrize(
    ("fact", "bare", "written"),
    [
        ("spool.drying_time", "6", '"6 h"'),
        ("spool.drying_time", "360", '"360 min"'),
        ("part.rigid_time", "95", '"95 h" or "95 min"'),
        ("part.face_pressure", "20", '"20 kPa"'),
        ("spool.maximum_flow", "5", '"5 mm3/s"'),
        ("spool.drying_temperature", "55", '"55 °C"'),
        ("spool.left", "400", '"400 g"'),
        ("part.thickness", "2.4", '"2.4 mm"'),
    ],
)
def test_a_bare_number_is_shown_in_units_in_which_it_can_be_right(fact: str, bare: str, written: str) -> None:
    kind = fact_kinds()[fact]
    assert how_to(kind, bare) == f"Write {written}. {kind.ask}"


def test_units_in_which_a_fact_is_said_are_of_its_kind() -> None:
    for kind in fact_kinds().values():
        if kind.unit_kind not in ("", "count"):
            assert all(isinstance(read_quantity(f"1 {unit}", kind.unit_kind), F) for unit in kind.said_in)


def test_several_files_add_up(load: Load) -> None:
    values, problems = load(
        '[machine]\ndrive = "direct"\n',
        '[spool]\nmaximum_flow = "4 mm3/s"\n',
        '[machine]\ndrive = "direct"\nliner = "PTFE"\n',
    )
    assert problems == []
    assert values == {"machine.drive": "direct", "spool.maximum_flow": 4, "machine.liner": "PTFE"}


def test_the_same_quantity_in_another_unit_is_no_disagreement(load: Load) -> None:
    assert load('[machine]\ntube_length = "420 mm"\n', '[machine]\ntube_length = "42 cm"\n')[1] == []


def test_two_that_disagree_are_a_conflict_that_names_both(load: Load) -> None:
    _, problems = load('[machine]\ndrive = "direct"\n', '[machine]\ndrive = "remote"\n')
    assert [(problem.code, problem.severity) for problem in problems] == [("facts-disagree", 3)]
    assert "direct in f1.toml:3" in problems[0].message
    assert str(problems[0].place).startswith("f2.toml:3")


def test_every_kind_has_a_question_and_reads_its_own_range() -> None:
    for kind in fact_kinds().values():
        assert kind.ask.endswith("?"), kind.name
        if kind.low is not None and kind.high is not None:
            assert kind.low < kind.high
            assert out_of_range(kind, kind.low) == out_of_range(kind, kind.high) == ""
            assert "outside" in out_of_range(kind, kind.high + 1)


def test_a_shown_fact_reads_again() -> None:
    """What a ledger writes of a fact can be typed in as an answer."""
    samples = {
        "machine.drive": "remote",
        "machine.tube_length": F(420),
        "spool.hardness": Hardness(F(92), "A"),
        "spool.nozzle_window": (F(210), F(220)),
        "spool.maximum_flow": F("4.5"),
        "part.thickness": F("2.4"),
    }
    for name, value in samples.items():
        kind = fact_kinds()[name]
        assert read_fact(kind, kind.show(value)) == value, name
        assert why_not(kind, "no such thing")
