"""One key that holds one of several switches: what lies under a part. Through real texts, since the key is theirs."""

from __future__ import annotations

from collections.abc import Callable
from itertools import permutations
from typing import Any

import pytest

Derived = Callable[..., Any]
Text = Callable[..., str]
RAFT, BRIM, SUPPORT = "raft.on", "brim.on", "support.on"


def bindings(bind: Text, more: str = "") -> str:
    """0 nothing, 2 brim, 3 raft."""
    return bind(BRIM, "under", f'on = "2"\noff = "0"\n{more}') + bind(RAFT, "under", f'on = "3"\noff = "0"\n{more}')


def statuses(made: Any) -> list[tuple[str, str]]:
    return [(row.setting, row.status) for row in made.ledger.rows]


@pytest.mark.parametrize(
    ("text", "rules", "new", "rows"),
    [
        ("0", {RAFT: "on"}, "3", [(RAFT, "changed")]),
        ("2", {RAFT: "on"}, "3", [(RAFT, "changed"), (BRIM, "gave way")]),
        ("3", {RAFT: "on"}, "3", [(RAFT, "kept")]),
        ("3", {RAFT: "off"}, "0", [(RAFT, "changed")]),
        ("2", {RAFT: "off"}, "2", [(RAFT, "kept")]),
        ("2", {RAFT: "on", BRIM: "off"}, "3", [(RAFT, "changed"), (BRIM, "changed")]),
        ("3", {RAFT: "off", BRIM: "off"}, "0", [(RAFT, "changed"), (BRIM, "kept")]),
        ("3", {RAFT: "off", BRIM: "on"}, "2", [(RAFT, "changed"), (BRIM, "changed")]),
        ("1", {RAFT: "off"}, "1", [(RAFT, "kept")]),  # a kind that no binding owns stays until one is turned on
        ("1", {RAFT: "on"}, "3", [(RAFT, "changed")]),
    ],
)
def test_a_key_turns_its_own_switch_on_and_the_others_off(
    text: str,
    rules: dict[str, str],
    new: str,
    rows: list[tuple[str, str]],
    derived: Derived,
    bind: Text,
    rule: Text,
) -> None:
    for order in permutations(rules):
        asked = "".join(rule(name, f'set = "{rules[name]}"') for name in order)
        made = derived(f"a = 1\nunder = {text} ; here\n", bindings(bind), asked)
        assert made.outputs[0].decode() == f"a = 1\nunder = {new} ; here\n"
        assert sorted(statuses(made)) == sorted(rows)


def test_two_rules_that_want_two_of_them_are_a_conflict_that_names_the_key(
    derived: Derived, bind: Text, rule: Text
) -> None:
    for text in "023":  # even where one is met already
        made = derived(f"under = {text}\n", bindings(bind), rule(RAFT, 'set = "on"') + rule(BRIM, 'set = "on"'))
        assert [problem.code for problem in made.problems] == ["conflict"]
        assert all(word in made.problems[0].message for word in ("'under'", "rule 1", "rule 2", RAFT, BRIM))
        assert made.outputs == ()
        assert "change rules1.toml:10 or rules1.toml:5" in made.problems[0].hint
        assert (made.problems[0].place.file, made.problems[0].place.line) == ("rules1.toml", 10)
        assert [status for _, status in statuses(made)] == ["refused", "refused"]


def test_one_switch_that_is_asked_both_ways_changes_nothing(derived: Derived, bind: Text, rule: Text) -> None:
    both = rule(RAFT, 'set = "on"') + rule(RAFT, 'set = "off"')
    for text in "023":
        made = derived(f"under = {text}\n", bindings(bind), both + rule(BRIM, 'set = "off"'))
        assert [problem.code for problem in made.problems] == ["conflict"]
        assert made.ledger.derived.entries == made.ledger.base.entries
        assert sorted(statuses(made)) == [(RAFT, "refused"), (RAFT, "refused")]


def test_a_rule_that_sets_counts_beside_one_that_aims_at_the_same(derived: Derived, bind: Text, rule: Text) -> None:
    aim, both = rule(RAFT, 'aim = "on"'), rule(RAFT, 'set = "on"') + rule(BRIM, 'set = "on"')
    for rules in (aim + both, both + aim):
        assert [problem.code for problem in derived("under = 0\n", bindings(bind), rules).problems] == ["conflict"]


