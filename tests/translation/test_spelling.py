"""How one value is read from a piece of text and written back there: units, decimals, quotes, lists, fields, rounding.

Outside check: pint for the units of the written numbers.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pint
import pytest

from profilesmith.foundation.comparison import read_comparison
from profilesmith.foundation.place import Place
from profilesmith.foundation.quantity import UNITS
from profilesmith.profile.profile import Grid
from profilesmith.review.reading_notes import departure_words
from profilesmith.translation.key_map import Binding, KeyMap
from profilesmith.translation.pieces import pieces
from profilesmith.translation.spelling import _places_for, new_grid, read_piece, write_piece
from profilesmith.translation.written_number import number_text
from profilesmith.vocabulary.setting import Vocabulary

Read = Callable[..., Any]


def binding(setting: str, vocabulary: Vocabulary, unit: str = "", **more: Any) -> Binding:
    kind = vocabulary.settings[setting].kind
    return Binding(setting=setting, kind=kind, key="k", place=Place(), unit=UNITS[unit] if unit else None, **more)


MAP = KeyMap(name="m", about="", file="m", bindings=())


@pytest.mark.parametrize(
    ("raw", "more", "found"),
    [
        ("60", {}, ["60"]),
        ("  60 ", {}, ["60"]),
        ('"60"', {}, ["60"]),
        ("' 60 '", {}, ["60"]),
        ("", {}, []),
        ("  ", {}, []),
        ('""', {}, []),
        ('"60', {}, ['"60']),
        ("60,80", {}, ["60,80"]),
        ("60,80", {"tools": True}, ["60", "80"]),
        ("60 , 80", {"tools": True}, ["60", "80"]),
        ('"60,80"', {"tools": True}, ["60", "80"]),
        ('"60","80"', {"tools": True}, ["60", "80"]),
        ("60;80", {"tools": True, "list": ";"}, ["60", "80"]),
        ("60  80", {"tools": True, "list": " "}, ["60", "80"]),
        ("60", {"tools": True}, ["60"]),
        ("210/60", {"split": "/", "field": 1}, ["210"]),
        ("210/60", {"split": "/", "field": 2}, ["60"]),
        ("210/60", {"split": "/", "field": 3}, []),
        ('"210 / 60"', {"split": "/", "field": 2}, ["60"]),
        ('"210"/"60"', {"split": "/", "field": 2}, ["60"]),
        ("210/60,220/70", {"split": "/", "field": 2, "tools": True}, ["60", "70"]),
        ("a::b", {"split": "::", "field": 2}, ["b"]),
    ],
)
def test_pieces_are_spans_of_the_raw_text(
    raw: str, more: dict[str, Any], found: list[str], vocabulary: Vocabulary
) -> None:
    spans = pieces(binding("outer_wall.speed", vocabulary, **more), MAP, raw)
    assert [span.of(raw) for span in spans] == found


@pytest.mark.parametrize(
    ("raw", "more"), [("210/60,220,230/80", {"split": "/", "field": 2, "tools": True}), ("60,,80", {"tools": True})]
)
def test_a_tool_without_a_value_keeps_its_place(raw: str, more: dict[str, Any], vocabulary: Vocabulary) -> None:
    spans = pieces(binding("outer_wall.speed", vocabulary, **more), MAP, raw)
    assert len(spans) != 2  # three tools, or none at all and a complaint; never two that moved up


@pytest.mark.parametrize(
    ("setting", "unit", "text", "value"),
    [
        ("layer.height", "um", "200", "0.2"),
        ("layer.height", "cm", "0.02", "0.2"),
        ("layer.height", "in", "0.01", "0.254"),
        ("layer.height", "m", "0.0002", "0.2"),
        ("outer_wall.speed", "mm/min", "3600", "60"),
        ("outer_wall.speed", "cm/s", "6", "60"),
        ("outer_wall.speed", "m/min", "3.6", "60"),
        ("outer_wall.speed", "in/s", "2", "50.8"),
        ("outer_wall.speed", "in/min", "150", "63.5"),
        ("nozzle.temperature", "°F", "419", "215"),
        ("nozzle.temperature", "K", "488.15", "215"),
        ("fan.power", "0-255", "51", "20"),
        ("fan.power", "fraction", "0.3", "30"),
        ("fan.power", "%", "30", "30"),
        ("layer.minimum_time", "ms", "10000", "10"),
        ("layer.minimum_time", "min", "0.5", "30"),
        ("filament.maximum_flow", "mm3/s", "4.5", "4.5"),
        ("outer_wall.acceleration", "mm/s2", "1e3", "1000"),
        ("wall.count", "", "3", "3"),
        ("wall.count", "", "3.0", "3"),
        ("layer.height", "", "0.2", "0.2"),
        ("layer.height", "um", "0.2 mm", "0.2"),
        ("outer_wall.speed", "mm/s", "3600 mm/min", "60"),
        ("nozzle.temperature", "°C", "419 °F", "215"),
        ("nozzle.temperature", "°C", "215°", "215"),
        ("nozzle.temperature", "°F", "419 degrees", "215"),
        ("outer_wall.speed", "cm/min", "240", "40"),
        ("layer.height", "mil", "8 thou", "0.2032"),
        ("support.overhang_angle", "°", "50 deg off plumb", "50"),
        ("fan.off_layers", "", "2 layers", "2"),
    ],
)
def test_each_unit_is_read(setting: str, unit: str, text: str, value: str, vocabulary: Vocabulary) -> None:
    reading = read_piece(text, binding(setting, vocabulary, unit), vocabulary.settings[setting], ".", ())
    assert (reading.value, reading.error) == (Fraction(value), "")


def test_a_radian_is_read_as_pint_reads_it(vocabulary: Vocabulary) -> None:
    lean = vocabulary.settings["support.overhang_angle"]
    reading = read_piece("1.1", binding(lean.id, vocabulary, "rad"), lean, ".", ())
    assert float(reading.value) == pytest.approx(
        pint.UnitRegistry().Quantity(1.1, "radian").to("degree").magnitude, rel=1e-12
    )


def test_a_unit_that_is_not_the_maps_is_noted(vocabulary: Vocabulary) -> None:
    speed = vocabulary.settings["outer_wall.speed"]
    other = read_piece("3600 mm/min", binding(speed.id, vocabulary, "mm/s"), speed, ".", ()).departures
    assert "the text holds" in "".join(map(departure_words, other))
    assert read_piece("60 mm/s", binding(speed.id, vocabulary, "mm/s"), speed, ".", ()).departures == ()


@pytest.mark.parametrize(
    ("setting", "more", "text", "value", "share"),
    [
        ("outer_wall.speed", {"relative_to": "infill.speed"}, "50", "0.5", True),
        ("outer_wall.speed", {"relative_to": "infill.speed"}, "50 %", "0.5", True),
        ("outer_wall.speed", {"relative_to": "infill.speed", "unit": "fraction"}, "0.5", "0.5", True),
        ("outer_wall.speed", {"relative_to": "infill.speed"}, "60 mm/s", "60", False),
        ("outer_wall.speed", {"relative_to": "infill.speed", "unit": "mm/s"}, "60", "60", False),
        ("outer_wall.speed", {"relative_to": "infill.speed", "unit": "mm/s"}, "50 %", "0.5", True),
        ("outer_wall.speed", {"relative_to": "infill.speed", "unit": "%"}, "80 of core", "0.8", True),
        ("outer_wall.speed", {"relative_to": "infill.speed", "unit": "fraction"}, "0.8 der Bahn", "0.8", True),
        ("outer_wall.speed", {"relative_to": "infill.speed", "unit": "mm/s"}, "0.8 x core", "0.8", True),
        ("infill.overlap", {"unit": "%"}, "25 of the bead", "25", False),
        ("infill.overlap", {"unit": "fraction"}, "0.25 d'un cordon", "25", False),
        ("support.overhang_angle", {"from_horizontal": True}, "25", "65", False),
        ("support.overhang_angle", {}, "25", "25", False),
    ],
)
def test_shares_and_angles(
    setting: str, more: dict[str, Any], text: str, value: str, share: bool, vocabulary: Vocabulary
) -> None:
    reading = read_piece(text, binding(setting, vocabulary, **more), vocabulary.settings[setting], ".", ())
    assert (reading.value, reading.share, reading.error) == (Fraction(value), share, "")


@pytest.mark.parametrize(
    ("more", "words", "texts"),
    [
        (
            {},
            (),
            {
                "1": True,
                "0": False,
                "true": True,
                "False": False,
                "ON": True,
                "no": False,
                "Enabled": True,
                "disabled": False,
                "2": None,
                "ja": None,
                "": None,
            },
        ),
        ({}, ("ja", "nein"), {"ja": True, "nein": False, "1": None, "Ja": None}),
        ({"on": ("3", "4"), "off": ("0",)}, (), {"3": True, "4": True, "0": False, "7": False}),
        ({"off": ("0",)}, ("1", "0"), {"0": False, "9": True}),
    ],
)
def test_switches(
    more: dict[str, Any], words: tuple[str, ...], texts: dict[str, bool | None], vocabulary: Vocabulary
) -> None:
    raft = vocabulary.settings["raft.on"]
    for text, state in texts.items():
        reading = read_piece(text, binding("raft.on", vocabulary, **more), raft, ".", words)
        assert (None if reading.error else reading.value) == state, text


@pytest.mark.parametrize(
    ("old", "value", "more", "words", "new"),
    [
        ("0", True, {}, (), "1"),
        ("FALSE", True, {}, (), "TRUE"),
        ("Off", True, {}, (), "On"),
        ("no", True, {}, (), "yes"),
        ("yes", False, {}, (), "no"),
        ("nein", True, {}, ("ja", "nein"), "ja"),
        ("7", True, {"on": ("3", "4"), "off": ("0",)}, (), "3"),
        ("3", False, {"on": ("3", "4"), "off": ("0", "9")}, (), "0"),
        ("", True, {}, (), "1"),
    ],
)
def test_a_switch_is_written_in_its_own_family(
    old: str, value: bool, more: dict[str, Any], words: tuple[str, ...], new: str, vocabulary: Vocabulary
) -> None:
    bound, raft = binding("raft.on", vocabulary, **more), vocabulary.settings["raft.on"]
    assert write_piece(old, value, bound, raft, ".", words) == new
    assert read_piece(new, bound, raft, ".", words).value is value


@pytest.mark.parametrize(
    ("old", "value", "setting", "more", "decimal", "new"),
    [
        ("72", "40", "outer_wall.speed", {}, ".", "40"),
        ("72.50", "40", "outer_wall.speed", {}, ".", "40.00"),
        ("72,5", "36.84", "outer_wall.speed", {}, ",", "36,84"),
        ("4500", "40", "outer_wall.speed", {"unit": "mm/min"}, ".", "2400"),
        ("4500", "40", "outer_wall.speed", {"unit": "mm/s"}, ".", "40"),
        ("72 mm/s", "40", "outer_wall.speed", {}, ".", "40 mm/s"),
        ("72mm/s", "40", "outer_wall.speed", {}, ".", "40mm/s"),
        ("4500 mm/min", "40", "outer_wall.speed", {"unit": "mm/s"}, ".", "2400 mm/min"),
        ("200", "0.12", "layer.height", {"unit": "um"}, ".", "120"),
        ("401", "215", "nozzle.temperature", {"unit": "°F"}, ".", "419"),
        ("255", "20", "fan.power", {"unit": "0-255"}, ".", "51"),
        ("0.15", "30", "infill.density", {"unit": "fraction"}, ".", "0.30"),
        ("25", "50", "support.overhang_angle", {"from_horizontal": True}, ".", "40"),
        ("90", "0.5", "outer_wall.speed", {"relative_to": "infill.speed"}, ".", "50"),
        ("0.90", "0.5", "outer_wall.speed", {"relative_to": "infill.speed", "unit": "fraction"}, ".", "0.50"),
        ("7.2e1", "40", "outer_wall.speed", {}, ".", "4.0e1"),
    ],
)
def test_a_number_keeps_its_habits(
    old: str, value: str, setting: str, more: dict[str, Any], decimal: str, new: str, vocabulary: Vocabulary
) -> None:
    bound, which = binding(setting, vocabulary, **more), vocabulary.settings[setting]
    assert write_piece(old, Fraction(value), bound, which, decimal, ()) == new
    assert read_piece(new, bound, which, decimal, ()).value == Fraction(value)


def test_choices(vocabulary: Vocabulary) -> None:
    bound = binding("infill.pattern", vocabulary, choices={"gyroid": ("7", "8"), "grid": ("2",)})
    pattern = vocabulary.settings["infill.pattern"]
    assert [read_piece(text, bound, pattern, ".", ()).value for text in ("7", "8", "2", "odd")] == [
        "gyroid",
        "gyroid",
        "grid",
        "odd",
    ]
    assert write_piece("2", "gyroid", bound, pattern, ".", ()) == "7"


@pytest.mark.parametrize(
    ("number", "habit", "decimal", "text"),
    [
        ("40", 0, ".", "40"),
        ("40", 3, ".", "40.000"),
        ("0.125", 1, ".", "0.125"),
        ("0.5", 2, ",", "0,50"),
        ("-1.5", 0, ".", "-1.5"),
        ("1/3", 0, ".", "0.333333333333"),
    ],
)
def test_numbers_as_texts(number: str, habit: int, decimal: str, text: str) -> None:
    assert number_text(Fraction(number), habit, decimal) == text


def test_the_grid_holds_nothing_that_cannot_be_written(vocabulary: Vocabulary) -> None:
    speed = vocabulary.settings["outer_wall.speed"]
    bound = binding(speed.id, vocabulary)
    reading = read_piece("88.300000000000011", bound, speed, ".", ())
    value = reading.grid.inside(Fraction(100, 3), None, Fraction(100, 3))
    assert (
        read_piece(write_piece("88.300000000000011", value, bound, speed, ".", ()), bound, speed, ".", ()).value
        == value
    )


@pytest.mark.parametrize(
    ("setting", "unit", "text", "step"),
    [
        ("outer_wall.speed", "mm/s", "72", "1/10"),
        ("outer_wall.speed", "mm/s", "72.55", "1/100"),
        ("outer_wall.speed", "mm/min", "4500", "1/60"),
        ("layer.height", "um", "200", "1/1000"),
        ("layer.height", "in", "0.01", "254/100000"),
        ("fan.power", "0-255", "255", "100/255"),
        ("nozzle.temperature", "°F", "401", "5/9"),
        ("wall.count", "", "3", "1"),
        ("fan.power", "fraction", "1", "1"),
    ],
)
def test_the_grid_is_the_texts_own_decimals_or_the_settings_resolution(
    setting: str, unit: str, text: str, step: str, vocabulary: Vocabulary
) -> None:
    grid = read_piece(text, binding(setting, vocabulary, unit), vocabulary.settings[setting], ".", ()).grid
    assert grid.step == Fraction(step)


def test_a_new_key_has_the_units_grid(vocabulary: Vocabulary) -> None:
    assert new_grid(binding("layer.height", vocabulary, "um"), vocabulary.settings["layer.height"]).step == Fraction(
        1, 1000
    )
    assert new_grid(binding("raft.on", vocabulary), vocabulary.settings["raft.on"]) == Grid()


@pytest.mark.parametrize(
    ("text", "more", "words", "state", "told"),
    [
        ("raft", {"on": ("raft",), "off": ("skirt",)}, (), True, ""),
        ("skirt", {"on": ("raft",), "off": ("skirt",)}, (), False, ""),
        ("none", {"on": ("raft",), "off": ("skirt", "none")}, (), False, ""),
        (
            "brim",
            {"on": ("raft",), "off": ("skirt",)},
            (),
            False,
            (
                "'brim' is neither 'raft' (on) nor 'skirt' (off): it reads as off, and is written over "
                "when this is turned on"
            ),
        ),
        ("Raft2", {"on": ("raft",), "off": ("skirt",)}, (), False, "did you mean 'raft'?"),
        ("RAFT", {"on": ("raft",), "off": ("skirt",)}, (), False, "did you mean 'raft'?"),
        ("brim", {"on": ("raft",)}, ("1", "0"), False, "neither 'raft' (on) nor '0' (off)"),
        ("0", {"on": ("raft",)}, ("1", "0"), False, ""),
        ("brim", {"off": ("none",)}, ("1", "0"), True, "it reads as on, and is written over when this is turned off"),
        ("3", {"on": ("2",), "off": ("0",), "on_when": read_comparison("> 0")}, (), True, ""),
        ("yes", {}, (), True, ""),
    ],
)
def test_a_text_that_a_switch_does_not_name_is_told(
    text: str, more: dict[str, Any], words: tuple[str, ...], state: bool, told: str, vocabulary: Vocabulary
) -> None:
    reading = read_piece(text, binding("raft.on", vocabulary, **more), vocabulary.settings["raft.on"], ".", words)
    assert (reading.value, reading.error) == (state, "")
    assert told in "".join(map(departure_words, reading.departures))
    assert bool(told) is bool(reading.departures)


@pytest.mark.parametrize(
    ("step", "factor", "places"),
    [
        ("0", "25.4", 0),
        ("1", "1", 0),
        ("1", "1.01", 1),
        ("1", "100", 2),
        ("1", "101", 3),
        ("1", "105", 3),
        ("0.01", "25.4", 4),
        ("1e-12", "1", 12),
        ("1e-13", "1", 12),
    ],
)
def test_a_unit_gets_the_decimals_that_its_step_needs(step: str, factor: str, places: int) -> None:
    ratios = (Fraction(text).as_integer_ratio() for text in (step, factor))
    assert _places_for(*ratios) == places


@pytest.mark.parametrize(
    ("text", "step", "whole"), [("51", Fraction(100, 255), True), ("51.0", Fraction(100, 255), True)]
)
def test_a_duty_byte_is_whole(text: str, step: Fraction, whole: bool, vocabulary: Vocabulary) -> None:
    setting = vocabulary.settings["fan.power"]
    read = read_piece(text, binding("fan.power", vocabulary, "0-255"), setting, ".", ())
    assert (read.value, read.grid.step, read.grid.whole) == (20, step, whole)
    half = read_piece("51.5", binding("fan.power", vocabulary, "0-255"), setting, ".", ())
    assert not half.grid.whole
    assert half.grid.step < step


def test_a_unit_behind_a_number_is_none_of_its_decimals(vocabulary: Vocabulary) -> None:
    setting = vocabulary.settings["outer_wall.speed"]
    for text in ("60.2525", "60.2525 mm/s", "60.2525mm/s"):
        read = read_piece(text, binding("outer_wall.speed", vocabulary), setting, ".", ())
        assert read.grid.step == Fraction(1, 10**4)


@pytest.mark.parametrize(
    ("setting", "unit", "text", "value"),
    [
        ("outer_wall.speed", "in/s", "1.2 in", Fraction(3048, 100)),
        ("outer_wall.speed", "mm/min", "2400 mm", Fraction(40)),
        ("infill.overlap", "fraction", "0.2 of a bead", Fraction(20)),
    ],
)
def test_words_that_the_map_completes(
    setting: str, unit: str, text: str, value: Fraction, vocabulary: Vocabulary
) -> None:
    mine = binding(setting, vocabulary, unit)
    assert read_piece(text, mine, vocabulary.settings[setting], ".", ()).value == value


def test_a_length_is_no_speed_of_another_length(vocabulary: Vocabulary) -> None:
    for text, unit in (("1.2 in", "mm/s"), ("60 mm", "")):  # what no map states completes nothing
        mine = binding("outer_wall.speed", vocabulary, unit)
        assert read_piece(text, mine, vocabulary.settings["outer_wall.speed"], ".", ()).error
