"""One ledger, many renderings: the same rows in all of them, and what the review says of each status."""

from __future__ import annotations

import html
import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.review.render import ENDINGS, RENDERERS, Look, render
from profilesmith.review.wording import relative_change, show_values
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

Derived = Callable[..., Any]
Text = Callable[..., str]
READABLE = [form for form in RENDERERS if form in ("terminal", "markdown", "page")]


@pytest.fixture
def made(derived: Derived, bind: Text, rule: Text) -> Any:
    """A derivation with every status that does not stop it."""
    bindings = "".join(
        [
            bind("outer_wall.speed", "rim"),
            bind("infill.speed", "core"),
            bind("first_layer.speed", "lowest", 'relative_to = "outer_wall.speed"\nshares = "follow"'),
            bind("top.speed", "crown", 'relative_to = "outer_wall.speed"'),
            bind("raft.on", "pad", "add = true"),
            bind("brim.on", "hem"),
            bind("retraction.distance", "yank"),
            bind("nozzle.temperature", "tip"),
            bind("retraction.lift", "lift"),
        ]
    )
    rules = (
        rule("outer_wall.speed", 'cap = "40 mm/s"')
        + rule("infill.speed", 'cap = "90 mm/s"')
        + rule("raft.on", 'set = "on"')
        + rule("brim.on", 'set = "on"')
        + rule("retraction.distance", 'cap = "2 mm"', 'when = { "machine.drive" = "direct" }')
        + rule("nozzle.temperature", 'aim = "210 °C"')
        + rule("nozzle.temperature", 'aim = "215 °C"')
        + rule("retraction.lift", 'cap = "0.1 mm"', 'when = { "machine.liner" = "PTFE" }')
    )
    base = "rim = 80\ncore = 60\nlowest = 50\nyank = 6\ntip = 205\nlift = 0.3\nhue = red\nsheet of the bench\n"
    base += "crown = 90\n"
    return derived(base, bindings, rules, facts='[machine]\nliner = "all-metal"\n')


SAID = {
    "a changed value": ["outer_wall.speed", "80 mm/s", "40 mm/s"],
    "a value that follows": ["first_layer.speed", "20 mm/s"],
    "a value that is held": ["top.speed", "72 mm/s", "180"],
    "an added key": ["raft.on", "added"],
    "by hand": ["brim.on"],
    "a question": ["retraction.distance", "?"],
    "a change of temperature": ["215 °C", "+10 °C"],
    "why": ["test 1.0.0, rule 1"],
}


def words(made: Any, form: str) -> str:
    """What a person reads: without markup, blanks folded."""
    shown = render(made.review, form, Look(width=120, full=True))
    if form == "page":
        shown = re.sub(r"<[^>]+>", " ", re.sub(r"</?wbr/?>|\u200b", "", shown))
    return " ".join(html.unescape(shown).replace("\\", "").split())


@pytest.mark.parametrize("form", READABLE)
@pytest.mark.parametrize("what", SAID)
def test_every_readable_form_says(what: str, form: str, made: Any) -> None:
    folded = words(made, form)
    assert [word for word in SAID[what] if word not in folded] == []


@pytest.mark.parametrize("form", READABLE)
def test_every_setting_with_a_row_is_in_every_form(form: str, made: Any) -> None:
    shown = words(made, form)
    named = {name for name in load_vocabulary().settings if name in shown or re.sub("[._]", " ", name) in shown.lower()}
    missing = {row.setting for row in made.ledger.rows if row.status != "does not apply"} - named
    assert missing == set()


def test_the_review_sorts_by_what_is_to_be_done(made: Any) -> None:
    review = made.review
    assert {change.setting for group in review.groups for change in group.changes} == {
        "outer_wall.speed",
        "first_layer.speed",
        "raft.on",
        "nozzle.temperature",
    }
    assert [(change.setting, change.new_text) for change in review.held] == [("top.speed", "180")]
    assert [change.setting for change in review.by_hand] == ["brim.on"]
    assert [question.settings for question in review.questions] == [("retraction.distance",)]
    assert [change.setting for change in review.kept] == ["infill.speed"]
    assert ["machine.liner" in reason.note for reason in review.idle] == [True]
    assert [(line.line, line.key) for line in review.unmapped] == [(7, "hue")]
    assert [line.line for line in review.unread] == [8]


def test_changed_rows_come_first_on_a_terminal(made: Any) -> None:
    shown = render(made.review, "terminal", Look(width=100, full=True))
    assert (
        shown.index("outer_wall.speed")
        < shown.index("brim.on")
        < shown.index("Not known")
        < shown.index("Already right")
    )


