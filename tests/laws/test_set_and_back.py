"""One value edited: exactly its span differs. Set back: the file is what it was."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import assume, given
from hypothesis import strategies as st

from profilesmith.text.document import Document, Edit, Habits
from profilesmith.text.edit_document import edit_document
from profilesmith.text.read_document import read_document
from tests.laws.demands import Rule
from tests.laws.running import law, run
from tests.laws.spellings import NUMBERS
from tests.laws.strategies import Scenario, scenarios


def change(document: Document, raw: bytes, at: int, new: str) -> bytes:
    """Edit one assignment; asserts that exactly the bytes of its span differ and that every other entry reads the
    same.
    """
    item = document.assignments[at]
    old = document.value(item)
    out = edit_document(document, (Edit(item.start, item.end, new),))
    head = document.codec.encode(document.text[: item.start])
    tail = document.text[item.end :].encode(document.codec.encoding, document.codec.errors)
    assert raw.startswith(head)
    assert raw.endswith(tail)
    assert out == head + new.encode(document.codec.encoding) + tail
    assert len(raw) == len(head) + len(old.encode(document.codec.encoding, document.codec.errors)) + len(tail)
    return out


def and_back(document: Document, raw: bytes, at: int, new: str, habits: Habits) -> None:
    """Change, read again, set back."""
    old = document.value(document.assignments[at])
    out = change(document, raw, at, new)
    again = read_document(out, "again", habits)
    assert len(again.assignments) == len(document.assignments)
    for number, (before, after) in enumerate(zip(document.assignments, again.assignments, strict=True)):
        if old.isascii():  # else the encoding that is found may be another one
            assert (after.section, after.key) == (before.section, before.key)
        if number == at:
            assert again.value(after) == new
        elif old.isascii():
            assert again.value(after) == document.value(before)
    item = again.assignments[at]
    if old.isascii():
        assert edit_document(again, (Edit(item.start, item.end, old),)) == raw


def has_room(document: Document, at: int) -> bool:
    """A blank value right before a comment has no place of its own; such a value is never written."""
    item = document.assignments[at]
    return item.start < item.end or document.text[item.end : item.end + 1].strip() == ""


@law(100)
@given(scenarios(rules=False), st.data())
def test_any_value_of_a_generated_text(scenario: Scenario, data: st.DataObject) -> None:
    told = scenario.page.habits
    habits = Habits(
        tuple(told["comments"]) if "comments" in told else None, told.get("inline_comments"), told.get("delimiter")
    )
    raw = scenario.page.raw
    document = read_document(raw, "base", habits)
    at = data.draw(st.integers(0, len(document.assignments) - 1))
    assume(has_room(document, at))
    new = data.draw(st.sampled_from(("41", "0.5", '"60"', "on", "210,215", "x y")))
    and_back(document, raw, at, new, habits)


@law(50)
@given(scenarios(), st.data())
def test_a_recipe_and_its_reverse(scenario: Scenario, data: st.DataObject) -> None:
    """Set to another number of the text's own steps and set back: the very same file."""
    slots = {name: slot for name, (_, slot) in scenario.page.slots().items() if name in NUMBERS and _one_number(slot)}
    assume(slots)
    setting = data.draw(st.sampled_from(sorted(slots)))
    slot = slots[setting]
    value = slot.read(slot.raw, {})[0]
    _, unit = slot.own(slot.pieces(slot.raw)[0])
    places = len(slot.pieces(slot.raw)[0].partition(slot.decimal)[2])
    other = value + unit.factor * data.draw(st.integers(-3, 3)) / 10 ** min(places, 3)
    known = NUMBERS[setting]
    assume(Fraction(known.low) <= other <= Fraction(known.high))
    bare = replace(scenario, book=replace(scenario.book, facts={}))
    there = run(bare.with_recipes((Rule((setting,), {"set": (other,)}),)))
    back = run(bare.with_recipes((Rule((setting,), {"set": (value,)}),)), there.output)
    assert (there.output != scenario.page.raw) is (other != value)
    assert back.output == scenario.page.raw


def _one_number(slot) -> bool:
    """A bare number in a unit whose values are short decimals of the canonical one."""
    bare = slot.pieces(slot.raw)[0].replace(slot.decimal, "").isdigit()
    return (
        bare
        and not slot.separator
        and slot.reference is None
        and slot.unit in ("", "mm", "mm/s", "%", "C", "deg", "s", "mm/s2", "um", "cm", "K")
    )