@pytest.mark.parametrize(
    ("raft", "brim", "new", "rows"),
    [
        ("set", "aim", "3", [(RAFT, "changed"), (BRIM, "overruled")]),
        ("aim", "set", "2", [(RAFT, "overruled"), (BRIM, "changed")]),
        ("aim", "aim", "2", [(RAFT, "overruled"), (BRIM, "changed")]),  # of aims the later one counts
    ],
)
def test_an_aim_gives_way(
    raft: str, brim: str, new: str, rows: list[tuple[str, str]], derived: Derived, bind: Text, rule: Text
) -> None:
    made = derived("under = 0\n", bindings(bind), rule(RAFT, f'{raft} = "on"'), rule(BRIM, f'{brim} = "on"'))
    assert made.outputs[0].decode() == f"under = {new}\n"
    assert statuses(made) == rows


def test_an_absent_key_is_added_for_the_wanted_one(derived: Derived, bind: Text, rule: Text) -> None:
    base = "a = 1\n"
    more = bind("travel.speed", "a") + bindings(bind, "add = true")
    made = derived(base, more, rule(RAFT, 'set = "on"'))
    assert made.outputs[0].decode() == "a = 1\nunder = 3\n"
    assert {name: entry.value for name, entry in made.ledger.derived.entries.items() if name != "travel.speed"} == {
        RAFT: True,
        BRIM: False,
    }
    assert sorted(statuses(made)) == [(BRIM, "added"), (RAFT, "added")]
    assert {row.setting: row.cause.kind for row in made.ledger.rows} == {RAFT: "rule", BRIM: "added key"}
    made = derived(base, more, rule(RAFT, 'set = "off"'))
    assert made.outputs[0].decode() == "a = 1\nunder = 0\n"
    made = derived(base, more, rule(RAFT, 'set = "on"') + rule(RAFT, 'aim = "off"') + rule(BRIM, 'aim = "on"'))
    assert made.outputs[0].decode() == "a = 1\nunder = 3\n"
    assert [(row.setting, row.cause.rule, row.status) for row in made.ledger.rows] == [
        (RAFT, 1, "added"),
        (RAFT, 2, "overruled"),
        (BRIM, 3, "overruled"),
        (BRIM, 0, "added"),
    ]
    assert [[note.code for note in row.notes] for row in made.ledger.rows] == [[], ["other value"], ["key taken"], []]
    asks = '[inputs.lie]\nkind = "choice"\nvalues = ["on", "off"]\nask = "Raft?"\n'
    made = derived(base, more, asks + rule(RAFT, 'set = "on"', 'when = { "input.lie" = "on" }'))
    assert made.outputs[0].decode() == base
    assert statuses(made) == [(RAFT, "unanswered")]
    made = derived(base, bind("travel.speed", "a") + bindings(bind), rule(RAFT, 'set = "on"'))
    assert statuses(made) == [(RAFT, "by hand")]


def test_each_tool_has_its_own(derived: Derived, bind: Text, rule: Text) -> None:
    lists = 'tools = true\nlist = "|"'
    made = derived("under = 2|0|3|1\n", bindings(bind, lists), rule(RAFT, 'set = "on"'))
    assert made.outputs[0].decode() == "under = 3|3|3|3\n"
    made = derived("under = 2|0|3|1\n", bindings(bind, lists), rule(RAFT, 'set = "off"'))
    assert made.outputs[0].decode() == "under = 2|0|0|1\n"


def test_lines_that_say_it_twice_change_together(derived: Derived, bind: Text, rule: Text) -> None:
    made = derived("under = 2\nunder = 2\n", bindings(bind), rule(RAFT, 'set = "on"'))
    assert made.outputs[0].decode() == "under = 3\nunder = 3\n"
    assert statuses(made) == [(RAFT, "changed"), (RAFT, "changed"), (BRIM, "gave way"), (BRIM, "gave way")]


def test_a_text_that_no_binding_owns_is_told_once(derived: Derived, bind: Text, rule: Text) -> None:
    made = derived("under = 1\n", bindings(bind), rule(RAFT, 'set = "off"'))
    told = [note for note in made.review.notes if "'1'" in note]
    assert len(told) == 1
    assert "overwritten" in told[0]
    made = derived("under = 2\n", bindings(bind), rule(RAFT, 'set = "off"'))
    assert not [note for note in made.review.notes if "'2'" in note]


def test_what_gave_way_is_told_in_every_form(derived: Derived, bind: Text, rule: Text) -> None:
    from profilesmith.review.render import Look, render

    made = derived("under = 2\n", bindings(bind), rule(RAFT, 'set = "on"'))
    for form in ("terminal", "markdown", "page", "checklist"):
        shown = " ".join(render(made.review, form, Look(width=400, full=True)).split())
        assert "not both" in shown, form


def test_a_brim_that_gave_way_is_no_contradiction(derived: Derived, bind: Text, rule: Text) -> None:
    made = derived("under = 2\n", bindings(bind), rule(RAFT, 'set = "on"'))
    assert "Raft and brim are both on" not in [item.title for item in made.review.consequences]


