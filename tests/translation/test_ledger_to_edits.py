"""Derived values into the text: which bytes are replaced, which lines are added, what the rows say of it."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

Derived = Callable[..., Any]
Text = Callable[..., str]


def row(made: Any, setting: str) -> Any:
    return next(
        row
        for row in made.ledger.rows
        if row.setting == setting and row.status in ("changed", "added", "by hand", "follows")
    )


def test_only_the_tool_that_changed_is_written(derived: Derived, bind: Text, rule: Text) -> None:
    made = derived(
        'v = "80.0", 35 ,90\n',
        bind("outer_wall.speed", "v", "tools = true"),
        rule("outer_wall.speed", 'cap = "40 mm/s"'),
    )
    assert made.outputs[0] == b'v = "40.0", 35 ,40\n'
    assert (row(made, "outer_wall.speed").old_text, row(made, "outer_wall.speed").new_text) == (
        '"80.0", 35 ,90',
        '"40.0", 35 ,40',
    )


def test_a_share_is_written_as_a_share(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = bind("outer_wall.speed", "a") + bind("infill.speed", "b", 'relative_to = "outer_wall.speed"')
    assert (
        derived("a = 80\nb = 110 %\n", bindings, rule("infill.speed", 'cap = "40 mm/s"')).outputs[0]
        == b"a = 80\nb = 50 %\n"
    )
    follow = '[text]\nshares = "follow"\n'
    made = derived("a = 80\nb = 50\n", follow + bindings, rule("outer_wall.speed", 'cap = "40 mm/s"'))
    assert made.outputs[0] == b"a = 40\nb = 50\n"
    assert (row(made, "infill.speed").status, row(made, "infill.speed").derived) == ("follows", (20,))


def test_a_share_rounds_to_the_inside(derived: Derived, bind: Text, rule: Text) -> None:
    """40 of 70 are 57.142857... %: 57 % is inside, 58 % is past; to a decimal, 57.1 % and 57.2 %."""
    for way, shares in (("keep", ("57", "58")), ("follow", ("57.1", "57.2"))):
        more = f'relative_to = "outer_wall.speed"\nshares = "{way}"'
        bindings = bind("outer_wall.speed", "a") + bind("infill.speed", "b", more)
        for base, asked, share in (("100", "cap", shares[0]), ("10", "raise_to", shares[1])):
            made = derived(f"a = 70\nb = {base}\n", bindings, rule("infill.speed", f'{asked} = "40 mm/s"'))
            assert made.outputs[0].decode() == f"a = 70\nb = {share}\n"


@pytest.mark.parametrize("more", ['relative_to = "support.gap"', 'relative_key = "a"'])
def test_a_share_of_nothing_is_left_to_the_person(more: str, derived: Derived, bind: Text, rule: Text) -> None:
    bindings = ("" if "key" in more else bind("support.gap", "a")) + bind("support.side_gap", "b", more)
    made = derived("a = 0\nb = 50\n", bindings, rule("support.side_gap", 'raise_to = "0.2 mm"'))
    assert made.outputs[0] == b"a = 0\nb = 50\n"
    assert row(made, "support.side_gap").status == "by hand"


@pytest.mark.parametrize(
    ("text", "more", "new"),
    [
        ("t = 1\n", "", "t = 1\nk = 1\n"),
        ("t=1\r\n", "", "t=1\r\nk=1\r\n"),
        ("[a]\nt = 1\n[b]\nx = 2\n", 'section = "a"', "[a]\nt = 1\nk = 1\n[b]\nx = 2\n"),
        ("[a]\nt = 1\n", "", "[a]\nt = 1\nk = 1\n"),
        ("t = 1\n", 'section = "n"', "t = 1\n[n]\nk = 1\n"),
        ("t = 1\n", 'on = "3"\noff = "0"', "t = 1\nk = 3\n"),
    ],
)
def test_a_key_is_added_where_the_map_allows_it(
    text: str, more: str, new: str, derived: Derived, bind: Text, rule: Text
) -> None:
    made = derived(
        text, bind("raft.on", "k", f"add = true\n{more}") + bind("travel.speed", "t"), rule("raft.on", 'set = "on"')
    )
    assert made.outputs[0].decode() == new
    added = row(made, "raft.on")
    assert added.status == "added"
    assert new.split("\r\n" if "\r" in new else "\n")[added.line - 1].startswith("k")


def test_an_added_number_is_in_the_maps_unit(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = (
        bind("layer.height", "h", 'unit = "um"\nadd = true')
        + bind("support.overhang_angle", "l", 'angle_from = "horizontal"\nadd = true')
        + bind("travel.speed", "t")
    )
    made = derived(
        "t = 150\n",
        bindings,
        rule("layer.height", 'set = "0.12 mm"') + rule("support.overhang_angle", 'set = "50 deg"'),
    )
    assert made.outputs[0] == b"t = 150\nh = 120\nl = 40\n"


def test_without_leave_nothing_is_added(derived: Derived, bind: Text, rule: Text) -> None:
    made = derived(
        "t = 150\n",
        bind("raft.on", "k") + bind("travel.speed", "t"),
        rule("raft.on", 'set = "on"') + rule("brim.on", 'set = "off"'),
    )
    assert made.outputs[0] == b"t = 150\n"
    assert [(row(made, name).status, row(made, name).derived) for name in ("raft.on", "brim.on")] == [
        ("by hand", (True,)),
        ("by hand", (False,)),
    ]
    assert [note.code for note in row(made, "raft.on").notes] == ["key missing"]
    assert row(made, "raft.on").notes[0].names[0] == "k"
    assert [note.code for note in row(made, "brim.on").notes] == ["no binding"]


def test_two_keys_of_a_new_section_share_its_heading(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = (
        bind("raft.on", "k", 'section = "n"\nadd = true')
        + bind("brim.on", "l", 'section = "n"\nadd = true')
        + bind("travel.speed", "t")
    )
    made = derived("t = 150\n", bindings, rule("raft.on", 'set = "on"') + rule("brim.on", 'set = "on"'))
    assert made.outputs[0].decode().count("[n]") == 1


def test_a_switch_that_is_a_number_is_written_by_the_number(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = bind("raft.on", "k", 'on_when = "> 0"\non = "3"\noff = "0"') + bind("raft.layers", "k")
    assert derived("k = 0\n", bindings, rule("raft.on", 'set = "on"')).outputs[0] == b"k = 3\n"
    assert (
        derived("k = 0\n", bindings, rule("raft.on", 'set = "on"') + rule("raft.layers", 'cap = "2"')).outputs[0]
        == b"k = 2\n"
    )
    assert derived("k = 5\n", bindings, rule("raft.on", 'set = "on"')).outputs[0] == b"k = 5\n"
    assert derived("k = 5\n", bindings, rule("raft.on", 'set = "off"')).outputs[0] == b"k = 0\n"


def test_a_letter_that_the_encoding_lacks_is_refused(derived: Derived, bind: Text, rule: Text) -> None:
    from profilesmith.foundation.problem import Refused

    base = "k = 0 \xb0\nnote = gr\xfcn\n".encode("cp1252")
    with pytest.raises(Refused) as refused:
        derived(
            base, bind("infill.pattern", "k", 'choices = { gyroid = "螺旋" }'), rule("infill.pattern", 'set = "gyroid"')
        )
    assert [problem.code for problem in refused.value.problems] == ["encoding"]


def test_what_cannot_be_held_exactly_is_the_nearest_and_says_so(derived: Derived, bind: Text, rule: Text) -> None:
    """20 % of 255 are 51; 50 % are 127.5, which a whole byte cannot hold."""
    made = derived("k = 255\n", bind("fan.power", "k", 'unit = "0-255"'), rule("fan.power", 'cap = "50 %"'))
    assert made.outputs[0] == b"k = 127\n"
    assert made.ledger.derived.number("fan.power") == Fraction(12700, 255)


def test_adding_what_another_value_is_a_share_of(derived: Derived, bind: Text, rule: Text) -> None:
    """The share of a missing setting has no value; with the setting added it has one. The ledger must know of it."""
    bindings = (
        bind("outer_wall.speed", "a", "add = true")
        + bind("infill.speed", "b", 'relative_to = "outer_wall.speed"')
        + bind("travel.speed", "t")
    )
    made = derived("b = 50\nt = 150\n", bindings, rule("outer_wall.speed", 'set = "40 mm/s"'))
    assert made.problems == ()
    assert row(made, "outer_wall.speed").status in ("added", "by hand")


WALL, CORE = "outer_wall.speed", "infill.speed"


def test_what_a_new_number_cannot_show_is_told(derived: Derived, bind: Text, rule: Text) -> None:
    """Set back by hand, the old text would be spelled otherwise: whoever compares files must know why."""
    lines = bind(WALL, "a") + bind(CORE, "b")
    made = derived("a = 080\nb = 80\n", lines, rule(WALL, 'set = "1000 mm/s"') + rule(CORE, 'set = "1000 mm/s"'))
    notes = {row.setting: [(note.code, note.names) for note in row.notes] for row in made.ledger.rows}
    assert notes == {WALL: [("style", ("080", "1000", "zeros"))], CORE: []}


@pytest.mark.parametrize(
    ("base", "text"),
    [
        ("a = true\n", "false"),
        ("a = Yes\n", "No"),
        ("a = 1\n", "0"),
        ("a = off\nc = true\n", "off"),  # the first switch that a reader meets
        ("a = disabled\n", "disabled"),
    ],
)
def test_an_added_switch_is_written_in_the_words_of_the_text(
    base: str, text: str, derived: Derived, bind: Text, rule: Text
) -> None:
    lines = bind("support.on", "a") + bind("raft.on", "b", "add = true")
    made = derived(base, lines, rule("raft.on", 'set = "off"'))
    assert made.outputs[0].decode() == f"{base}b = {text}\n"


def test_an_added_key_s_line_counts_what_changed_above_it(derived: Derived, bind: Text, rule: Text) -> None:
    """A ledger that points at the line below sends whoever looks for it to another setting."""
    lines = bind(WALL, "a", 'section = "x"') + bind("wall.count", "c", 'section = "x"\nadd = true') + bind(CORE, "b")
    asks = rule(WALL, 'cap = "4 mm/s"') + rule("wall.count", 'set = "3"')
    made = derived("[x]\na = 10000000\n[y]\nb = 1\n".replace("10000000", "500"), lines, asks)
    text = made.outputs[0].decode()
    (row,) = [row for row in made.ledger.rows if row.setting == "wall.count"]
    assert text.splitlines()[row.line - 1] == "c = 3"
    assert (row.line, row.file, row.key, row.section, row.old_text, row.new_text) == (3, "base.cfg", "c", "x", "", "3")


def test_of_two_files_the_one_with_the_section_gets_the_key(
    read_text: Callable[..., Any], read_recipe: Callable[..., Any], bind: Text
) -> None:
    lines = bind(WALL, "a", 'section = "x"') + bind(CORE, "b", 'section = "y"')
    recipe, _ = read_recipe('[[rule]]\nsetting = "wall.count"\nset = "3"\n')
    vocabulary = load_vocabulary()
    for section, home, line in (("x", 0, 3), ("y", 1, 3), ("z", 0, 4)):
        more = bind("wall.count", "c", f'section = "{section}"\nadd = true')
        translation = read_text(lines + more, "[x]\na = 60\n", "[y]\nb = 50\n")
        ledger = apply_recipes(translation.profile, [recipe], {}, {}, vocabulary)
        written = write_ledger(ledger, translation, vocabulary)
        assert [len(edits) for edits in written.edits] == [int(home == 0), int(home == 1)]
        (row,) = written.ledger.rows
        assert (row.file, row.line, row.section) == (f"base{home + 1}.cfg", line, section)


def test_each_further_line_of_a_key_has_a_row_where_it_changes(derived: Derived, bind: Text, rule: Text) -> None:
    made = derived("a = 60\nb = 1\na = 60\na = 60\n", bind(WALL, "a"), rule(WALL, 'cap = "40 mm/s"'))
    assert made.outputs[0].decode() == "a = 40\nb = 1\na = 40\na = 40\n"
    rows = [(row.line, row.old_text, row.new_text, [note.code for note in row.notes]) for row in made.ledger.rows]
    assert rows == [(1, "60", "40", []), (3, "60", "40", ["further line"]), (4, "60", "40", ["further line"])]
    made = derived("a = 30\na = 30\n", bind(WALL, "a"), rule(WALL, 'cap = "40 mm/s"'))
    assert [(row.line, row.status) for row in made.ledger.rows] == [(1, "kept")]  # nothing changes in the second


def test_two_settings_in_one_value_show_the_same_new_text(derived: Derived, bind: Text, rule: Text) -> None:
    lines = "".join(
        bind(name, "t", f'split = "/"\nfield = {number}')
        for number, name in enumerate(("nozzle.temperature", "bed.temperature"), 1)
    )
    hot = rule("nozzle.temperature", 'set = "210 °C"')
    made = derived("t = 200/60\n", lines, hot + rule("bed.temperature", 'cap = "50 °C"'))
    assert made.outputs[0].decode() == "t = 210/50\n"
    assert [(row.old_text, row.new_text) for row in made.ledger.rows] == [("200/60", "210/50")] * 2
    made = derived("t = 200/60\n", lines, hot + rule("bed.temperature", 'cap = "70 °C"'))
    assert [(row.status, row.new_text) for row in made.ledger.rows] == [("changed", "210/60"), ("kept", "210/60")]