def test_with_full_lists_are_shown(made: Any) -> None:
    shown = render(made.review, "terminal", Look(width=100, full=True))
    assert "Keys that the map does not know: 1" in shown
    assert "- base.cfg:7 hue" in shown


@pytest.mark.parametrize("width", [60, 80, 120])
def test_lines_fit_the_terminal(width: int, made: Any) -> None:
    assert max(map(len, render(made.review, "terminal", Look(width=width)).splitlines())) <= width


@pytest.mark.parametrize("form", RENDERERS)
def test_every_form_ends_with_one_line_end(form: str, made: Any) -> None:
    shown = render(made.review, form)
    assert shown.endswith("\n")
    assert not shown.endswith("\n\n")


@pytest.mark.parametrize("form", RENDERERS)
def test_rendering_changes_nothing_and_is_the_same_twice(form: str, made: Any) -> None:
    assert render(made.review, form) == render(made.review, form)


def test_colours_only_where_they_are_asked_for(made: Any) -> None:
    assert "\x1b" not in render(made.review, "terminal", Look())
    assert "\x1b[" in render(made.review, "terminal", Look(colour=True))


def test_every_ending_names_a_form() -> None:
    assert set(ENDINGS.values()) <= RENDERERS.keys()


F = Fraction


@pytest.mark.parametrize(
    ("setting", "base", "derived", "text"),
    [
        ("outer_wall.speed", (F(80),), (F(40),), "-50 %"),
        ("outer_wall.speed", (F(40),), (F(60),), "+50 %"),
        ("nozzle.temperature", (F(205),), (F(215),), "+10 °C"),
        ("infill.density", (F(15),), (F(5),), "-10 points"),
        ("infill.density", (F(5),), (F(6),), "+1 point"),
        ("top.layers", (F(4),), (F(7),), "+3"),
        ("support.overhang_angle", (F(65),), (F(50),), "-15"),
        ("raft.on", (False,), (True,), ""),
        ("outer_wall.speed", (), (F(40),), ""),
        ("outer_wall.speed", (F(40),), (F(40),), ""),
        ("support.gap", (F(0),), (F("0.2"),), "+0.2"),
        ("infill.pattern", ("grid",), ("gyroid",), ""),
    ],
)
def test_relative_change(setting: str, base: tuple[Any, ...], derived: tuple[Any, ...], text: str) -> None:
    """A temperature changes by degrees and a share by points: a per cent of either would say nothing."""
    assert relative_change(base, derived, load_vocabulary().settings[setting]) == text


@pytest.mark.parametrize(
    ("values", "text"),
    [((F(40),), "40 mm/s"), ((F(40), F(40)), "40 mm/s"), ((F(40), F(35)), "40 mm/s | 35 mm/s"), ((), "-")],
)
def test_values_of_several_tools(values: tuple[Any, ...], text: str) -> None:
    assert show_values(load_vocabulary().settings["outer_wall.speed"], values) == text


def test_a_setting_with_a_refused_rule_is_not_called_kept(derived: Derived, bind: Text, rule: Text) -> None:
    """On the first tool both bounds are met, on the second they do not meet: "kept" would say that all is well
    there.
    """
    rules = "".join(
        (
            rule("outer_wall.speed", 'cap = { of = "inner_wall.speed" }'),
            rule("outer_wall.speed", 'raise_to = "60 mm/s"'),
            rule("travel.speed", 'cap = "200 mm/s"'),
        )
    )
    bindings = "".join(
        (
            bind("outer_wall.speed", "rim", "tools = true"),
            bind("inner_wall.speed", "core", "tools = true"),
            bind("travel.speed", "fly"),
        )
    )
    made = derived("rim = 80,80\ncore = 100,40\nfly = 150\n", bindings, rules)
    assert {row.status for row in made.ledger.rows if row.setting == "outer_wall.speed"} == {"refused", "kept"}
    assert [change.setting for change in made.review.kept] == ["travel.speed"]


def test_a_setting_with_an_overruled_aim_is_not_called_kept(derived: Derived, bind: Text, rule: Text) -> None:
    """It stays where its bound holds it, and a rule wanted more: that is told, not counted among what suits all."""
    rules = "".join(
        (
            rule("outer_wall.speed", 'cap = "40 mm/s"'),
            rule("outer_wall.speed", 'aim = "60 mm/s"'),
            rule("travel.speed", 'cap = "200 mm/s"'),
        )
    )
    made = derived("rim = 40\nfly = 150\n", bind("outer_wall.speed", "rim") + bind("travel.speed", "fly"), rules)
    assert {row.status for row in made.ledger.rows if row.setting == "outer_wall.speed"} == {"overruled", "kept"}
    assert [change.setting for change in made.review.kept] == ["travel.speed"]
