"""The vocabulary as the program sees it: reading values, groups, ranges. Its data are tested in tests/knowledge."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.foundation.quantity import find_unit
from profilesmith.mend.load_troubles import shipped_troubles
from profilesmith.reports.vocabulary import described
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Unreadable, read_value, resolution_in
from profilesmith.workflows.vocabulary import meant_by

VOCABULARY = load_vocabulary()


@pytest.mark.parametrize(
    ("setting", "text", "value"),
    [
        ("outer_wall.speed", "2400 mm/min", 40),
        ("layer.height", "120 um", Fraction("0.12")),
        ("nozzle.temperature", "419 °F", 215),
        ("top.layers", "5", 5),
        ("raft.on", "on", True),
        ("raft.on", "off", False),
        ("infill.pattern", "gyroid", "gyroid"),
        ("fan.power", "0.5 fraction", 50),
        ("support.overhang_angle", "65 deg", 65),
    ],
)
def test_values_of_recipes(setting: str, text: str, value: Any) -> None:
    found = read_value(VOCABULARY.settings[setting], text)
    assert found == value
    assert type(found) is type(value) or isinstance(found, Fraction)


@pytest.mark.parametrize(
    ("setting", "text"),
    [
        ("outer_wall.speed", "40"),
        ("outer_wall.speed", "40 mm"),
        ("raft.on", "yes"),
        ("raft.on", "1"),
        ("infill.pattern", ""),
        ("top.layers", "5 mm"),
        ("layer.height", "thin"),
        ("nozzle.temperature", "NaN °C"),
    ],
)
def test_what_is_no_value(setting: str, text: str) -> None:
    found = read_value(VOCABULARY.settings[setting], text)
    assert isinstance(found, Unreadable)
    assert found.reason


def test_printing_speeds_are_all_speeds_at_which_material_is_laid() -> None:
    speeds = {name for name, setting in VOCABULARY.settings.items() if setting.kind == "speed"}
    assert set(VOCABULARY.groups["printing speeds"].members) == speeds - {"travel.speed", "retraction.speed"}


def test_names_expand_to_settings() -> None:
    assert VOCABULARY.expand("raft.on") == ("raft.on",)
    assert VOCABULARY.expand("printing speeds") == VOCABULARY.groups["printing speeds"].members
    assert VOCABULARY.expand("nonsense") == ()


@pytest.mark.parametrize(
    ("setting", "value", "word"),
    [
        ("outer_wall.speed", "3600", "outside the plausible"),
        ("outer_wall.speed", "60", ""),
        ("top.layers", "4.5", "no whole number"),
        ("nozzle.temperature", "20", "outside"),
        ("layer.height", "0.02", ""),
        ("layer.height", "2.01", "outside"),
    ],
)
def test_what_is_implausible_says_why(setting: str, value: str, word: str) -> None:
    found = VOCABULARY.settings[setting].implausible(Fraction(value))
    assert (word in found) if word else found == ""


def test_switches_and_choices_are_never_implausible() -> None:
    assert VOCABULARY.settings["raft.on"].implausible(True) == ""
    assert VOCABULARY.settings["infill.pattern"].implausible("odd") == ""


@pytest.mark.parametrize(
    ("setting", "unit", "step"),
    [("layer.height", "um", 10), ("outer_wall.speed", "mm/min", 6), ("layer.height", "", Fraction(1, 100))],
)
def test_the_resolution_in_another_unit(setting: str, unit: str, step: Fraction) -> None:
    assert resolution_in(VOCABULARY.settings[setting], unit) == step


def test_the_resolution_of_every_number_is_finer_than_its_range() -> None:
    for setting in VOCABULARY.settings.values():
        if setting.is_number:
            assert setting.step is not None
            assert 0 < setting.step < setting.high - setting.low
            assert not setting.unit or find_unit(setting.unit) is not None


@pytest.mark.parametrize(
    ("word", "names"),
    [
        ("support.density", ["support.density", "%"]),
        ("printing speeds", ["outer_wall.speed", "bridge.speed"]),
        ("temperature", ["nozzle.temperature", "bed.temperature"]),
        ("", ["Supports", "raft.on", "printing speeds"]),
    ],
)
def test_the_command(word: str, names: list[str], program: Callable[..., Any]) -> None:
    ran = program("vocabulary", *([word] if word else []))
    assert ran.code == 0
    assert [name for name in names if name not in ran.out] == []


@pytest.mark.parametrize(
    ("words", "first", "also"),
    [
        (["stringing"], "stringing:", ["nozzle.temperature down", "dry the spool", "the spool is damp"]),
        (["ooze"], "stringing:", ["retraction.distance up"]),
        (["Fäden"], "stringing:", ["travel.speed up"]),
        (["soft"], "too stiff:", ["too soft:", "wall.count down", '--saw "too soft=poor"', "part.like_thickness:"]),
        (["print", "speed"], "printing speeds:", ["first_layer.speed:", "raft.speed:"]),
        (["speed print"], "printing speeds:", ["first_layer.speed:"]),
        (["raft", "stuck"], "stuck too hard:", ["raft.gap up"]),
        (["printing", "speeds"], "printing speeds:", ["bridge.speed"]),
        (["layer.height"], "layer.height:", []),
    ],
)
def test_words_and_troubles(words: list[str], first: str, also: list[str], program: Callable[..., Any]) -> None:
    ran = program("vocabulary", *words)
    assert ran.code == 0
    assert ran.out.startswith(first)
    assert [name for name in also if name not in ran.out] == []


def test_several_words_must_all_be_found(program: Callable[..., Any]) -> None:
    both, one = program("vocabulary", "raft", "speed"), program("vocabulary", "raft")
    assert "raft.speed:" in both.out
    assert "raft.gap:" in one.out
    assert "raft.gap:" not in both.out
    ran = program("vocabulary", "qqq", "zzz")
    assert (ran.code, ran.codes) == (2, ("unknown-word",))
    assert "Try fewer words" in ran.err


def test_every_trouble_names_what_each_of_its_causes_moves() -> None:
    for trouble in shipped_troubles().troubles.values():
        text = described(meant_by(trouble.name))
        assert text.startswith(f"{trouble.name}: {trouble.looks}")
        for cause in trouble.causes:
            line = next(line for line in text.splitlines() if line.endswith(cause.what))
            assert line.strip().startswith(cause.do or cause.setting)


def test_a_word_that_nobody_knows(program: Callable[..., Any]) -> None:
    ran = program("vocabulary", "suport.densty")
    assert (ran.code, ran.codes) == (2, ("unknown-word",))
    assert "support.density" in ran.err
