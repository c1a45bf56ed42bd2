"""Shares whose reference moves: rewritten so that the value stays, or following, as the map or the call says."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.review.cause_reasons import notes_words
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

Derived = Callable[..., Any]
Text = Callable[..., str]
WALL, CORE, FIRST = "outer_wall.speed", "infill.speed", "first_layer.speed"


def rows(made: Any, setting: str) -> list[tuple[str, str]]:
    return [
        (row.status, notes_words(row, load_vocabulary().settings[setting]))
        for row in made.ledger.rows
        if row.setting == setting
    ]


def share(bind: Text, setting: str, key: str, of: str, more: str = "") -> str:
    return bind(setting, key, f'relative_to = "{of}"\n{more}')


@pytest.mark.parametrize(
    ("base", "new", "note"),
    [
        ("a = 80\nb = 50\n", "a = 40\nb = 100\n", ""),  # 40 of 80, 40 of 40
        ("a = 60\nb = 50 %\n", "a = 40\nb = 75 %\n", ""),
        ("a = 60\nb = 0.5 of a\n", "a = 40\nb = 0.75 of a\n", ""),
        ("a = 60\nb = 0.50 x a\n", "a = 40\nb = 0.75 x a\n", ""),
        ("a = 80\nb = 37.5\n", "a = 40\nb = 75.0\n", ""),
        ("a = 48\nb = 62.5\n", "a = 40\nb = 75.0\n", ""),
        ("a = 41\nb = 73\n", "a = 40\nb = 75\n", "as near as its share can say it: 0.07 mm/s more"),
    ],
)
def test_a_share_is_rewritten_so_that_its_value_stays(
    base: str, new: str, note: str, derived: Derived, bind: Text, rule: Text
) -> None:
    made = derived(base, bind(WALL, "a") + share(bind, FIRST, "b", WALL), rule(WALL, 'cap = "40 mm/s"'))
    assert made.outputs[0].decode() == new
    assert rows(made, FIRST) == [("held", note)]


def test_30_of_37_are_81_percent(derived: Derived, bind: Text, rule: Text) -> None:
    """The design's own example, with and without bounds: the nearest on the text's grid that is inside."""
    base, bindings = "a = 60\nb = 50\n", bind(WALL, "a") + share(bind, FIRST, "b", WALL)
    cap = rule(WALL, 'cap = "37 mm/s"')
    for more, new in (
        ("", "81"),
        (rule(FIRST, 'cap = "30 mm/s"'), "81"),
        (rule(FIRST, 'raise_to = "30 mm/s"'), "82"),
        (rule(FIRST, 'window = ["29.99 mm/s", "30.2 mm/s"]'), "81.1"),  # no whole per cent is inside: one more decimal
    ):
        made = derived(base, bindings, cap + more)
        assert made.outputs[0].decode() == f"a = 37\nb = {new}\n"


def test_where_the_old_share_gives_the_wanted_value_no_byte_changes(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = bind(WALL, "a") + share(bind, FIRST, "b", WALL)
    made = derived("a = 80\nb = 50.0\n", bindings, rule(WALL, 'cap = "40 mm/s"') + rule(FIRST, 'cap = "20 mm/s"'))
    assert made.outputs[0].decode() == "a = 40\nb = 50.0\n"
    assert rows(made, FIRST) == [("changed", "")]


def test_scales_count_from_the_base_value(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = bind(WALL, "a") + share(bind, FIRST, "b", WALL)
    made = derived("a = 80\nb = 50\n", bindings, rule(WALL, 'cap = "40 mm/s"') + rule(FIRST, 'scale = "50 %"'))
    assert made.ledger.derived.entries[FIRST].values == (20,)


def test_chains_are_held_from_the_root(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = share(bind, CORE, "c", FIRST) + share(bind, FIRST, "b", WALL) + bind(WALL, "a")
    made = derived("a = 80\nb = 50\nc = 50\n", bindings, rule(WALL, 'cap = "50 mm/s"'))
    assert made.outputs[0].decode() == "a = 50\nb = 80\nc = 50\n"  # 40 of 50, and still 20 of 40
    assert [name for name in (WALL, FIRST, CORE) if rows(made, name)] == [WALL, FIRST]
    made = derived("a = 80\nb = 50\nc = 50\n", bindings, rule(FIRST, 'cap = "25 mm/s"'))
    assert made.outputs[0].decode() == "a = 80\nb = 31\nc = 81\n"  # 24.8 of 80, inside the cap; 20.09 of 24.8


def test_heights_are_held_too_and_more_than_the_whole_is_looked_at_first(
    derived: Derived, bind: Text, rule: Text
) -> None:
    bindings = bind("layer.height", "a") + share(bind, "first_layer.height", "b", "layer.height")
    made = derived("a = 0.2\nb = 120 %\n", bindings, rule("layer.height", 'cap = "0.12 mm"'))
    assert made.outputs[0].decode() == "a = 0.12\nb = 200 %\n"
    assert made.ledger.derived.entries["first_layer.height"].values == (Fraction("0.24"),)
    cautions = [item.text for item in made.review.consequences if item.check == "large-shares"]
    assert len(cautions) == 1
    assert "first_layer.height is now 200 % of layer.height" in cautions[0]


def test_a_share_of_nothing_is_set_by_hand(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = bind("support.gap", "a") + share(bind, "support.side_gap", "b", "support.gap")
    made = derived("a = 0.2\nb = 50\n", bindings, rule("support.gap", 'set = "0 mm"'))
    assert made.outputs[0].decode() == "a = 0.0\nb = 50\n"
    assert [status for status, _ in rows(made, "support.side_gap")] == ["by hand", "follows"]
    assert [(change.setting, change.reasons[0].demand) for change in made.review.by_hand] == [
        ("support.side_gap", "keeps 0.1 mm")
    ]


def test_whole_shares_that_no_bound_leaves_room_for_are_set_by_hand(derived: Derived, bind: Text, rule: Text) -> None:
    """A share written as a byte has steps of 1/255: none of 40 mm/s lies between 30.03 and 30.05 mm/s."""
    bindings = bind(WALL, "a") + share(bind, FIRST, "b", WALL, 'unit = "0-255"')
    rules = rule(WALL, 'cap = "40 mm/s"') + rule(FIRST, 'window = ["30.03 mm/s", "30.05 mm/s"]')
    made = derived("a = 80\nb = 96\n", bindings, rules)
    assert not made.problems
    assert made.outputs[0].decode() == "a = 40\nb = 96\n"
    assert rows(made, FIRST)[0][0] == "by hand"


def test_bounds_that_do_not_meet_stay_a_conflict_on_whole_shares(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = bind(WALL, "a") + share(bind, FIRST, "b", WALL, 'unit = "0-255"')
    made = derived("a = 80\nb = 96\n", bindings, rule(FIRST, 'cap = "20 mm/s"') + rule(FIRST, 'raise_to = "30 mm/s"'))
    assert [problem.code for problem in made.problems] == ["conflict"]


def test_each_tool_against_its_own_reference(derived: Derived, bind: Text, rule: Text) -> None:
    lists = 'tools = true\nlist = "|"\n'
    bindings = bind(WALL, "a", lists) + share(bind, FIRST, "b", WALL, lists)
    made = derived("a = 80|50\nb = 50|60\n", bindings, rule(WALL, 'cap = "40 mm/s"'))
    assert made.outputs[0].decode() == "a = 40|40\nb = 100|75\n"
    assert made.ledger.derived.entries[FIRST].values == (40, 30)


def test_one_share_of_values_that_differ_follows_and_says_so(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = bind(WALL, "a", 'tools = true\nlist = "|"\n') + share(bind, FIRST, "b", WALL)
    made = derived("a = 80|60\nb = 50\n", bindings, rule(WALL, 'scale = "50 %"'))
    assert made.outputs[0].decode() == "a = 40|30\nb = 50\n"
    ((status, note),) = rows(made, FIRST)
    assert status == "follows"
    assert "cannot keep all of them" in note


def test_a_share_of_a_key_that_is_no_setting_never_moves(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = bind(WALL, "a") + bind(FIRST, "b", 'relative_key = "w"')
    made = derived("w = 80\na = 80\nb = 50\n", bindings, rule(WALL, 'cap = "40 mm/s"'))
    assert made.outputs[0].decode() == "w = 80\na = 40\nb = 50\n"
    assert rows(made, FIRST) == []


@pytest.mark.parametrize(
    ("text", "binding", "call", "status"),
    [
        ("", "", "", "held"),
        ("follow", "", "", "follows"),
        ("follow", "keep", "", "held"),
        ("", "follow", "", "follows"),
        ("", "follow", "keep", "held"),
        ("keep", "", "follow", "follows"),
    ],
)
def test_the_call_goes_before_the_binding_and_that_before_the_text(
    text: str, binding: str, call: str, status: str, derived: Derived, bind: Text, rule: Text
) -> None:
    bindings = (f'[text]\nshares = "{text}"\n' if text else "") + bind(WALL, "a")
    bindings += share(bind, FIRST, "b", WALL, f'shares = "{binding}"\n' if binding else "")
    again = derived("a = 80\nb = 50\n", bindings, rule(WALL, 'cap = "40 mm/s"'), shares=call)
    assert [row.status for row in again.ledger.rows if row.setting == FIRST] == [status]
    assert again.outputs[0].decode() == f"a = 40\nb = {'100' if status == 'held' else '50'}\n"


def test_the_review_folds_what_was_held_into_one_line(derived: Derived, bind: Text, rule: Text) -> None:
    from profilesmith.review.render import Look, render

    bindings = bind(WALL, "a") + share(bind, FIRST, "b", WALL) + share(bind, CORE, "c", WALL)
    made = derived("a = 80\nb = 50\nc = 60\n", bindings, rule(WALL, 'cap = "60 mm/s"'))
    words = "Shares rewritten so that their speeds stay"
    counted = {"terminal": f"{words}: 2", "markdown": f"{words} (2)", "page": f"{words}: 2"}
    for form, told in counted.items():
        assert told in " ".join(render(made.review, form, Look(width=400, colour=False, full=False)).split())
    assert "60 → 80" in render(made.review, "terminal", Look(width=400, colour=False, full=True))
    checklist = render(made.review, "checklist")
    assert "**67**" in checklist
    assert "**80**" in checklist
