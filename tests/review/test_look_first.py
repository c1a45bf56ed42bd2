"""What is to be looked at first: alarms and settings that are left to the person, named before and after the long
lists.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.ledger.judgement import Finding
from profilesmith.review.consequences import closing, counts_line
from profilesmith.review.look_first import look_first_points
from profilesmith.review.render import DATA, RENDERERS, Look, render
from profilesmith.review.render.brief import MOST_NOTES
from profilesmith.review.render.sheet.of_review import review_sheet
from profilesmith.review.review import OpenQuestion, Review

Derived = Callable[..., Any]
Text = Callable[..., str]
READABLE = [form for form in RENDERERS if form not in DATA]
RAFT = "The raft is on but has no layers"


@pytest.fixture
def half(derived: Derived, bind: Text, rule: Text) -> Review:
    """A map that binds only some of the speeds, and a raft of no layers. Two rules bound every speed."""
    bindings = (
        bind("outer_wall.speed", "rim")
        + bind("raft.on", "pad")
        + bind("raft.layers", "slabs")
        + bind("nozzle.temperature", "tip")
    )
    speeds = '["outer_wall.speed", "inner_wall.speed", "infill.speed"]'
    rules = (
        rule("outer_wall.speed", 'cap = "70.62 mm/s"')
        + rule("outer_wall.speed", 'cap = "40 mm/s"')
        + rule("nozzle.temperature", 'set = "215 °C"')
    )
    rules = rules.replace('"outer_wall.speed"', speeds)
    found: Review = derived(
        "rim = 80\npad = 1\nslabs = 0\ntip = 205\ns = M104 S205\nt = M109 S205\n", bindings, rules, follow_literals=True
    ).review
    return found


def shown(review: Review, form: str, full: bool = False) -> str:
    """What a person reads: blanks folded, without markup."""
    text = re.sub(r"<(style|script|textarea).*?</\1>|<[^>]+>", " ", render(review, form, Look(full=full)), flags=re.S)
    return " ".join(text.replace("\\", "").replace("*", "").split())


@pytest.mark.parametrize("form", READABLE)
def test_an_alarm_is_named_before_all_lists(half: Review, form: str) -> None:
    text = shown(half, form)
    assert "Look first" in text
    assert text.index("Look first") < text.index(RAFT) < re.search("outer.wall.speed", text, re.I).start()  # type: ignore[union-attr]


@pytest.mark.parametrize("form", READABLE)
def test_nothing_is_to_be_looked_at_first_where_nothing_is_wrong(half: Review, form: str) -> None:
    calm = half._replace(
        consequences=tuple(item for item in half.consequences if item.verdict not in ("stop", "caution"))
    )
    assert "Look first" in shown(half, form)
    assert "Look first" not in shown(calm, form)


@pytest.mark.parametrize("form", ["terminal", "markdown", "page"])
def test_the_headline_counts_what_is_left_and_what_warns(half: Review, form: str) -> None:
    assert "2 settings changed, 2 to set by hand, 2 machine commands changed, 1 caution" in shown(half, form)
    one = half._replace(by_hand=half.by_hand[:1])
    assert "1 to set by hand" in shown(one, form)


def test_the_terminal_ends_with_what_is_left(half: Review) -> None:
    lines = render(half, "terminal", Look(width=100, full=True)).splitlines()
    assert lines[-2:] == [f"Look first: {RAFT}", "2 settings are left to you: see 'To set by hand'"]
    assert "To set by hand" in lines
    assert closing(half._replace(by_hand=half.by_hand[:1], consequences=()), listed=False) == [
        "1 setting is left to you"
    ]


def test_a_conflict_is_not_hidden_by_what_is_left(derived: Derived, bind: Text, rule: Text) -> None:
    rules = (
        rule("outer_wall.speed", 'cap = "40 mm/s"')
        + rule("outer_wall.speed", 'raise_to = "50 mm/s"')
        + rule("infill.speed", 'cap = "40 mm/s"')
    )
    review = derived("rim = 80\n", bind("outer_wall.speed", "rim"), rules).review
    assert len(review.conflicts) == len(review.by_hand) == 1
    assert closing(review) == []


def test_stops_and_cautions_are_counted_apart_from_general_advice(half: Review) -> None:
    stop = Finding("liner", "stop", "PTFE liner", "Too hot.")
    page = re.sub(
        r"<[^>]+>",
        "\n",
        render(half._replace(consequences=(stop, *half.consequences), cautions=("a", "b")), "page").partition("<main>")[
            0
        ],
    )
    chips = [line for line in page.splitlines() if re.match(r"\d+ ", line)]
    assert [chip for chip in chips if "caution" in chip and "," not in chip] == ["1 caution"]
    assert {"1 stop", "2 safety notes"} <= set(chips)
    assert any(re.fullmatch(r"\d+ other consequences?", chip) for chip in chips)


@pytest.mark.parametrize("form", READABLE)
def test_a_machine_command_is_no_setting(half: Review, form: str) -> None:
    text = shown(half, form, full=True)
    for old, new in (("M104 S205", "M104 S215"), ("M109 S205", "M109 S215")):
        assert text.count(new) == 1
        assert text.count(old) == 1
    assert "n the start block, line 5" in text
    assert form == "markdown" or "Machine commands in start blocks" in text


def test_the_checklist_has_a_box_for_each_command_and_one_for_the_setting(half: Review) -> None:
    boxes = {
        part.title: [(item.name, item.old, item.steps[0].new) for item in part.items]
        for part in review_sheet(half).parts
    }
    assert boxes["Heat"] == [("Nozzle temperature", "205 °C", "215 °C")]
    assert boxes["Machine commands in start blocks"] == [
        ("In the start block, line 5", "M104 S205", "M104 S215"),
        ("In the start block, line 6", "M109 S205", "M109 S215"),
    ]


@pytest.mark.parametrize("form", READABLE)
def test_of_two_bounds_on_what_is_set_by_hand_the_stricter_is_told(half: Review, form: str) -> None:
    text = shown(half, form).split("left to you")[0]
    hand = (
        text.split("To set by hand")[-1]
        if "checklist" not in form
        else text.split("Inner wall speed")[1].split("Machine")[0]
    )
    assert "at most 40 mm/s" in hand
    assert "at most 70.62 mm/s" not in hand.split("In figures")[0]


def test_lists_of_one_are_told_as_one(half: Review) -> None:
    """Lists are told as title and count, which needs no plural."""
    one = half._replace(idle=half.by_hand[0].reasons[:1], overruled=half.by_hand[:1])
    text = render(one, "markdown")
    assert "**Rules that do not apply here (1)**" in text
    assert "**Overruled everywhere (1)**" in text


def test_conflicts_of_one_kind_tell_the_fix_once(derived: Derived, bind: Text, rule: Text) -> None:
    both = '["outer_wall.speed", "infill.speed"]'
    rules = (rule("outer_wall.speed", 'cap = "40 mm/s"') + rule("outer_wall.speed", 'raise_to = "50 mm/s"')).replace(
        '"outer_wall.speed"', both
    )
    made = derived("rim = 80\ncore = 80\n", bind("outer_wall.speed", "rim") + bind("infill.speed", "core"), rules)
    shown = render(made.review, "terminal", Look(width=100))
    assert shown.count("cannot both hold") == 2
    assert shown.count("fix: ") == 1


def test_what_a_hand_edited_is_shown_as_it_stands(tmp_path: Any, monkeypatch: Any, program: Any) -> None:
    """Every rendering of a derived file shows the values that stand in it now; the head counts edits and broken
    rules.
    """
    monkeypatch.chdir(tmp_path)
    assert program("demo", "heron", "-q").code == 0
    soft = tmp_path / "heron/soft.settings"
    soft.write_text(soft.read_text().replace("\nshare = 5\n", "\nshare = 8\n").replace("pair = 215/", "pair = 212/", 1))
    forms = ("terminal", "md", "html", "checklist")
    told = {form: " ".join(program("review", soft, "--as", form).out.split()) for form in forms}
    assert "2 values edited since; 2 break a rule" in told["terminal"]
    assert "infill.density is 8 % by hand, the recipe made it 5 %" in told["terminal"]
    # An edit that breaks a rule may be what is wrong, and not the start block that does not fit it.
    assert "mend the edited value above first" in told["terminal"]
    for form, text in told.items():
        assert "212 °C" in text, form
        assert "8 %" in text, form
    assert "**212 °C**" in told["checklist"]
    assert "**215 °C**" in told["checklist"]  # the first layer's, which nobody edited


def test_a_value_that_moved_along_is_no_edit(half: Review) -> None:
    """A share whose reference a hand edited: its own text was not touched, so it is not counted among the edits."""
    first, *rest = half.groups[0].changes
    edited = first._replace(recipe_value="40 mm/s")
    moved = first._replace(setting="first_layer.speed", recipe_value="20 mm/s", follows=True)
    groups = (half.groups[0]._replace(changes=(edited, moved, *rest)), *half.groups[1:])
    assert counts_line(half._replace(groups=groups)).startswith("1 value edited since, ")
    broken = moved._replace(breaks=("slow 1.0.0, rule 1: at most 10 mm/s",))
    groups = (half.groups[0]._replace(changes=(edited, broken, *rest)), *half.groups[1:])
    assert counts_line(half._replace(groups=groups)).startswith("2 values edited since; 1 breaks a rule, ")


def test_rows_name_the_section_of_their_key(derived: Derived, bind: Text, rule: Text) -> None:
    """Sections hold keys of the same name: ``[supports] feed`` and ``[walls] feed``."""
    bindings = bind("outer_wall.speed", "feed", 'section = "walls"') + bind(
        "support.speed", "feed", 'section = "props"'
    )
    rules = rule("outer_wall.speed", 'cap = "40 mm/s"') + rule("support.speed", 'cap = "40 mm/s"')
    review = derived("[walls]\nfeed = 80\n[props]\nfeed = 70\n", bindings, rules).review
    for form, full in (("terminal", True), ("markdown", False), ("page", False), ("checklist", False)):
        assert "[walls] feed" in shown(review, form, full)
        assert "[props] feed" in shown(review, form, full)


def kinds(review: Review) -> list[str]:
    return [point.kind for point in look_first_points(review)]


def test_a_recipe_of_which_the_text_knows_nothing_is_named(derived: Derived, bind: Text, rule: Text) -> None:
    tip = bind("nozzle.temperature", "tip")
    review = derived("tip = 205\n", tip, rule("outer_wall.speed", 'cap = "40 mm/s"')).review
    points = [point for point in look_first_points(review) if point.kind == "unsuited"]
    assert [point.text for point in points] == ["the text has a key for none of its settings"]


def test_a_recipe_that_finds_something_to_do_suits(derived: Derived, bind: Text, rule: Text) -> None:
    rules = rule("outer_wall.speed", 'cap = "40 mm/s"') + rule("nozzle.temperature", 'set = "215 °C"')
    assert "unsuited" not in kinds(derived("tip = 205\n", bind("nozzle.temperature", "tip"), rules).review)


def test_a_finding_that_says_what_does_not_suit_is_named_once(derived: Derived, bind: Text, rule: Text) -> None:
    rules = rule("nozzle.temperature", 'set = "215 °C"')
    review = derived("tip = 205\n", bind("nozzle.temperature", "tip"), rules).review
    note = Finding("release", "note", "Taking the part off", "It may stick.", unsuited=True)
    assert kinds(review._replace(consequences=(note,))) == ["unsuited"]
    assert kinds(review._replace(consequences=(note._replace(verdict="caution"),))) == ["alarm"]


def test_a_command_that_heats_too_cold_is_as_urgent_as_one_that_can_follow(
    derived: Derived, bind: Text, rule: Text
) -> None:
    base = "tip = 210\ns = M104 S210\nt = M109 S200\nu = M221 S95\n"
    review = derived(base, bind("nozzle.temperature", "tip"), rule("nozzle.temperature", 'set = "215 °C"')).review
    points = {point.text.split()[0]: point for point in look_first_points(review) if point.kind == "start block"}
    assert {command: point.urgent for command, point in points.items()} == {"M104": True, "M109": True, "M221": False}
    assert points["M109"].mend.words == "write the right temperature into it, unless a later command heats to that"
    assert not points["M109"].mend.follow


def test_one_setting_stays_and_several_stay(half: Review) -> None:
    question = OpenQuestion("How?", ("retraction.distance",), ())
    one = half._replace(questions=(question,))
    many = half._replace(questions=(question._replace(settings=("retraction.distance", "retraction.speed")),))
    assert look_first_points(one)[-1].text == "How? Until then retraction.distance stays as it is"
    assert look_first_points(many)[-1].text.endswith("retraction.distance, retraction.speed stay as they are")


@pytest.mark.parametrize(("more", "words"), [(1, "and 1 more note on"), (2, "and 2 more notes on")])
def test_notes_that_are_left_out_are_counted(half: Review, more: int, words: str) -> None:
    notes = tuple(f"Note {number}." for number in range(MOST_NOTES + more))
    assert words in shown(half._replace(notes=notes), "terminal")
