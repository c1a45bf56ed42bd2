"""The page after the print, several texts, back and forth, the keyboard alone, forced colours: in Debian's Chromium,
from a disk, with the network off.

Outside check: axe-core holds the page and the reviews in its frames against W3C WCAG 2.2 AA.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from profilesmith.engine.mend import Said
from profilesmith.library.find import shipped
from profilesmith.mend.load_troubles import shipped_troubles
from profilesmith.review.render import render
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.mend import mend
from profilesmith.workflows.motion.check import MotionOrder, check
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import review_again
from profilesmith.workflows.write_mend import write_mend
from tests.browser.as_page import inside
from tests.browser.as_page import page as as_page
from tests.browser.walk import Walk, axe_finds

DEMO = shipped() / "demo"
RECIPES = ("flexible-pla", "part-soft")


@pytest.fixture(scope="module")
def walk(browser: Any, page_file: Path) -> Iterator[Walk]:
    context = browser.new_context(viewport={"width": 1280, "height": 900}, offline=True, locale="en-GB")
    yield Walk(context.new_page(), page_file)
    context.close()


def printed(folder: Path) -> list[str]:
    """A derived text with its ledger, edited by hand since, beside what it came from."""
    for name in ("base.settings", "keymap.toml", "soft.motion", "words.toml"):
        shutil.copy(DEMO / name, folder)
    write(
        derive(Request(("base.settings",), "keymap.toml", RECIPES, answers={"machine.drive": "direct"})),
        "soft.settings",
    )
    soft = Path("soft.settings")
    soft.write_bytes(soft.read_bytes().replace(b"gather = 600", b"gather = 500"))
    return ["soft.settings", "soft.settings.ledger.json", "base.settings", "keymap.toml"]


def test_after_the_print(walk: Walk, axe: str, tmp_path: Path) -> None:
    """What is wrong is found by a German word, the change and the motion file's review are the command line's bytes."""
    page = walk.page
    with inside(tmp_path):
        names = printed(tmp_path)
        page.check("#road-after")
        page.set_input_files("#laid-files", names[:2])
        page.wait_for_selector("#needs")
        assert "base.settings" in page.inner_text("#needs")
        page.set_input_files("#laid-files", names[2:])
        page.wait_for_selector("#head-again + div iframe")
        walk.settled()
        assert page.evaluate("document.activeElement.id") == "head-again", "focus moves to what is new"
        again = review_again("soft.settings")
        assert again.edited
        assert page.evaluate("new TextDecoder().decode(after.review)").encode() == as_page(again.review)
        page.fill("#sought", "fäden")
        page.click("#chips button")
        walk.settled()
        day = page.evaluate("today()")
        said = Said({"stringing": "poor"}, date=day)
        made = write_mend(mend("soft.settings", said, shipped_troubles()), said)
        write(made, "soft-2.settings")
        for name in ("soft-2.settings", "soft-2.settings.ledger.json"):
            assert walk.saved(name) == Path(name).read_bytes(), name
        page.set_input_files("#words-file", "words.toml")
        page.set_input_files("#motion-file", "soft.motion")
        page.wait_for_selector("#head-motion + div iframe")
        walk.settled()
        wanted = render(check("soft.motion", MotionOrder("soft.settings", "words.toml")), "page")
        assert page.evaluate("new TextDecoder().decode(after.motion.files[0])") == wanted
    assert [url for url in walk.asked if not url.startswith("blob:")] == [walk.asked[0]]
    assert walk.said == []
    for width in (1280, 360):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert axe_finds(page, axe, frames=width == 360) == []
    page.set_viewport_size({"width": 1280, "height": 900})


def test_a_ledger_that_is_none_is_told(walk: Walk, tmp_path: Path) -> None:
    bad = tmp_path / "soft.settings.ledger.json"
    bad.write_text('{"kind": "<img src=x onerror=window.pwned=1>"}', encoding="utf-8")
    walk.page.check("#road-after")
    walk.page.evaluate("takeLaid([])")
    walk.page.set_input_files("#laid-files", str(bad))
    walk.settled()
    assert "no ledger" in walk.page.inner_text("#head-files + div [role=alert]")
    assert walk.page.evaluate("window.pwned") is None
    walk.page.evaluate("takeLaid([])")


def test_several_texts_of_one_profile(walk: Walk, tmp_path: Path) -> None:
    """Two texts are read as one profile; one is left out again; the new ones keep their names."""
    page = walk.page
    text = (DEMO / "base.settings").read_bytes()
    at = text.index(b"\n[", len(text) // 2) + 1
    (tmp_path / "one.settings").write_bytes(text[:at])
    (tmp_path / "two.settings").write_bytes(text[at:])
    page.check("#road-new")
    page.set_input_files("#text-file", str(tmp_path / "one.settings"))
    page.wait_for_selector("#more-files", state="attached")
    walk.settled()
    page.set_input_files("#more-files", str(tmp_path / "two.settings"))
    walk.settled()
    page.check("[id='map-keymap.toml']")
    walk.settled()
    whole = page.evaluate("state.reading.values.length")
    walk.want(*RECIPES)
    assert page.locator("#files .name").all_inner_texts()[:2] == ["one.settings", "two.settings"]
    assert "folder of their own" in page.inner_text("#head-take + div")
    page.get_by_role("button", name="Leave out: two.settings").click()
    walk.settled()
    assert page.evaluate("state.reading.values.length") < whole


def test_back_and_forth_loses_nothing(walk: Walk) -> None:
    """Answers, choices and bytes are the same after a recipe was taken out and in, another road, another language."""
    page = walk.page
    page.evaluate("takeTexts([])")
    page.get_by_role("button", name="Try an example").click()
    page.wait_for_selector("[id='map-keymap.toml']:checked")
    walk.settled()
    for word in RECIPES:
        page.check(f"#recipe-{word}")
    walk.settled()
    page.select_option("#f-q-machine-drive", "remote")
    walk.settled()
    before = page.evaluate("new TextDecoder().decode(state.review)")
    commands = page.locator("[name=choice-follow]").count()
    assert commands == 2, "the start commands are asked for"
    page.check("#choice-follow-follow")
    walk.settled()
    followed = page.evaluate("new TextDecoder().decode(state.review)")
    assert followed != before, "an answer shows its effect at once"
    page.uncheck("#recipe-part-soft")
    walk.settled()
    page.check("#road-after")
    page.select_option("#language", "de")
    page.check("#road-new")
    page.select_option("#language", "en")
    page.check("#recipe-part-soft")
    walk.settled()
    assert page.input_value("#f-q-machine-drive") == "remote"
    assert page.evaluate("new TextDecoder().decode(state.review)") == followed
    page.check("#choice-follow-keep")
    walk.settled()
    assert page.evaluate("new TextDecoder().decode(state.review)") == before


def test_what_is_typed_while_the_engine_works_stays(walk: Walk) -> None:
    page = walk.page
    page.fill("#f-q-spool-nozzle_window", "21")
    page.evaluate("draw('questions')")
    assert page.input_value("#f-q-spool-nozzle_window") == "21"
    assert page.evaluate("document.activeElement.id") == "f-q-spool-nozzle_window"
    page.fill("#f-q-spool-nozzle_window", "")


def test_the_keyboard_alone(browser: Any, page_file: Path) -> None:
    """From the example to a saved text, with Tab, Space and Enter; what has focus is seen."""
    context = browser.new_context(viewport={"width": 1280, "height": 900}, offline=True, locale="en-GB")
    walk = Walk(context.new_page(), page_file)
    page = walk.page

    def tab_to(test: str) -> None:
        for _ in range(150):
            page.keyboard.press("Tab")
            if page.evaluate(f"(() => {{ const node = document.activeElement; return Boolean({test}); }})()"):
                outline = "getComputedStyle(document.activeElement).outlineStyle"
                assert page.evaluate(outline) != "none", f"nothing shows that it has focus: {test}"
                return
        raise AssertionError(f"no way by keyboard: {test}")

    tab_to("node.textContent === 'Try an example'")
    page.keyboard.press("Enter")
    page.wait_for_selector("input[name=map]:checked")
    walk.settled()
    tab_to("node.id === 'recipe-flexible-pla'")
    page.keyboard.press("Space")
    walk.settled()
    tab_to("node.id === 'f-q-machine-drive'")
    page.keyboard.press("ArrowDown")
    walk.settled()
    assert page.evaluate("state.answers['machine.drive']") == "direct"
    tab_to("node.textContent === 'Save' && node.classList.contains('main')")
    with page.expect_download() as waiting:
        page.keyboard.press("Enter")
    assert waiting.value.suggested_filename.endswith(".settings")
    page.emulate_media(forced_colors="active", reduced_motion="reduce")
    chosen = ".road:has(input:checked)"
    assert page.evaluate(f"getComputedStyle(document.querySelector('{chosen}')).outlineStyle") == "solid"
    assert page.evaluate("getComputedStyle(document.documentElement).scrollBehavior") == "auto"
    assert page.evaluate("getComputedStyle(document.querySelector('section.step')).transitionDuration") == "0s"
    context.close()
