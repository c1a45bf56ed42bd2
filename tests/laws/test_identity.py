"""Identity: no rules, no change. The exported bytes are the imported bytes, for any bytes at all."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from profilesmith.text.document import Habits
from profilesmith.text.edit_document import edit_document
from profilesmith.text.read_document import read_document
from tests.laws.running import law, run
from tests.laws.strategies import Scenario, any_bytes, scenarios

HABITS = st.builds(
    Habits,
    st.sampled_from((None, (), ("#",), ("//", ";"), ("(", "  "), ("|", ";"))),
    st.sampled_from((None, True, False)),
    st.sampled_from((None, "=", ":", " ", "  ", "|", ";")),
    st.sampled_from(((), (), (":",), ("->", "  "), (" 0",), ("..", "\t", " "))),
    st.sampled_from(((), ("== name ==",), ("name",), ("name:", "# name", "(name)"))),
    st.sampled_from(("", "", "  ", ";")),
    st.booleans(),
    st.sampled_from(
        ((), (), (), ("{number} {key};{value}", "{key}={value}"), ("- {key}  {value} {any}", "{key}:{value}"))
    ),
)


@law(400)
@given(any_bytes(), HABITS)
@example(b"", Habits())
@example(b"\xff\xfe\x00", Habits())  # half a character of UTF-16
@example(b"\xff\xfe\x00\xd8a\x00=\x00", Habits())  # a lone surrogate
@example(b"a=\xe4\nb=\xc3\xa4", Habits())  # two encodings in one text
@example(b"\xef\xbb\xbf\xef\xbb\xbfa=1", Habits())  # two marks
def test_any_bytes_come_out_as_they_went_in(raw: bytes, habits: Habits) -> None:
    assert edit_document(read_document(raw, "any", habits), ()) == raw


@law(400)
@given(any_bytes(), HABITS)
def test_spans_of_any_bytes_stand_in_order_inside_the_text(raw: bytes, habits: Habits) -> None:
    document = read_document(raw, "any", habits)
    at = 0
    for item in document.assignments:
        assert at <= item.start <= item.end <= len(document.text)
        assert item.key
        assert item.key == item.key.strip(" \t")
        line_start = max(document.text.rfind("\n", 0, item.start), document.text.rfind("\r", 0, item.start)) + 1
        assert item.line == document.line_at(line_start)
        behind = re.split(r"[\r\n]", document.text[item.end :])[0]
        backward = habits.value_first and not habits.lines
        assert item.key in (behind if backward else document.text[line_start : item.start])
        at = item.end
    assert all(0 <= line.start <= line.end <= len(document.text) for line in document.unread)


@law(50)
@given(scenarios(rules=False))
def test_a_generated_text_without_recipes_stays(scenario: Scenario) -> None:
    outcome = run(scenario)
    assert outcome.output == scenario.page.raw
    assert outcome.data["rows"] == []
    assert outcome.data["patch"] == []
    assert outcome.data["base"] == outcome.data["derived"] != {}


@law(50)
@given(scenarios())
def test_rules_whose_facts_are_unknown_change_nothing(scenario: Scenario) -> None:
    """A condition that is not known leaves the setting alone."""
    waiting = [
        tuple(replace(rule, when={"part.coating": "elastic"}) for rule in rules) for rules in scenario.book.recipes
    ]
    facts = {name: text for name, text in scenario.book.facts.items() if name != "part.coating"}
    scenario = replace(scenario, book=replace(scenario.book, recipes=tuple(waiting), facts=facts))
    outcome = run(scenario)
    assert outcome.output == scenario.page.raw
    assert {row["status"] for row in outcome.data["rows"]} == {"unanswered"}


@pytest.mark.parametrize("raw", [b"a = 1", b"a=1\r\nb=2\r", "größe = 5".encode("cp1252"), "ä=1".encode("utf-16")])
def test_reading_finds_something_in_plain_texts(raw: bytes) -> None:
    """The laws above would hold for a reader that finds nothing."""
    assert read_document(raw, "plain").assignments
