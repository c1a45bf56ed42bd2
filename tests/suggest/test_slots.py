"""Places that could hold a setting, and what stands around them."""

from fractions import Fraction

import pytest

from profilesmith.suggest.detect_habits import find_habits, writing_of
from profilesmith.suggest.lexicon import load_lexicon
from profilesmith.suggest.remark_units import named_units, speaks_of_share
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.slots import find_slots
from profilesmith.suggest.stated import stated_units
from profilesmith.text.read_document import read_document


def slots_of(text: str) -> list[Slot]:
    habits = find_habits([text])
    document = read_document(text.encode(), "base", habits)
    return find_slots((document,), writing_of((document,), habits, load_lexicon()), load_lexicon())[0]


def names(terms: tuple[object, ...]) -> list[str]:
    return [term.text for term in terms]  # type: ignore[attr-defined]


def test_a_slot_knows_its_key_section_heading_and_remark() -> None:
    (slot,) = slots_of("; heat\n[spout]\n; all of the melt\nmelt = 205   ; near spout\n")
    assert slot.name == "[spout] melt"
    assert slot.number == 205
    assert names(slot.around) == ["spout"]
    assert slot.remark_text == "near spout"
    assert "melt" in names(slot.heading)


def test_a_unit_written_behind_the_number() -> None:
    slot = slots_of("a = 60 mm/s\n")[0]
    assert slot.unit is not None
    assert (slot.number, slot.unit.name) == (60, "mm/s")


@pytest.mark.parametrize(
    ("key", "units"),
    [
        ("bore_mm", ("mm",)),
        ("settle_s", ("s",)),
        ("LayerLeastMs", ("ms",)),
        ("speed [mm/s]", ("mm/s",)),
        ("class", ()),
        ("steps", ()),
    ],
)
def test_a_unit_at_the_end_of_a_key(key: str, units: tuple[str, ...]) -> None:
    assert slots_of(f"{key} = 5\n")[0].units == units


def test_fields_of_a_packed_value() -> None:
    first, second = slots_of("heat tip/plate = 205/60\n")
    assert (first.number, first.field, first.separator) == (205, 1, "/")
    assert second.name == "heat tip/plate, field 2"
    assert names(second.own) == ["heat", "plate"]


def test_fields_that_only_the_remark_names() -> None:
    first, second = slots_of("; x\nrind = 3000 > 4200    ; outermost row > the rows behind it\n")
    assert "outermost" in names(first.remark)
    assert "behind it" in names(second.remark)


def test_values_of_several_tools_are_one_slot() -> None:
    slots = slots_of("melt = 205, 202\nbore = 0.4, 0.4\n")
    assert [(slot.number, slot.tools) for slot in slots] == [(205, ","), (Fraction(2, 5), ",")]


@pytest.mark.parametrize(
    "value",
    [
        "https://shelf.invalid/31",
        "2031-03-14",
        "07:45",
        "G28\\nM140 S60",
        "a long remark that goes on and on",
        "",
        "#8A8F94x" * 12,
    ],
)
def test_what_is_no_slot(value: str) -> None:
    assert slots_of(f"a = {value}\n") == []


def test_of_a_key_that_is_written_twice_the_last_counts() -> None:
    assert [slot.number for slot in slots_of("[p]\na = 90\n[p]\na = 80\n")] == [80]


@pytest.mark.parametrize(
    ("remark", "units"),
    [
        ("lengths in microns, paces in millimetres a minute, times in minutes", {"um", "mm/min", "min"}),
        ("in, in/s, F unless marked", {"in", "in/s", "°F"}),
        ("mm3/s", {"mm3/s"}),
        ("Längen in mm und Tempo in mm/s", {"mm", "mm/s"}),
        ("kelvin throughout", {"K"}),
        ("degrees, turned against the walls", {"°"}),
        ("put it in a box", set()),
        ("s", {"s"}),
        ("nothing", set()),
    ],
)
def test_units_that_a_remark_names(remark: str, units: set[str]) -> None:
    assert set(named_units(remark, load_lexicon().units)) == units


def test_remarks_on_shares() -> None:
    lexicon = load_lexicon()
    assert speaks_of_share("times the outside wall", lexicon)
    assert not speaks_of_share("near the outside wall", lexicon)
    stated = stated_units(["house pace in mm/s and all other paces as a share of it"], lexicon)
    assert "share:speed" in stated
    assert "mm/s" in stated
