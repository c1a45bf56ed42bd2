"""Strategies for how settings stand in a text: every spelling that a key map can say, several settings in one value."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, NamedTuple

from hypothesis import strategies as st

from tests.laws.spellings import CHOICE, NUMBERS, SWITCHES, UNITS, UNWRITTEN, WORDS, Slot, Value, numerals

SWITCH_FORMS: tuple[tuple[Mapping[str, Any], Mapping[str, Value]], ...] = (
    ({}, {"1": True, "0": False}),
    ({}, {"yes": True, "no": False}),
    ({}, {"True": True, "False": False}),
    ({"on": "3", "off": "0"}, {"3": True, "0": False}),
    ({"on": ["drawn", "laid"], "off": ["bare", "none"]}, {"drawn": True, "laid": True, "bare": False, "none": False}),
    ({"on_when": "> 0", "on": "2", "off": "0"}, {"2": True, "5": True, "0": False}),
)
CHOICE_FORMS: tuple[Mapping[str, Any], ...] = (
    {"gyroid": "7", "grid": "1", "lines": "0"},
    {"gyroid": ["w", "waves"], "hexagons": "six", "grid": "squares"},
)
# One key that holds one of several switches: its off, and a text of its own for each; the last is nobody's.
ONE_OF_SEVERAL = (("0", ("1", "2", "3"), "4"), ("bare", ("mat", "hem", "rest"), "moat"))
SUFFIXES = {"C": ("C", "°C"), "deg": ("deg", "°"), "mm/s2": ("mm/s2", "mm/s^2")}


class Written(NamedTuple):
    """One line's value: its settings, and the raw text that all of them share. plain: a bare number or word."""

    slots: tuple[Slot, ...]
    raw: str

    @property
    def plain(self) -> bool:
        return self.raw.replace(".", "").replace(",", "").isalnum()


def _ends(setting: str, unit: str, binding: Mapping[str, Any]) -> tuple[Fraction, Fraction]:
    """The setting's range in a unit's numbers."""
    known = NUMBERS[setting]
    low, high = Fraction(known.low), Fraction(known.high)
    if binding.get("angle_from") == "horizontal":
        low, high = 90 - high, 90 - low
    scale = UNITS[known.kind][unit]
    return low / scale.factor + scale.zero, high / scale.factor + scale.zero


@st.composite
def _piece(draw: st.DrawFn, setting: str, unit: str, binding: Mapping[str, Any], decimal: str, bare: bool) -> str:
    """A number, with or without a unit behind it; the unit written may be another than the map's."""
    kind = NUMBERS[setting].kind
    written, suffix = unit, ""
    if not bare and kind != "count" and draw(st.integers(0, 3)) == 3:
        written = draw(st.sampled_from([name for name in UNITS[kind] if name not in UNWRITTEN]))
        suffix = draw(st.sampled_from(("", " "))) + draw(st.sampled_from(SUFFIXES.get(written, (written,))))
    return draw(numerals(*_ends(setting, written, binding), decimal, 0 if kind == "count" else 3)) + suffix


@st.composite
def number_slots(draw: st.DrawFn, setting: str, decimal: str) -> Written:
    """A setting alone in its line, with one value or one for each tool."""
    kind = NUMBERS[setting].kind
    unit = draw(st.sampled_from(list(UNITS[kind])))
    binding: dict[str, Any] = {"unit": unit} if unit else {}
    if kind == "angle" and draw(st.booleans()):
        binding["angle_from"] = "horizontal"
    separator = ""
    if kind == "temperature" and draw(st.integers(0, 2)) == 2:
        separator = draw(st.sampled_from((";", "|") if decimal == "," else (";", ",", "|")))
        binding |= {"tools": True, "list": separator}
    count = draw(st.integers(1, 3)) if separator else 1
    items = [draw(_piece(setting, unit, binding, decimal, bool(separator))) for _ in range(count)]
    raw = (separator + draw(st.sampled_from(("", " "))) if separator else "").join(items)
    quote = draw(st.sampled_from(("", "", "", '"', "'")))
    slot = Slot(
        setting=setting, raw=f"{quote}{raw}{quote}", binding=binding, unit=unit, decimal=decimal, separator=separator
    )
    return Written((slot,), slot.raw)


