"""What a reader does on the page and the checklist: copies it, links to a row, filters, jumps, tabs, ticks.

Outside checks: Chromium runs the pages from the disk, as they are sent round; WCAG 2.2, 2.4.11 "Focus not obscured".
"""

from __future__ import annotations

from typing import Any

import pytest

from profilesmith.review.render import Look, render
from profilesmith.review.review import Review

Opener = Any
NO_CLIPBOARD = "Object.defineProperty(navigator, 'clipboard', { get() { throw new Error('not here'); } })"
NO_STORE = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } })"


def test_copies_as_markdown(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "page")).page
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.get_by_role("button", name="Copy as Markdown").click()
    page.wait_for_function("document.getElementById('told').textContent === 'Copied as Markdown'")
    assert page.evaluate("navigator.clipboard.readText()").strip() == render(demo, "markdown", Look()).strip()


def test_where_nothing_may_be_copied_the_text_lies_selected(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "page")).page
    page.evaluate(NO_CLIPBOARD)
    assert not page.locator("#markdown").is_visible()
    page.get_by_role("button", name="Copy as Markdown").click()
    page.wait_for_function("document.getElementById('told').textContent.startsWith('Selected')")
    selected = page.evaluate(
        "(() => { const a = document.activeElement; return a.selectionEnd - a.selectionStart; })()"
    )
    assert selected == len(page.evaluate("document.getElementById('markdown').value")) > 1000


def test_a_link_to_a_row_opens_it_below_the_bar(opened: Opener, demo: Review) -> None:
    html = render(demo, "page")
    for width in (1280, 360):
        page = opened(html, width=width).page
        page.evaluate("location.hash = '#change-retraction.speed'")
        page.wait_for_function("document.getElementById('change-retraction.speed').querySelector('details').open")
        page.wait_for_function(BELOW.format("document.getElementById('change-retraction.speed')"))
        link = page.locator("[id='change-retraction.speed'] a.self")
        assert link.get_attribute("href") == "#change-retraction.speed"


BELOW = """(() => {{
    const bar = document.querySelector('.tools').getBoundingClientRect();
    const box = {}.getBoundingClientRect();
    return box.top >= bar.bottom - 1 || box.bottom <= bar.top + 1;
}})()"""


def test_every_row_has_an_id_of_its_own_and_a_link_to_it(opened: Opener, full: Review) -> None:
    page = opened(render(full, "page")).page
    ids = page.locator("#changes .row, #consequences .row").evaluate_all("(rows) => rows.map((row) => row.id)")
    assert len(ids) > 20
    assert "" not in ids
    every = page.evaluate("[...document.querySelectorAll('[id]')].map((item) => item.id)")
    assert len(every) == len(set(every))
    links = page.locator("#changes a.self").evaluate_all("(found) => found.map((a) => a.getAttribute('href').slice(1))")
    assert set(links) <= set(ids)
    assert len(links) == page.locator("#changes .row").count()


@pytest.mark.parametrize("anchor", ["changes", "consequences", "figures", "cautions"])
def test_a_jump_ends_below_the_bar(opened: Opener, demo: Review, anchor: str) -> None:
    for width in (1280, 360):
        page = opened(render(demo, "page"), width=width).page
        page.locator(f"nav a[href='#{anchor}']").first.click()
        page.wait_for_function("scrollY > 0")
        assert page.evaluate(BELOW.format(f"document.querySelector('#{anchor} h2')"))


@pytest.mark.parametrize("width", [1280, 360])
def test_no_focus_is_hidden_by_the_bar(opened: Opener, demo: Review, width: int) -> None:
    """WCAG 2.2, 2.4.11: backwards from the end, where what comes next lies behind the bar's edge."""
    page = opened(render(demo, "page"), width=width).page
    page.evaluate("document.querySelector('#unmapped summary, #kept summary').focus()")
    hidden, seen = [], 0
    for _ in range(45):
        page.keyboard.press("Shift+Tab")
        if page.evaluate(
            "Boolean(document.activeElement.closest('main') && !document.activeElement.closest('.tools'))"
        ):
            seen += 1
            if not page.evaluate(BELOW.format("document.activeElement")):
                hidden.append(page.evaluate("document.activeElement.textContent"))
    assert seen > 20
    assert hidden == []


def test_a_filter_hides_what_is_empty_and_says_when_nothing_is_left(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "page")).page
    page.get_by_label("Find").fill("support gap")
    heads = page.locator("main h2, main h3").evaluate_all(
        "(found) => found.filter((head) => head.checkVisibility()).map((head) => head.textContent)"
    )
    assert "Supports" in heads
    assert "Cooling" not in heads
    assert "In figures" not in heads
    page.get_by_label("Find").fill("zebra")
    assert page.locator("#told").inner_text() == "Nothing found"
    assert page.locator("main h2:visible").count() == 0
    page.get_by_label("Find").fill("")
    assert page.locator("#told").inner_text() == ""
    assert page.locator("main h2:visible").count() > 4


def test_urgency_stands_in_words_and_signs(opened: Opener, full: Review) -> None:
    """No colour and no border alone: also where the system's own colours are forced."""
    page = opened(render(full, "page")).page
    page.emulate_media(forced_colors="active")
    urgent = page.locator("nav .urgent, #look-first .urgent").evaluate_all(
        "(found) => found.map((one) => one.textContent)"
    )
    assert urgent
    assert all("!" in text and "Urgent" in text for text in urgent)
    assert all(text.strip().startswith("?") for text in page.locator("ul.ask > li").all_inner_texts())


def boxes(page: Any) -> list[bool]:
    found: list[bool] = page.locator("input[type=checkbox]").evaluate_all("(all) => all.map((box) => box.checked)")
    return found


def test_ticks_survive_a_reload_for_this_very_sheet(opened: Opener, demo: Review) -> None:
    html = render(demo, "checklist-page")
    page = opened(html, alone=True).page  # what another test's page stored may be cleared late
    page.locator("input[type=checkbox]").nth(2).check()
    assert "kept in this browser" in page.locator("#kept").inner_text()
    page.reload()
    assert [at for at, ticked in enumerate(boxes(page)) if ticked] == [2]
    # A sheet with another value is another sheet, also where it lies in the same place.
    name = page.url.removeprefix("file://")
    with open(name, "w", encoding="utf-8") as file:
        file.write(render(demo._replace(subject="another text"), "checklist-page"))
    page.reload()
    assert not any(boxes(page))
    page.locator("input[type=checkbox]").nth(1).check()
    page.get_by_role("button", name="Clear all ticks").click()
    page.reload()
    assert not any(boxes(page))


def test_where_the_page_may_not_store_ticks_last_for_the_visit(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "checklist-page"), alone=True).page
    page.add_init_script(NO_STORE)
    page.reload()
    page.locator("input[type=checkbox]").nth(2).check()
    assert "last for the visit" in page.locator("#kept").inner_text()
    page.reload()
    assert [at for at, ticked in enumerate(boxes(page)) if ticked] == [2]


def test_without_script_nothing_promises_to_keep_ticks(opened: Opener, demo: Review) -> None:
    page = opened(render(demo, "checklist-page"), script=False).page
    page.locator("input[type=checkbox]").nth(0).check()
    assert page.locator("#kept").inner_text() == "Ticks are gone when it is closed."
    assert not page.get_by_role("button", name="Clear all ticks").is_visible()
