"""The whole sheet: every value as it stands in the file, what changed marked, one column a tool.

Outside checks: the Markdown is read by markdown-it-py (CommonMark, with the tables of GitHub's extension); the page by
html5lib (the HTML standard's parser).
"""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import html5lib
import pytest
from markdown_it import MarkdownIt

from profilesmith.review.render import form_of_name, render
from profilesmith.review.review import Review, StandingValues
from profilesmith.workflows.demo import run_demo
from profilesmith.workflows.review import review_again

Derived = Callable[..., Any]
Text = Callable[..., str]
FORMS = ("sheet", "sheet-page")


def cells(review: Review, form: str) -> dict[str, list[str]]:
    """Setting's name -> the cells of its row, as a reader of either form meets them."""
    text = render(review, form)
    html = MarkdownIt().enable("table").render(text) if form == "sheet" else text
    rows = html5lib.parse(html, namespaceHTMLElements=False).iter("tr")
    shown = [[" ".join("".join(cell.itertext()).split()) for cell in row if cell.tag in ("td", "th")] for row in rows]
    return {row[0]: row[1:] for row in shown if row[0] != "Setting"}


def named(found: dict[str, list[str]], name: str) -> tuple[str, list[str]]:
    """The row that begins with a name, with that head in full."""
    return next((head, row) for head, row in found.items() if head.startswith(name))


@pytest.fixture
def soft(tmp_path: Path) -> Path:
    run_demo(str(tmp_path / "heron"))
    return tmp_path / "heron" / "soft.settings"


@pytest.mark.parametrize("form", FORMS)
def test_every_value_that_the_map_reads_has_one_row(form: str, soft: Path) -> None:
    again = review_again(str(soft)).review
    assert again.file is not None
    assert len(cells(again, form)) == len(again.file.derived) == len(again.standing) > 50  # type: ignore[union-attr]


@pytest.mark.parametrize("form", FORMS)
def test_what_changed_is_marked_with_its_old_value_and_the_rest_has_none(form: str, soft: Path) -> None:
    found = cells(review_again(str(soft)).review, form)
    head, row = named(found, "Outer wall speed")
    assert "changed" in head
    assert row[:2] == ["40 mm/s", "75 mm/s"]
    assert "feed = 2400" in " ".join([head, *row])
    assert "line 34" in " ".join([head, *row])
    head, row = named(found, "Travel speed")
    assert "changed" not in head
    assert row[:2] == ["150 mm/s", ""]
    assert "feed = 9000" in " ".join([head, *row])


@pytest.mark.parametrize("form", FORMS)
def test_a_derivation_and_its_review_hand_out_the_same_values(form: str, tmp_path: Path) -> None:
    first = run_demo(str(tmp_path / "heron")).review
    again = review_again(str(tmp_path / "heron" / "soft.settings")).review
    assert cells(first, form).keys() == cells(again, form).keys()
    assert [(item.setting, item.values, item.text) for item in first.standing] == [
        (item.setting, item.values, item.text) for item in again.standing
    ]


@pytest.mark.parametrize("form", FORMS)
def test_after_hand_edits_it_has_what_stands_in_the_file(form: str, soft: Path) -> None:
    text = soft.read_text(encoding="utf-8")
    assert "feed = 2400" in text
    assert "feed = 9000" in text
    soft.write_text(text.replace("feed = 2400", "feed = 2700").replace("feed = 9000", "feed = 8400"), encoding="utf-8")
    review = review_again(str(soft)).review
    head, row = named(cells(review, form), "Outer wall speed")
    assert "edited" in head
    assert "the recipes made it 40 mm/s" in head
    assert row[:2] == ["45 mm/s", "75 mm/s"]
    head, row = named(cells(review, form), "Travel speed")  # no rule speaks of it
    assert "edited" in head
    assert row[:2] == ["140 mm/s", "150 mm/s"]
    assert "2 edited by hand since" in render(review, form)


