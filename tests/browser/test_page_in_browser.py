"""The page and the checklist in a real browser: quiet, complete, foldable, reached by keyboard, inert, quick."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from profilesmith.review.render import render
from profilesmith.review.review import Review

VERSION = tomllib.loads((Path(__file__).parents[2] / "recipes/flexible-pla.toml").read_text(encoding="utf-8"))[
    "recipe"
]["version"]

FORMS = ["page", "checklist-page"]
HOSTILE = (
    "'\"><img src=x "
    "onerror=alert(1)><script>window.pwned=1;alert(2)</script></style></title></svg><b "
    "onclick=alert(3)>{{7*7}}\u202e"
)
Opener = Any


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_is_said_on_the_console_and_nothing_is_fetched(
    opened: Opener, full: Review, form: str, scheme: str
) -> None:
    seen = opened(render(full, form), scheme=scheme)
    seen.open_all()
    seen.page.wait_for_timeout(50)
    assert seen.said == []
    assert len(seen.asked) == 1  # the file itself
    assert seen.page.title().startswith("Title harmless")


@pytest.mark.parametrize("script", [True, False], ids=["with script", "without script"])
def test_every_fold_opens(opened: Opener, full: Review, script: bool) -> None:
    page = opened(render(full, "page"), script=script).page
    folds = page.locator("main details")
    assert folds.count() > 25
    assert page.locator("main details[open]").count() == 0
    taller = """[...document.querySelectorAll('main details')].map((fold) =>
        fold.getBoundingClientRect().height - fold.querySelector('summary').getBoundingClientRect().height > 10)"""
    assert not any(page.evaluate(taller))
    for summary in folds.locator("> summary").all()[:3]:
        summary.click()
    page.evaluate(
        "document.querySelectorAll('main details:not([open]) > summary').forEach((summary) => summary.click())"
    )
    assert page.locator("main details[open]").count() == folds.count()
    assert all(page.evaluate(taller))


def test_a_row_opens_to_why_source_rule_file_and_line(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "page")).page
    page.get_by_text("Support density").first.click()
    told = page.locator("details[open]").inner_text()
    for words in (
        "A soft part sags",
        f"flexible-pla {VERSION}, rule 7: at least 30 %",
        "common practice",
        "base.settings, line 71",
        "share",
        "12",
        "30",
    ):
        assert words in told


def test_the_keyboard_reaches_and_opens_the_first_row(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "page")).page
    for _ in range(30):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.matches('.row summary')"):
            break
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineWidth")
    page.keyboard.press("Enter")
    assert outline == "3px"
    assert page.locator("details[open] dl").first.is_visible()


def test_without_script_nothing_is_missing_but_the_tools(opened: Opener, demo: Review) -> None:
    html = render(demo, "page")
    bare, lively = opened(html, script=False).page, opened(html).page
    assert not bare.locator(".tools").is_visible()
    assert lively.locator(".tools").is_visible()
    assert bare.locator(".row summary").all_inner_texts() == lively.locator(".row summary").all_inner_texts()


@pytest.mark.parametrize("form", FORMS)
def test_a_hostile_name_key_and_recipe_do_nothing(opened: Opener, with_text: Any, form: str) -> None:
    hostile, harmless = opened(render(with_text(HOSTILE), form)), opened(render(with_text("harmless"), form))
    for seen in (hostile, harmless):
        seen.open_all()
        seen.page.mouse.click(400, 300)
    hostile.page.wait_for_timeout(100)
    assert hostile.dialogs == []
    assert hostile.page.evaluate("window.pwned === undefined")
    assert hostile.said == []
    assert len(hostile.asked) == 1
    count = "document.querySelectorAll('*').length"
    assert hostile.page.evaluate(count) == harmless.page.evaluate(count)
    assert "<script>window.pwned=1;alert(2)</script>" in hostile.page.inner_text("body")
    assert "{{7*7}}" in hostile.page.inner_text("body")


def test_finding_shows_only_the_lines_that_have_the_word(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "page")).page
    rows = page.locator("#changes .row")
    before = rows.count()
    page.fill("#find", "retraction")
    shown = "(found) => found.filter((row) => row.checkVisibility()).map((row) => row.textContent)"
    found = rows.evaluate_all(shown)
    assert 0 < len(found) < before
    assert all("retraction" in text.lower() for text in found)
    assert re.fullmatch(r"\d+ of \d+ lines", page.inner_text("#told"))
    page.fill("#find", "")
    assert len(rows.evaluate_all(shown)) == before


def test_all_rows_open_and_close_at_once(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "page")).page
    page.click("#open")
    assert page.locator("main details:not([open])").count() == 0
    page.click("#close")
    assert page.locator("main details[open]").count() == 0


def test_a_value_can_be_copied(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "page")).page
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.get_by_text("Support density").first.click()
    page.get_by_role("button", name="Copy 30").click()
    page.wait_for_function("document.querySelector('#told').textContent !== ''")
    assert page.inner_text("#told") == "Copied 30"
    assert page.evaluate("navigator.clipboard.readText()") == "30"


def test_a_jump_opens_the_folded_list_it_goes_to(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "page")).page
    page.get_by_role("link", name="keys the map does not know").click()
    assert page.locator("#unmapped li").first.is_visible()


def test_boxes_of_the_checklist_can_be_ticked_without_script(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "checklist-page"), script=False).page
    page.get_by_label("Support density").check()
    assert page.locator("input:checked").count() == 1


def test_five_thousand_rows_open(opened: Opener, many_rows: str, record_property: Any, tmp_path: Path) -> None:
    seen = opened("<!doctype html><title>x</title>", alone=True)
    meter = seen.page.context.new_cdp_session(seen.page)
    meter.send("Performance.enable", {"timeDomain": "threadTicks"})
    path = tmp_path / "many.html"
    path.write_text(many_rows, encoding="utf-8")
    seen.page.goto(path.as_uri())
    times = seen.page.evaluate("""new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => {
        const [entry] = performance.getEntriesByType('navigation');
        done({ loaded: entry.loadEventEnd, rows: document.querySelectorAll('.row').length, drawn: performance.now() });
    })))""")
    worked = {item["name"]: item["value"] for item in meter.send("Performance.getMetrics")["metrics"]}["TaskDuration"]
    assert times["rows"] == 5000
    # Reported, not asserted: the clock depends on what else the machine does; the work of the page's thread does so
    # less.
    told = f"loaded after {times['loaded']:.0f} ms, drawn by {times['drawn']:.0f} ms, {worked * 1000:.0f} ms of work"
    record_property("5,000 rows", told)
    print(f"5,000 rows, {len(many_rows.encode()) / 1e6:.1f} MB: {told}")
    seen.page.locator(".row summary").nth(4321).click()
    assert seen.page.locator("details[open]").count() == 1
