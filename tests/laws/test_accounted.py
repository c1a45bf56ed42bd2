"""Accounted: every rule has a row for every setting that it names, and every changed byte belongs to a row."""

from __future__ import annotations

import pytest
from hypothesis import given

from profilesmith.recipe.cause_words import demand_words
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from tests.laws.layouts import Line
from tests.laws.running import Outcome, law, plain, run
from tests.laws.strategies import Scenario, scenarios

MOVED = ("changed", "added", "follows", "held", "gave way")


@law(60)
@given(scenarios())
def test_every_rule_has_a_row_for_every_setting(scenario: Scenario) -> None:
    outcome = run(scenario)
    rows = [
        (row["cause"]["recipe"], row["cause"]["rule"], row["setting"], row["line"])
        for row in outcome.data["rows"]
        if row["cause"]["kind"] == "rule"
    ]
    wanted = {(name, number, setting) for name, number, rule in scenario.book.rules() for setting in rule.members()}
    assert {row[:3] for row in rows} == wanted
    assert len(rows) == len(set(rows)), "a rule has two rows for one setting and line"
    assert outcome.derivation is not None
    settings = load_vocabulary().settings
    assert all(demand_words(row.cause, settings[row.setting]) for row in outcome.derivation.ledger.rows)


@law(110)
@given(scenarios())
def test_every_changed_byte_belongs_to_a_row(scenario: Scenario) -> None:
    outcome = run(scenario)
    if outcome.problems:
        return
    # match_lines lets only those settings differ whose rows tell of two texts; here those texts are held to the bytes.
    for line, raw in outcome.pieces:
        owners = set().union(*(_row_tells(outcome, slot.setting, line, raw) for slot in line.slots))
        assert raw == line.raw or scenario.page.number(line) in owners, f"no row owns line {scenario.page.number(line)}"
    for setting in outcome.moved:
        movers = [row for row in outcome.data["rows"] if row["setting"] == setting and row["status"] in MOVED]
        assert movers, f"{setting} moved, and no row says by what"
        if movers[0]["status"] in ("follows", "held"):
            slot = outcome.slots()[setting][1]
            assert slot.reference is not None, "only a share can follow or be held"
            assert slot.held is (movers[0]["status"] == "held")
        if movers[0]["status"] == "gave way":
            others = set(outcome.slots()[setting][1].sharers) - {setting}
            assert [name for name in others if outcome.data["derived"][name] is True], "nobody took its key"


def _row_tells(outcome: Outcome, setting: str, line: Line, raw: str) -> set[int]:
    """The lines that rows of a setting claim to have changed; asserts that all of its rows tell the texts as they
    are.
    """
    page = outcome.scenario.page
    twins = [page.number(item) for item in page.lines if any(slot.setting == setting for slot in item.slots)]
    rows = [row for row in outcome.data["rows"] if row["setting"] == setting and row["status"] != "by hand"]
    for row in rows:
        assert (row["old_text"], row["new_text"], row["key"]) == (line.raw, raw, line.key)
        assert row["line"] in twins
    return {row["line"] for row in rows if row["status"] in MOVED}


@law(50)
@given(scenarios())
def test_added_keys_stand_where_rows_say(scenario: Scenario) -> None:
    outcome = run(scenario)
    if outcome.problems:
        return
    lines = outcome.scenario.page.decode(outcome.output).replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for row in outcome.data["rows"]:
        if row["status"] == "added":
            text = lines[row["line"] - 1]
            assert text.strip().startswith(row["key"]), row
            assert text.rstrip().endswith(row["new_text"]), row


LIMIT = "[machine]\nmaximum_bed_temperature = '100 °C'\n"
HOT = "bed = 110\n"
BED = '[[binding]]\nsetting = "bed.temperature"\nkey = "bed"\n'


def test_a_hard_limit_that_moves_a_value_is_named() -> None:
    """A rule that asks for less than the machine's limit: the limit moves the value, and its row says so."""
    derivation = plain(HOT, BED, '[[rule]]\nsetting = "bed.temperature"\ncap = "120 °C"\n', LIMIT)
    assert derivation.outputs == (b"bed = 100\n",)
    movers = [row for row in derivation.review.data["rows"] if row["status"] in MOVED]
    assert [(row["status"], row["cause"]["kind"], row["cause"]["asked"]) for row in movers] == [
        ("changed", "machine limit", [{"operation": "cap", "values": [100]}])
    ]


@pytest.mark.parametrize(
    ("base", "limit", "rules", "out"),
    [
        ("bed = 110\n", "100.5 °C", 'cap = "120 °C"\n', b"bed = 100\n"),
        ("bed = 110;90\n", "100 °C", 'raise_to = "95 °C"\n', b"bed = 100;95\n"),
    ],
    ids=["between two writable numbers", "one of two tools"],
)
def test_a_hard_limit_is_named_wherever_it_moves_a_value(base: str, limit: str, rules: str, out: bytes) -> None:
    """The limit's own number need not be one that the text can hold, and another tool may be moved by a rule."""
    lists = 'tools = true\nlist = ";"\n'
    derivation = plain(
        base, BED + lists, f'[[rule]]\nsetting = "bed.temperature"\n{rules}', LIMIT.replace("100 °C", limit)
    )
    assert derivation.outputs == (out,)
    assert "machine limit" in {row["cause"]["kind"] for row in derivation.review.data["rows"] if row["status"] in MOVED}


def test_an_unanswered_rule_leaves_the_setting_alone_even_past_a_hard_limit() -> None:
    derivation = plain(
        HOT, BED, '[[rule]]\nsetting = "bed.temperature"\nwindow = { fact = "spool.bed_window" }\n', LIMIT
    )
    assert [row["status"] for row in derivation.review.data["rows"]] == ["unanswered"]
    assert derivation.outputs == (HOT.encode(),)