@pytest.mark.parametrize("form", FORMS)
def test_a_file_that_cannot_be_read_again_is_said_to_be_so(form: str, soft: Path) -> None:
    soft.write_text(soft.read_text(encoding="utf-8").replace("feed = 2400", "feed = 2700"), encoding="utf-8")
    os.unlink(soft.parent / "keymap.toml")
    text = render(review_again(str(soft)).review, form)
    assert "cannot be read again: these are the values that were written then" in text


def test_one_column_a_tool_and_equal_ones_once(derived: Derived, bind: Text, rule: Text) -> None:
    bindings = bind("nozzle.temperature", "hot", "tools = true") + bind("bed.temperature", "bed")
    review = derived("hot = 205,205\nbed = 60\n", bindings, rule("bed.temperature", 'set = "65 °C"')).review
    assert all(len(item.values) == 1 for item in review.standing)
    two = review._replace(
        values=StandingValues(
            tuple(
                item._replace(values=("205 °C", "215 °C")) if item.setting == "nozzle.temperature" else item
                for item in review.standing
            )
        )
    )
    text = render(two, "sheet")
    assert "| Setting | All tools | Tool 1 | Tool 2 | Before | In the file |" in text
    assert named(cells(two, "sheet"), "Nozzle temperature")[1][:3] == ["", "205 °C", "215 °C"]
    assert named(cells(two, "sheet"), "Bed temperature")[1][:3] == ["65 °C", "", ""]
    assert named(cells(two, "sheet-page"), "Nozzle temperature")[1][:2] == ["205 °C", "215 °C"]
    assert '<td class="value" colspan="2">65 °C <span class="soft">all tools' in render(two, "sheet-page")


@pytest.mark.parametrize("form", FORMS)
def test_a_conflict_shows_the_file_as_it_was(form: str, derived: Derived, bind: Text, rule: Text) -> None:
    rules = rule("outer_wall.speed", 'cap = "40 mm/s"') + rule("outer_wall.speed", 'raise_to = "50 mm/s"')
    review = derived("rim = 80\n", bind("outer_wall.speed", "rim"), rules).review
    assert named(cells(review, form), "Outer wall speed")[1][0] == "80 mm/s"
    text = render(review, form)
    assert "Stop: nothing was written" in text
    assert "Nothing was written, so these are the values of the file as it was." in text
    assert "Before" not in text


@pytest.mark.parametrize("form", FORMS)
def test_what_has_no_value_is_named_with_the_reason(form: str, derived: Derived, bind: Text, rule: Text) -> None:
    bindings = bind("outer_wall.speed", "rim") + bind("infill.speed", "core")
    text = render(derived("rim = 80\n", bindings, rule("outer_wall.speed", 'cap = "40 mm/s"')).review, form)
    assert "Read by the map, without a value here" in text
    assert "Infill speed" in text
    assert "is not in the text" in text


@pytest.mark.parametrize("form", ["checklist", "checklist-page"])
def test_the_checklist_says_what_it_does_not_hold(form: str, derived: Derived, bind: Text, rule: Text) -> None:
    both = bind("outer_wall.speed", "rim") + bind("bed.temperature", "bed")
    cap = rule("outer_wall.speed", 'cap = "40 mm/s"')
    text = render(derived("rim = 80\nbed = 60\n", both, cap).review, form)
    assert "It does not hold 1 value that stays as it is (Heat 1)." in text
    assert text.index("does not hold") < text.index("Outer wall speed")
    assert "does not hold" not in render(derived("rim = 80\n", bind("outer_wall.speed", "rim"), cap).review, form)


@pytest.mark.parametrize(
    ("name", "form"),
    [
        ("x-sheet.html", "sheet-page"),
        ("x-sheet.md", "sheet"),
        ("sheet.md", "sheet"),
        ("datasheet.md", "markdown"),
        ("sheet-review.html", "page"),
        ("x-checklist.html", "checklist-page"),
        ("x-sheet.json", "json"),
    ],
)
def test_the_word_before_the_ending_chooses(name: str, form: str) -> None:
    assert form_of_name(name) == form