@st.composite
def share_slots(draw: st.DrawFn, setting: str, decimal: str, reference: str | Fraction, key: str = "") -> Written:
    """A speed written as a share: of another setting, held or not, or of a key that is none."""
    unit = draw(st.sampled_from(("%", "fraction")))
    suffix = draw(st.sampled_from(("", " %", "%"))) if unit == "%" else ""
    low, high = (Fraction(40), Fraction(150)) if unit == "%" else (Fraction("0.4"), Fraction("1.5"))
    number = draw(numerals(low, high, decimal, 2))
    binding = {"unit": unit, "relative_key": key} if key else {"unit": unit, "relative_to": reference}
    way = "" if key else draw(st.sampled_from(("", "keep", "follow")))
    binding |= {"shares": way} if way else {}
    slot = Slot(
        setting=setting,
        raw=number + suffix,
        binding=binding,
        unit=unit,
        decimal=decimal,
        reference=reference,
        held=not key and way != "follow",
    )
    return Written((slot,), slot.raw)


@st.composite
def packed_slots(draw: st.DrawFn, decimal: str) -> Written:
    """Two temperatures in one value: ``"210/60"``."""
    split = draw(st.sampled_from(("/", " / ", "@")))
    names = ("nozzle.temperature", "bed.temperature")
    texts = [draw(numerals(*_ends(name, "C", {}), decimal, 1)) for name in names]
    quote = draw(st.sampled_from(("", '"')))
    raw = quote + split.join(texts) + quote
    slots = tuple(
        Slot(
            setting=name,
            raw=raw,
            unit="C",
            decimal=decimal,
            split=split.strip(),
            part=at,
            binding={"unit": "C", "split": split.strip(), "field": at},
        )
        for at, name in enumerate(names, 1)
    )
    return Written(slots, raw)


@st.composite
def word_slots(draw: st.DrawFn, setting: str) -> Written:
    """A switch or a choice."""
    if setting == CHOICE:
        choices = draw(st.sampled_from(CHOICE_FORMS))
        texts: Mapping[str, Value] = {
            text: word for word, found in choices.items() for text in ([found] if isinstance(found, str) else found)
        }
        raw = draw(st.sampled_from((*texts, "spiral-9")))
        return Written((Slot(setting=setting, raw=raw, binding={"choices": choices}, texts=texts),), raw)
    binding, states = draw(st.sampled_from(SWITCH_FORMS))
    raw = draw(st.sampled_from(list(states)))
    return Written((Slot(setting=setting, raw=raw, binding=binding, texts=states),), raw)


@st.composite
def shared_slots(draw: st.DrawFn, names: tuple[str, ...]) -> Written:
    """Switches that share a key, which can hold one of them."""
    off, texts, strange = draw(st.sampled_from(ONE_OF_SEVERAL))
    mine = dict(zip(names, texts, strict=False))
    raw = draw(st.sampled_from((off, *mine.values(), strange)))
    slots = tuple(
        Slot(
            setting=name,
            raw=raw,
            binding={"on": mine[name], "off": off},
            texts={text: text == mine[name] for text in (off, *texts, strange)},
            sharers=names,
        )
        for name in names
    )
    return Written(slots, raw)


@st.composite
def written_settings(draw: st.DrawFn, decimal: str) -> list[Written]:
    """Three to nine settings of one profile; what a share is of comes before it."""
    names = draw(st.lists(st.sampled_from((*NUMBERS, *SWITCHES, CHOICE)), min_size=3, max_size=9, unique=True))
    names += [name for name in SWITCHES if name not in names and draw(st.integers(0, 3)) == 3]
    if {"top.layers", "bottom.layers"} & set(names) and "layer.height" not in names:
        names.append("layer.height")  # so that a thickness can be held
    left = dict.fromkeys(sorted(names, key=lambda name: (name != "outer_wall.speed", name != "first_layer.speed")))
    found: list[Written] = []
    if {"nozzle.temperature", "bed.temperature"} <= set(left) and draw(st.booleans()):
        found.append(draw(packed_slots(decimal)))
        del left["nozzle.temperature"], left["bed.temperature"]
    switches = tuple(name for name in left if name in SWITCHES)
    if len(switches) > 1 and draw(st.booleans()):
        found.append(draw(shared_slots(switches)))
        left = dict.fromkeys(name for name in left if name not in switches)
    for name in left:
        if name == "first_layer.speed" and "outer_wall.speed" in left and draw(st.booleans()):
            found.append(draw(share_slots(name, decimal, "outer_wall.speed")))
        elif name == "infill.speed" and "first_layer.speed" in left and draw(st.booleans()):
            found.append(draw(share_slots(name, decimal, "first_layer.speed")))  # at times a share of a share
        elif name == "inner_wall.speed" and draw(st.booleans()):
            found.append(draw(share_slots(name, decimal, Fraction(80), REFERENCE_KEY)))
        else:
            found.append(draw(number_slots(name, decimal) if name in NUMBERS else word_slots(name)))
    return found


REFERENCE_KEY = "Whole pace"
assert set(WORDS) >= {word for form in CHOICE_FORMS for word in form}
