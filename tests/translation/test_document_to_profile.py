"""Texts through a map to a profile: sections, several lines for one key, shares of shares, several base files."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.profile.profile import absent_words
from profilesmith.review.reading_notes import departure_words

ReadText = Callable[..., Any]
Bind = Callable[..., str]


def values(translation: Any) -> dict[str, Any]:
    return {
        name: entry.values[0] if len(entry.values) == 1 else entry.values
        for name, entry in translation.profile.entries.items()
    }


def codes(translation: Any) -> list[str]:
    return [problem.code for problem in translation.problems]


@pytest.mark.parametrize(
    ("more", "text", "value"),
    [
        ('section = "b"', "k = 1\n[a]\nk = 2\n[b]\nk = 3\n", 3),
        ('section = ""', "k = 1\n[a]\nk = 2\n", 1),
        ("", "[a]\nk = 2\n", 2),
        ("", "k = 1\n[a]\nk = 2\n", 1),
        ('section = "c"', "k = 1\n", None),
        ('section = "a"', "[a]\nx = 9\n[b]\ny = 1\n[a]\nk = 4\n", 4),
    ],
)
def test_sections(more: str, text: str, value: int | None, read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("outer_wall.speed", "k", more) + bind("travel.speed", "t"), text + "[z]\nt = 150\n")
    assert found.profile.number("outer_wall.speed") == value
    assert found.problems == ()


@pytest.mark.parametrize(
    ("policy", "text", "value", "lines"),
    [
        ('duplicates = "last"', "k = 60\nk = 90\n", 90, [2]),
        ('duplicates = "first"', "k = 60\nk = 90\n", 60, [1]),
        ("", "k = 60\nx = 1\nk = 60\n", 60, [1, 3]),
        ('duplicates = "last"', "k = 60\nk = 60\n", 60, [2]),
    ],
)
def test_which_line_counts(
    policy: str, text: str, value: int, lines: list[int], read_text: ReadText, bind: Bind
) -> None:
    found = read_text(f"[text]\n{policy}\n" + bind("outer_wall.speed", "k"), text)
    assert found.profile.number("outer_wall.speed") == value
    assert [spot.assignment.line for spot in found.spots["outer_wall.speed"].lines] == lines


def test_two_unequal_lines_are_a_problem_that_names_both(read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("outer_wall.speed", "k"), "k = 60\nk = 90\n")
    assert codes(found) == ["two-lines"]
    assert "base1.cfg:1 ('60')" in found.problems[0].message
    assert "base1.cfg:2 ('90')" in found.problems[0].message


@pytest.mark.parametrize("order", [[0, 1, 2, 3], [3, 2, 1, 0], [2, 0, 3, 1]])
def test_shares_of_shares_in_any_order_of_bindings(order: list[int], read_text: ReadText, bind: Bind) -> None:
    bindings = [
        bind("outer_wall.speed", "a"),
        bind("inner_wall.speed", "b", 'relative_to = "outer_wall.speed"'),
        bind("infill.speed", "c", 'relative_to = "inner_wall.speed"'),
        bind("support.speed", "d", 'relative_to = "infill.speed"\nunit = "fraction"'),
    ]
    found = read_text("".join(bindings[number] for number in order), "d = 0.5\na = 80\nb = 50\nc = 110 %\n")
    assert values(found) == {"outer_wall.speed": 80, "inner_wall.speed": 40, "infill.speed": 44, "support.speed": 22}
    assert found.profile.entries["support.speed"].relative_to == "infill.speed"
    assert found.profile.entries["support.speed"].shares == (Fraction(1, 2),)


def test_a_share_tool_by_tool(read_text: ReadText, bind: Bind) -> None:
    bindings = bind("outer_wall.speed", "a", "tools = true") + bind(
        "infill.speed", "b", 'relative_to = "outer_wall.speed"\ntools = true'
    )
    assert values(read_text(bindings, "a = 80,60\nb = 50,100\n"))["infill.speed"] == (40, 60)
    assert values(read_text(bindings, "a = 80\nb = 50,100\n"))["infill.speed"] == (40, 80)


def test_a_share_of_what_is_missing_has_no_value_and_says_so(read_text: ReadText, bind: Bind) -> None:
    found = read_text(
        bind("outer_wall.speed", "a")
        + bind("infill.speed", "b", 'relative_to = "outer_wall.speed"')
        + bind("travel.speed", "t"),
        "b = 50\nt = 150\n",
    )
    assert values(found) == {"travel.speed": 150}
    assert "outer_wall.speed" in absent_words(found.profile.absent["infill.speed"])
    assert "'a' is not in the text" in absent_words(found.profile.absent["outer_wall.speed"])


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("pace = 80\nrim = 50\n", 40),
        ("pace = '80'\nrim = 50 %\n", 40),
        ("pace = 4800 mm/min\nrim = 50\n", 40),
        ("pace = 80\nrim = 60 mm/s\n", 60),
        ("rim = 50\nt = 1\n", None),
        ("pace = 9\npace = 9\nrim = 50\n", Fraction(9, 2)),
    ],
)
def test_a_share_of_a_key(text: str, value: int | None, read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("outer_wall.speed", "rim", 'relative_key = "pace"'), text)
    assert found.profile.number("outer_wall.speed") == value
    assert found.problems == ()
    assert "pace" not in {line.assignment.key for line in found.unmapped}


def test_a_share_of_a_key_that_is_said_twice(read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("outer_wall.speed", "rim", 'relative_key = "pace"'), "pace = 80\npace = 90\nrim = 50\n")
    assert codes(found) == ["two-lines"]


def test_several_base_files(read_text: ReadText, bind: Bind) -> None:
    found = read_text(
        bind("outer_wall.speed", "a") + bind("nozzle.temperature", "b"), "a = 60\nx = 1\n", "[s]\nb = 205\n"
    )
    assert values(found) == {"outer_wall.speed": 60, "nozzle.temperature": 205}
    origin = found.profile.entries["nozzle.temperature"].origin
    assert (origin.file, origin.line, origin.key, origin.text, origin.document) == ("base2.cfg", 2, "b", "205", 1)
    assert [(line.document, line.assignment.key) for line in found.unmapped] == [(0, "x")]


def test_two_files_that_disagree(read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("outer_wall.speed", "a"), "a = 60\n", "a = 70\n")
    assert codes(found) == ["two-lines"]
    assert "base1.cfg:1" in found.problems[0].message
    assert "base2.cfg:1" in found.problems[0].message


@pytest.mark.parametrize(
    ("text", "mark"),
    [
        ("a = 60\nb = 0,2\n", ","),
        ("a = 60\nb = 0.2\n", "."),
        ("a = 60\nb = 1\n", "."),
        ("a = 60,5\nb = 0,2\n", ","),
        ('a = "60,5"\nb = 1\n', ","),
        ("a = 60\nb = 0.2\nc = 1,5\nd = 2,5\n", "."),
    ],
)
def test_the_decimal_mark_is_detected_from_the_bound_numbers(
    text: str, mark: str, read_text: ReadText, bind: Bind
) -> None:
    assert read_text(bind("outer_wall.speed", "a") + bind("layer.height", "b"), text).decimal == mark


def test_a_detected_decimal_comma_and_lists_divided_by_commas(read_text: ReadText, bind: Bind) -> None:
    """``20,5`` would be two tools when read and one number when written."""
    found = read_text(bind("layer.height", "b") + bind("outer_wall.speed", "a", "tools = true"), "a = 20,5\nb = 0,2\n")
    assert codes(found) == ["decimal-divides"]


def test_all_problems_of_all_lines(read_text: ReadText, bind: Bind) -> None:
    found = read_text(
        bind("outer_wall.speed", "a") + bind("layer.height", "b") + bind("raft.on", "c"),
        "a = fast\nb = 20\nc = maybe\n",
    )
    assert [(problem.code, problem.place.line) for problem in found.problems] == [
        ("no-value", 1),
        ("implausible", 2),
        ("no-value", 3),
    ]
    assert all("map.toml" in problem.hint for problem in found.problems)


def test_a_map_for_another_text(read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("outer_wall.speed", "a"), "x = 1\ny = 2\n")
    assert codes(found) == ["wrong-map"]
    assert "looks for a" in found.problems[0].message
    assert "x, y" in found.problems[0].message


@pytest.mark.parametrize(
    ("text", "why"), [("a =\nt = 150\n", "'a' has no value"), ("t = 150\n", "'a' is not in the text")]
)
def test_blank_and_missing_keys_say_why(text: str, why: str, read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("outer_wall.speed", "a", "add = true") + bind("travel.speed", "t"), text)
    assert why in absent_words(found.profile.absent["outer_wall.speed"])
    assert ("outer_wall.speed" in found.profile.addable) is ("not in the text" in why)


def test_a_number_that_is_a_switch_as_well(read_text: ReadText, bind: Bind) -> None:
    bindings = bind("raft.on", "pad", 'on_when = "> 0"\non = "3"\noff = "0"') + bind("raft.layers", "pad")
    found = read_text(bindings, "pad = 2\n")
    assert values(found) == {"raft.on": True, "raft.layers": 2}
    coupling = found.profile.entries["raft.layers"].coupling
    assert coupling == ("raft.on", 3, 0, 1)


BLOCK = "\n    first of a block\n    second\n"


@pytest.mark.parametrize(
    ("setting", "text", "value"),
    [
        ("infill.pattern", "k = grid" + BLOCK, "grid"),
        ("support.on", "k = yes" + BLOCK, True),
        ("support.on", "k = yes\n# remark\n    below\n", True),
        ("outer_wall.speed", "k = 60 mm/s" + BLOCK, 60),
        ("outer_wall.speed", "k = 60 ; slow" + BLOCK, 60),
        ("outer_wall.speed", "k =\n  60\n", 60),
    ],
)
def test_a_value_has_one_line(setting: str, text: str, value: Any, read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind(setting, "k"), text)
    assert found.problems == ()
    assert values(found) == {setting: value}


def test_lines_below_a_value_are_told_of(read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("infill.pattern", "k"), "k = grid" + BLOCK)
    departures = found.profile.entries["infill.pattern"].departures
    assert [*map(departure_words, departures)] == ["lines 2 to 3 below it are no part of it, and kept as they are"]


@pytest.mark.parametrize("text", ["k =\n  60\n  70\n", "k = 60 \\\n  70\n"])
def test_a_number_on_two_lines_is_none(text: str, read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("outer_wall.speed", "k"), text)
    assert codes(found) == ["no-value"]
    assert "several lines" in found.problems[0].message


def test_a_list_may_go_over_lines(read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("nozzle.temperature", "k", 'tools = true\nlist = ","'), "k =\n  210,\n  215\n")
    assert values(found) == {"nozzle.temperature": (210, 215)}


PACE = 'unit = "mm/min"'


@pytest.mark.parametrize(
    ("habits", "text", "pace"),
    [
        ('decimal = ","', "pace = 3000,000\n", 50),
        ('thousands = ","', "pace = 3,000\n", 50),
        ('thousands = "."', "pace = 3.000\n", 50),
        ('thousands = "\'"', "pace = 3'000\n", 50),
        ("", "pace = 3000\nply = 0,2\n", 50),
        ("", "pace = 3000,000\nply = 0,2\n", 50),
    ],
)
def test_numbers_with_groups(habits: str, text: str, pace: int, read_text: ReadText, bind: Bind) -> None:
    found = read_text(
        f"[text]\n{habits}\n" + bind("outer_wall.speed", "pace", PACE) + bind("layer.height", "ply"), text
    )
    assert found.problems == ()
    assert values(found)["outer_wall.speed"] == pace


@pytest.mark.parametrize(
    "text",
    [
        "pace = 12,000\n",
        "pace = 12,000\nply = 0.2\n",
        "pace = 12.000\nply = 0,2\n",
        "pace = 60,000\n",
        "pace = '60,000 mm/min'\n",
    ],
)
def test_a_number_with_two_readings_is_refused_with_both(text: str, read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("outer_wall.speed", "pace", PACE) + bind("layer.height", "ply"), text)
    assert codes(found) == ["no-value"]
    for word in ("two ways", "as 12.000" if "12" in text else "as 60.000", ": write decimal = ", "or thousands = "):
        assert word in found.problems[0].message


@pytest.mark.parametrize(
    ("text", "height"),
    [("ply = 0,200\n", "1/5"), ("ply = 1,200\n", "6/5"), ("ply = 1.200\n", "6/5"), ("ply = 0.2\n", "1/5")],
)
def test_one_reading_that_makes_sense_is_taken(text: str, height: str, read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("layer.height", "ply"), text)
    assert found.problems == ()
    assert values(found) == {"layer.height": Fraction(height)}


def test_a_list_divided_by_what_groups_the_digits(read_text: ReadText, bind: Bind) -> None:
    found = read_text('[text]\nthousands = ","\n' + bind("nozzle.temperature", "k", "tools = true"), "k = 210,215\n")
    assert codes(found) == ["decimal-divides"]


@pytest.mark.parametrize(("in_map", "in_text"), [("Ho\u0308he", "H\u00f6he"), ("H\u00f6he", "Ho\u0308he")])
def test_letters_composed_otherwise_are_the_same_key(
    in_map: str, in_text: str, read_text: ReadText, bind: Bind
) -> None:
    more = f'section = "{in_map}"'
    found = read_text(bind("layer.height", in_map, more), f"[{in_text}]\n{in_text} = 0.2\n")
    assert found.problems == ()
    assert values(found) == {"layer.height": Fraction(1, 5)}


def test_both_compositions_in_one_text_are_two_keys(read_text: ReadText, bind: Bind) -> None:
    text = "Ho\u0308he = 0.2\nH\u00f6he = 0.3\n"
    found = read_text(bind("layer.height", "H\u00f6he"), text)
    assert values(found) == {"layer.height": Fraction(3, 10)}


def test_a_key_in_very_many_lines_is_refused_in_a_sentence(read_text: ReadText, bind: Bind) -> None:
    found = read_text(bind("outer_wall.speed", "k"), "k = 60\n" * 1001)
    assert codes(found)[0] == "too-many-lines"
    policy = '[text]\nduplicates = "last"\n'
    assert values(read_text(policy + bind("outer_wall.speed", "k"), "k = 60\n" * 1001)) == {"outer_wall.speed": 60}


@pytest.mark.parametrize(
    ("more", "raw", "codes"),
    [
        ("", "", []),
        ("", '""', []),  # a blank value is an absent one, whatever stands around it
        ('split = "/"\nfield = 2', "", []),
        ('split = "/"\nfield = 2', "  ", []),
        ('split = "/"\nfield = 2', "210", ["field"]),
    ],
)
def test_a_blank_value_is_no_mistake_and_a_missing_field_is(
    more: str, raw: str, codes: list[str], read_text: Callable[..., Any], bind: Callable[..., str]
) -> None:
    translation = read_text(bind("bed.temperature", "a", more), f"a = {raw}\n")
    assert [problem.code for problem in translation.problems] == codes
    assert translation.profile.entries == {}
    assert translation.profile.absent["bed.temperature"].code == "key blank"


def test_the_line_that_counts_says_which_mark_the_text_has(read_text: ReadText, bind: Bind) -> None:
    policy = '[text]\nduplicates = "first"\n'
    translation = read_text(policy + bind("outer_wall.speed", "a"), "a = 1,5\na = 1.5\n")
    assert (codes(translation), values(translation)) == ([], {"outer_wall.speed": Fraction(3, 2)})


def test_a_share_of_a_key_is_read_as_plainly_as_the_key_says_it(read_text: ReadText, bind: Bind) -> None:
    """The key that a share is of is no setting: nothing that the map says of the setting holds for it."""
    share = 'relative_key = "b"\nunit = "%"'
    translation = read_text(bind("support.overhang_angle", "a", share), "a = 50\nb = 60\n")
    assert values(translation) == {"support.overhang_angle": 30}
    translation = read_text(bind("outer_wall.speed", "a", share), "a = 50\nb =\n  60\n  70\n")
    assert codes(translation) == ["no-number"]
    assert "b" in translation.problems[0].message


@pytest.mark.parametrize(
    ("setting", "more", "text", "message"),
    [
        ("outer_wall.speed", "", "fast", "'fast' is not a number."),
        ("outer_wall.speed", '[text]\ndecimal = "."\n', "60,5",
         "'60,5' is not a number (this text's decimal mark is '.')."),
        ("outer_wall.speed", '[text]\ndecimal = ","\n', "60.5",
         "'60.5' is not a number (this text's decimal mark is ',')."),
        ("outer_wall.speed", "", "60 mm", "the unit 'mm' does not measure a speed."),
        ("outer_wall.speed", "", "60 %",
         "the unit '%' does not measure a speed (say relative_to in the map if it is a share)."),
        ("outer_wall.speed", "", "60 knots", "the unit 'knots' is not known."),
        ("raft.on", "", "perhaps", "'perhaps' is neither on nor off."),
        ("layer.height", "", "200", "'200' reads as 200 mm"),
        ("wall.count", "", "100000", "'100000' reads as 100000"),
    ],
)  # fmt: skip
def test_why_a_value_cannot_be_read(
    setting: str, more: str, text: str, message: str, read_text: ReadText, bind: Bind
) -> None:
    (problem,) = read_text(more + bind(setting, "k"), f"k = {text}\n").problems
    assert problem.message.startswith(f"'k' ({setting}): {message}")
    asks = problem.message.endswith(": is the unit right?")
    assert asks is (setting == "layer.height")
    assert ('unit = "um" would make it 0.2 mm' in problem.hint) is asks


@pytest.mark.parametrize(
    ("text", "policy", "problems"),
    [
        ("b = 60\nb = 60\n", "", []),
        ("b = 60\nb = 70\n", "", ["two-lines"]),
        ("b = 60\nb = 70\nb = 80\n", "", ["two-lines"]),
        ("b = x\nb = x\n", "", ["no-number"]),  # told once
        ("b = 60\nb = x\n", "first", []),
        ("b = x\nb = 60\n", "last", []),
        ("b = x\nb = 60\n", "first", ["no-number"]),
    ],
)
def test_the_line_of_a_key_that_a_share_is_of(
    text: str, policy: str, problems: list[str], read_text: ReadText, bind: Bind
) -> None:
    head = f'[text]\nduplicates = "{policy}"\n' if policy else ""
    translation = read_text(head + bind("outer_wall.speed", "a", 'relative_key = "b"'), f"a = 50 %\n{text}")
    assert codes(translation) == problems
    assert values(translation) == ({} if problems else {"outer_wall.speed": 30})


def test_a_map_that_finds_nothing_names_what_both_sides_have(read_text: ReadText, bind: Bind) -> None:
    """Five of each are enough to see that it is the wrong file."""
    names = ["outer_wall.speed", "inner_wall.speed", "infill.speed", "travel.speed", "layer.height", "wall.count"]
    lines = "".join(bind(name, f"k{number}") for number, name in enumerate(names, 1))
    (problem,) = read_text(lines, "".join(f"q{number} = 1\n" for number in range(1, 7))).problems
    assert "It looks for k1, k2, k3, k4, k5; the text has q1, q2, q3, q4, q5." in problem.message


def test_of_two_files_one_may_be_empty(read_text: ReadText, bind: Bind) -> None:
    for texts in (("", "x = 1\n"), ("x = 1\n", ""), ("x = 1\n", "y = 1\n")):
        assert codes(read_text(bind("outer_wall.speed", "a"), *texts)) == ["wrong-map"]
    assert codes(read_text(bind("outer_wall.speed", "a"), "", "")) == []


def test_a_list_with_a_share_and_a_word_is_not_read(read_text: ReadText, bind: Bind) -> None:
    lists = 'relative_to = "infill.speed"\ntools = true'
    translation = read_text(
        bind("outer_wall.speed", "a", lists) + bind("infill.speed", "b"), "a = 50 %, fast\nb = 80\n"
    )
    assert (codes(translation), values(translation)) == (["no-value"], {"infill.speed": 80})
