"""The page that derives, in Debian's Chromium, from a disk, with the network off: the whole road, as a person walks it.

Outside checks: axe-core holds every step against W3C WCAG 2.2 AA; Chromium enforces the page's policy.
"""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from profilesmith.library.find import shipped
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.request import Request
from tests.browser.walk import READY, Walk, axe_finds

DEMO = shipped() / "demo"


@pytest.fixture(scope="module")
def walk(browser: Any, page_file: Path) -> Iterator[Walk]:
    """One page for the tests that follow one another on the road."""
    context = browser.new_context(viewport={"width": 1280, "height": 900}, offline=True, locale="en-GB")
    yield Walk(context.new_page(), page_file)
    context.close()


def by_command(folder: Path, answers: dict[str, str]) -> dict[str, bytes]:
    """The same derivation by the goal behind the command line."""
    for name in ("base.settings", "keymap.toml"):
        shutil.copy(DEMO / name, folder)
    before = Path.cwd()
    os.chdir(folder)
    try:
        request = Request(("base.settings",), "keymap.toml", ("flexible-pla", "part-soft"), answers=answers)
        out = "soft.settings"
        write(derive(request), out, reports=(("soft-review.md", "markdown"), ("soft-review.html", "page")))
        return {path.name: path.read_bytes() for path in Path().glob("soft*")}
    finally:
        os.chdir(before)


def test_the_whole_road(walk: Walk, tmp_path: Path) -> None:
    """From a text on a disk to the derived text, the ledger and the reports: the same bytes as the command line's."""
    page = walk.page
    walk.text(DEMO / "base.settings")
    assert page.is_checked("[id='map-keymap.toml']"), "the map that knows the text is taken"
    assert "settings were read" in page.inner_text("#head-reading + div")
    assert page.evaluate("document.activeElement.id") == "head-reading", "focus moves to what is new"
    walk.want("flexible-pla", "part-soft")
    frame = page.frame_locator("iframe")
    assert "Flexible PLA" in frame.locator("h1").inner_text()
    before = page.inner_text("#head-review + div .headline")
    page.select_option("#f-q-machine-drive", "remote")
    walk.settled()
    page.fill("#f-q-spool-nozzle_window", "212")
    page.fill("#f-q-spool-nozzle_window-high", "218")
    page.keyboard.press("Tab")
    walk.settled()
    answers = page.evaluate("state.answers")
    assert answers == {"machine.drive": "remote", "spool.nozzle_window": "212 °C to 218 °C"}
    assert page.inner_text("#head-review + div .headline") or before
    page.fill("#out-name", "soft.settings")
    page.keyboard.press("Tab")
    walk.settled()
    wanted = by_command(tmp_path, answers)
    for name in ("soft.settings", "soft.settings.ledger.json", "soft-review.md", "soft-review.html"):
        assert walk.saved(name) == wanted[name], name


def test_nothing_left_the_machine(walk: Walk) -> None:
    """Counted over the whole road: the file itself, and what the page made of its own memory."""
    assert [url for url in walk.asked if not url.startswith("blob:")] == [walk.asked[0]]
    assert walk.asked[0].startswith("file:")
    assert walk.said == []
    assert walk.page.evaluate("localStorage.length") == 0


def test_the_policy_is_enforced(walk: Walk) -> None:
    """Neither the page nor its worker can ask for anything, whatever its script says."""
    assert walk.page.evaluate("fetch('https://example.org/').then(() => 'left', () => 'held')") == "held"
    script = "fetch('https://example.org/').then(() => postMessage('left'), () => postMessage('held'))"
    told = walk.page.evaluate(
        """(script) => new Promise((resolve) => {
            const worker = new Worker(URL.createObjectURL(new Blob([script])));
            worker.onmessage = (event) => resolve(event.data);
        })""",
        script,
    )
    assert told == "held"
    assert "default-src 'none'" in walk.page.locator("meta[http-equiv]").get_attribute("content")


def test_an_answer_that_is_none_is_told_beside_its_field(walk: Walk) -> None:
    page = walk.page
    page.fill("#f-q-spool-nozzle_window", "warm")
    page.keyboard.press("Tab")
    walk.settled()
    assert page.get_attribute("#f-q-spool-nozzle_window", "aria-invalid") == "true"
    assert page.locator("#f-q-spool-nozzle_window-hint").inner_text()
    page.fill("#f-q-spool-nozzle_window", "212")
    page.keyboard.press("Tab")
    walk.settled()
    assert page.get_attribute("#f-q-spool-nozzle_window", "aria-invalid") is None


def test_rules_that_do_not_meet_are_told(walk: Walk) -> None:
    walk.want("part-sandable")
    alert = walk.page.locator("#head-review + div [role=alert]")
    assert "part-sandable" in alert.inner_text()
    walk.page.uncheck("#recipe-part-sandable")
    walk.settled()
    assert walk.page.locator("#head-review + div [role=alert]").count() == 0


def test_a_fault_of_the_engine_loses_nothing(walk: Walk) -> None:
    """The engine is ended by a fault: it is told, a fresh one comes, and what was entered is still there."""
    page = walk.page
    answers = page.evaluate("state.answers")
    page.evaluate("delete document.documentElement.dataset.ready; engine.hear({fatal: 'out of memory'})")
    assert "out of memory" in page.inner_text("#fault")
    page.wait_for_selector("html[data-ready='1']", timeout=READY)
    walk.settled()
    assert page.evaluate("state.answers") == answers
    assert page.evaluate("state.texts[0].name") == "base.settings"
    assert page.locator("iframe").count() == 1


