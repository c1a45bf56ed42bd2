"""Nothing silent: a rule without a key, an open question, an unknown key, two lines for one key are all named."""

from __future__ import annotations

import re
from dataclasses import replace

from hypothesis import assume, given
from hypothesis import strategies as st

from profilesmith.text.read_document import read_document
from tests.laws.running import law, run
from tests.laws.strategies import Scenario, scenarios


@law(50)
@given(scenarios())
def test_a_rule_without_a_key_is_named(scenario: Scenario) -> None:
    outcome = run(scenario)
    assert outcome.derivation is not None
    here = set(outcome.slots()) | {row["setting"] for row in outcome.data["rows"] if row["status"] == "added"}
    told = outcome.told()
    for name, number, rule in scenario.book.rules():
        for setting in set(rule.members()) - here:
            row = next(
                row
                for row in outcome.data["rows"]
                if (row["cause"].get("recipe"), row["cause"].get("rule"), row["setting"]) == (name, number, setting)
            )
            assert row["status"] in ("by hand", "unanswered", "does not apply", "overruled", "refused"), row
            if row["status"] == "by hand":
                assert row["notes"], "it does not say why"
                assert all(setting in text for text in told)


@law(50)
@given(scenarios())
def test_a_question_without_an_answer_is_asked(scenario: Scenario) -> None:
    facts = {name: text for name, text in scenario.book.facts.items() if not name.startswith("part")}
    asking = [
        tuple(replace(rule, when={**rule.when, "part.coating": "elastic"}) for rule in rules)
        for rules in scenario.book.recipes
    ]
    outcome = run(replace(scenario, book=replace(scenario.book, facts=facts, recipes=tuple(asking))))
    told = outcome.told()
    live = [(name, number) for name, number, rule in scenario.book.rules() if rule.live(facts) is not False]
    for name, number in live:
        rows = [
            row
            for row in outcome.data["rows"]
            if (row["cause"].get("recipe"), row["cause"].get("rule")) == (name, number)
        ]
        assert rows
        assert all(row["status"] == "unanswered" and row["question"] for row in rows)
        for row in rows:
            asked = row["question"].get("text", row["question"]["name"])
            assert asked
            assert all(" ".join(asked.split()) in text for text in told)


@law(50)
@given(scenarios())
def test_keys_that_the_map_does_not_know_are_named(scenario: Scenario) -> None:
    outcome = run(scenario)
    assert outcome.derivation is not None
    page = scenario.page
    roles = {"unknown", "twin"} | (
        {"reference"} if not any("relative_key" in binding for binding in page.bindings) else set()
    )
    unknown = [(page.number(line), line.key) for line in page.lines if line.role in roles]
    assert [(item["line"], item["key"].split("] ", 1)[-1]) for item in outcome.data["unmapped"]] == unknown
    assert [line.line for line in outcome.derivation.review.unmapped] == [number for number, _ in unknown]
    for text in outcome.told():
        assert all(re.search(rf"base\.cfg:{number}\b", text) for number, _ in unknown)


@law(50)
@given(scenarios(rules=False), st.data())
def test_two_lines_that_claim_one_key_are_named(scenario: Scenario, data: st.DataObject) -> None:
    """Equal ones in the review; unequal ones refuse, with both lines, unless the map says which counts."""
    page = scenario.page
    lines = [line for line in page.lines if line.role == "setting"]
    line = data.draw(st.sampled_from(lines))
    claims = [item for item in page.lines if item.key == line.key and item.section == line.section]
    outcome = run(scenario)
    if len(claims) > 1:
        numbers = [page.number(item) for item in claims]
        note = next(note for note in outcome.derivation.review.notes if repr(line.key) in note)
        assert all(str(number) in note for number in numbers)
    assume(page.habits.get("duplicates") is None)
    at = next(at for at, item in enumerate(page.lines) if item is line)
    other = replace(line, raw="17.25", end=line.end or "\n", role="twin", slots=())
    changed = replace(page, lines=(*page.lines[:at], other, *page.lines[at:]))
    refused = run(replace(scenario, page=changed), refusable=True).refused
    problem = next(problem for problem in refused if problem.code == "two-lines")
    named = [int(number) for number in re.findall(r"base\.cfg:(\d+) ", problem.message)]
    assert repr(line.key) in problem.message
    assert changed.number(changed.lines[at]) in named
    assert len(set(named)) == 2


def test_a_colour_is_no_comment() -> None:
    """``#ff0000`` behind the delimiter is a value; only a mark with a blank behind it looks like a comment there."""
    texts = [
        read_document(raw)
        for raw in (b"tint = #ff0000\nring = 3\n", b"tint=#ff0000\nring=3\n", b"tint = # none\nring = 3\n")
    ]
    assert [text.value(text.assignments[0]) for text in texts] == ["#ff0000", "#ff0000", ""]
