"""Places that could hold a setting, and what stands around them."""

from fractions import Fraction

import pytest

from profilesmith.suggest.detect_habits import find_habits, writing_of
from profilesmith.suggest.ideas import load_schemas
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.modes import NO_YES
from profilesmith.suggest.remark_units import named_units, speaks_of_share
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.slots import find_slots
from profilesmith.suggest.stated import stated_units
from profilesmith.suggest.surroundings import Surroundings
from profilesmith.suggest.values import find_fits
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


def test_a_remark_that_is_yes_or_no_makes_a_switch() -> None:
    """``0/1`` says what kind of value it is: a number that is no length, count or share."""
    text = "# rate in mm/s\n" + "".join(f"r{n} = {n}   # something {n}\n" for n in range(10, 14))
    slot = next(slot for slot in slots_of(f"{text}r60 = 1   # filament withdrawn, 0/1\n") if slot.place[1] == "r60")
    assert slot.told == NO_YES
    schemas = load_schemas()
    assert {schema.setting.kind for schema, _ in find_fits(slot, schemas, load_lexicon())} == {"switch"}


GLOSSARY = """// times in s
T_Ti ;   50      // Ti = Tisch
T_Ti_1 ; 58      // 1 = Startlage
T_Duese ; 205
Haut_Anz ; 2
Kern_Grad ; 20
v_Kern ; 60
"""


def test_a_piece_of_a_key_is_explained_where_it_is_met_first() -> None:
    slots = {slot.place[1]: slot for slot in slots_of(GLOSSARY)}
    ideas = [term.ideas for term in slots["T_Ti_1"].own]
    assert any("bed" in held for held in ideas)
    assert any("first" in held for held in ideas)
    assert not slots["T_Ti"].coded


def test_remarks_of_single_keys_say_nothing_of_the_whole_text() -> None:
    """A share of one width makes no shares of all speeds."""
    remarks = {"Q1": "pace for the filling", "Q2": "how far it bites into the wall, share of the width"}
    text = "! paces in mm/s\n\n" + "".join(f"! {said}\n{key} = 22\n" for key, said in remarks.items())
    document = read_document(text.encode(), "base", find_habits([text]))
    around = Surroundings(document, find_habits([text]), load_lexicon())
    assert around.head_remarks() == ["paces in mm/s"]


def test_a_doubled_star_begins_remarks_unless_it_encloses_the_line() -> None:
    text = "** by hand\n** mm and s\n[a]\nx: 3 mm   ** how far\ny: 2\nz: 1\n"
    assert "**" in (find_habits([text]).comments or ())
    assert "**" not in (find_habits(["** core **\nx = 1\n\n** rim **\nx = 2\n"]).comments or ())


def test_a_stroke_between_two_tools_values_begins_no_remark() -> None:
    rows = (
        "mouth  0.4 mm / 0.6 mm",
        "warmth  210 / 214",
        "trim  98 % / 101 %",
        "melt  11 mm3/s / 17 mm3/s",
        "rim  60 / 50",
    )
    assert "/" not in (find_habits(["\n".join(rows)]).comments or ())