def test_a_number_as_switch_needs_no_texts(derived: Derived, bind: Text, rule: Text) -> None:
    """Off is 0; on is asked for only where it has to be written and nothing else says the number."""
    lines = bind(SUPPORT, "props", 'on_when = "> 0"')
    made = derived("props = 2\n", lines, rule(SUPPORT, 'set = "off"'))
    assert made.outputs[0].decode() == "props = 0\n"
    made = derived("props = 2\n", lines, rule(SUPPORT, 'set = "on"'))
    assert (made.problems, made.outputs[0].decode()) == ((), "props = 2\n")
    made = derived("props = 0\n", lines, rule(SUPPORT, 'set = "on"'))
    assert [problem.code for problem in made.problems] == ["no-text-for-on"]
    assert 'on = "..."' in made.problems[0].hint


def test_the_number_that_is_bound_too_may_say_what_on_is(derived: Derived, bind: Text, rule: Text) -> None:
    lines = bind(RAFT, "pads", 'on_when = "> 0"') + bind("raft.layers", "pads")
    on = rule(RAFT, 'set = "on"')
    made = derived("pads = 0\n", lines, on + rule("raft.layers", 'raise_to = "3"'))
    assert made.outputs[0].decode() == "pads = 3\n"
    for more in ("", rule("raft.layers", 'cap = "5"')):
        made = derived("pads = 0\n", lines, on + more)
        assert [problem.code for problem in made.problems] == ["no-text-for-on"]
    made = derived("pads = 2\n", lines, rule(RAFT, 'set = "off"'))
    assert made.outputs[0].decode() == "pads = 0\n"


def test_a_number_that_is_a_switch_does_not_turn_it_off_by_the_way(derived: Derived, bind: Text, rule: Text) -> None:
    """A cap on the layers is no wish to print without the raft."""
    lines = bind(RAFT, "pads", 'on_when = "> 0"') + bind("raft.layers", "pads")
    made = derived("pads = 3\n", lines, rule("raft.layers", 'cap = "0"'))
    assert [problem.code for problem in made.problems] == ["hard-limit"]
    assert "raft.on" in made.problems[0].message
    made = derived("pads = 3\n", lines, rule("raft.layers", 'cap = "1"'))
    assert made.outputs[0].decode() == "pads = 1\n"
    below = bind(RAFT, "pads", 'on_when = "< 5"\noff = "9"') + bind("raft.layers", "pads")
    made = derived("pads = 3\n", below, rule("raft.layers", 'cap = "1"'))
    assert (made.problems, made.outputs[0].decode()) == ((), "pads = 1\n")


def test_a_choice_without_an_entry_is_told_with_the_line_to_add(derived: Derived, bind: Text, rule: Text) -> None:
    lines = bind("infill.pattern", "fill", 'choices = { grid = "1" }') + bind(RAFT, "pad")
    made = derived("fill = 9\npad = 0\n", lines, rule(RAFT, 'set = "on"'))
    told = [note for note in made.review.notes if "'9'" in note]
    assert len(told) == 1
    assert 'choices = { ... = "9" }' in told[0]
    assert "gyroid" in told[0]
    assert not [note for note in derived("fill = 1\npad = 0\n", lines).review.notes if "choices" in note]


def test_a_hand_edit_of_such_a_key_is_carried_over(
    program: Callable[..., Any], tmp_path: Any, monkeypatch: pytest.MonkeyPatch, bind: Text, rule: Text
) -> None:
    monkeypatch.chdir(tmp_path)
    head = 'format = 1\n[recipe]\nname = "laid"\nversion = "1.0.0"\n'
    (tmp_path / "map.toml").write_text("format = 1\n" + bindings(bind) + bind("infill.speed", "core"))
    (tmp_path / "laid.toml").write_text(head + rule(RAFT, 'set = "on"'))
    (tmp_path / "base.cfg").write_text("core = 80\nunder = 2\n")
    assert program(*["derive", "base.cfg", "--keymap", "map.toml", "--recipe", "laid.toml", "-o", "out.cfg"]).code == 0
    assert (tmp_path / "out.cfg").read_text() == "core = 80\nunder = 3\n"
    (tmp_path / "out.cfg").write_text("core = 80\nunder = 2\n")  # by hand: a brim after all
    (tmp_path / "new.cfg").write_text("core = 90\nunder = 2\n")
    ran = program(*["rederive", "out.cfg", "--onto", "new.cfg", "-o", "again.cfg"])
    assert ran.code in (0, 1), ran.err
    assert (tmp_path / "again.cfg").read_text() == "core = 90\nunder = 2\n"
    assert "gave way" not in ran.out