@pytest.mark.parametrize("width", [1280, 360])
def test_axe_finds_nothing(walk: Walk, axe: str, width: int) -> None:
    walk.page.set_viewport_size({"width": width, "height": 900})
    walk.page.evaluate("document.querySelectorAll('details').forEach((fold) => { fold.open = true; })")
    assert axe_finds(walk.page, axe, frames=width == 360) == []
    assert walk.page.evaluate("document.documentElement.scrollWidth") <= width, "nothing reaches out of a narrow screen"


def test_strangers_text_stays_text(browser: Any, page_file: Path, tmp_path: Path) -> None:
    """Nothing of a settings text or a map becomes markup or script; proposals are answered by keyboard alone."""
    context = browser.new_context(offline=True, locale="en-GB")
    walk = Walk(context.new_page(), page_file)
    word = "<img src=x onerror=window.pwned=1><script>window.pwned=1</script>"
    text = (DEMO / "base.settings").read_text(encoding="utf-8").replace("feed = 40", f"feed = 40\n{word} = {word}")
    (tmp_path / "<b>odd.settings").write_text(text, encoding="utf-8")
    walk.text(tmp_path / "<b>odd.settings")
    page = walk.page
    page.check("#map-new")
    walk.settled()
    first = page.inner_text("#asked")
    page.get_by_role("button", name="Yes, take it").focus()
    page.keyboard.press("Enter")
    walk.settled()
    assert page.inner_text("#asked") != first
    assert page.evaluate("document.activeElement.id") == "asked", "focus is on the next question"
    walk.want("flexible-pla")
    assert page.evaluate("window.pwned") is None
    assert page.locator("img, main script").count() == 0
    assert page.frame_locator("iframe").locator("img, script").count() == 0
    assert walk.said == []
    context.close()


def test_somebody_without_a_text(browser: Any, page_file: Path) -> None:
    context = browser.new_context(offline=True, locale="de-DE", viewport={"width": 360, "height": 800})
    walk = Walk(context.new_page(), page_file)
    page = walk.page
    assert page.get_attribute("html", "lang") == "de"
    page.select_option("#language", "en")
    page.get_by_role("button", name="I have no text").click()
    walk.settled()
    walk.want("tpu-95a")
    sheet = walk.saved("tpu-95a-checklist.html")
    assert b"TPU 95A" in sheet
    page.check("#keep")
    kept = json.loads(page.evaluate("localStorage.getItem('profilesmith')"))
    assert kept["recipes"] == ["tpu-95a"], "kept only because it was asked for"
    page.uncheck("#keep")
    assert page.evaluate("localStorage.length") == 0
    context.close()


def test_a_browser_that_cannot_is_told_so(browser: Any, page_file: Path, tmp_path: Path) -> None:
    """Without leave to run WebAssembly the loader's promise never settles: the page probes first."""
    text = page_file.read_text(encoding="utf-8").replace(" 'wasm-unsafe-eval'", "", 1)
    path = tmp_path / "old.html"
    path.write_text(text, encoding="utf-8")
    context = browser.new_context(locale="en-GB")
    page = context.new_page()
    page.set_default_timeout(READY)
    page.goto(path.as_uri())
    page.get_by_text("This browser cannot run the engine").wait_for(timeout=READY)
    context.close()


def test_the_file_is_small_enough_to_send(page_file: Path) -> None:
    import gzip

    raw = page_file.read_bytes()
    assert len(raw) <= 10_000_000
    assert len(gzip.compress(raw, 6)) <= 7_500_000


TOOLS_MAP = """format = 1
[keymap]
name = "two"
[[binding]]
setting = "outer_wall.speed"
key = "rim pace"
[[binding]]
setting = "nozzle.temperature"
key = "tip heat"
tools = true
list = "/"
"""


def test_which_tool_carries_the_spool_is_asked_on_the_page(browser: Any, page_file: Path, tmp_path: Path) -> None:
    """A text with values for two tools: a way for each and one for all, and what is chosen changes that tool alone."""
    text, key_map = tmp_path / "two.cfg", tmp_path / "two.toml"
    text.write_text("rim pace = 80\ntip heat = 230/225\n")
    key_map.write_text(TOOLS_MAP)
    context = browser.new_context(offline=True, locale="en-GB")
    walk = Walk(context.new_page(), page_file)
    page = walk.page
    walk.text(text)
    page.set_input_files("#map-file", str(key_map))
    walk.settled()
    walk.want("flexible-pla")
    ways = page.locator("input[name=choice-tool]")
    assert [ways.nth(at).get_attribute("id") for at in range(ways.count())] == [
        "choice-tool-keep",
        "choice-tool-1",
        "choice-tool-2",
    ]
    assert page.locator("fieldset:has(#choice-tool-1) legend").inner_text().endswith("Which of them carries the spool?")
    assert page.is_checked("#choice-tool-keep")
    page.check("#choice-tool-2")
    walk.settled()
    assert page.is_checked("#choice-tool-2")
    assert page.evaluate("state.answers['spool.tool']") == "2"
    assert "tool 2" in page.frame_locator("iframe").locator("body").inner_text().casefold()
    page.check("#choice-tool-keep")
    walk.settled()
    assert page.evaluate("'spool.tool' in state.answers") is False
    context.close()
