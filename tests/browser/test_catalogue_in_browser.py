"""The catalogue in a real browser: quiet, inert, linked, reached by keyboard, on narrow screens, paper and in the dark.

Outside checks: axe-core holds the pages against W3C WCAG 2.2 AA; Chromium itself forces a reader's own colours on a
page.
"""

from __future__ import annotations

import re
import shutil
import tomllib
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from profilesmith.evidence.append_record import append_record
from profilesmith.evidence.record import Record
from profilesmith.library.find import shipped
from profilesmith.workflows.catalogue import write_catalogue
from profilesmith.write_files import write_whole
from tests.browser.lent_pages import Watched
from tests.browser.walk import axe_look

VERSION = tomllib.loads((Path(__file__).parents[2] / "recipes/flexible-pla.toml").read_text(encoding="utf-8"))[
    "recipe"
]["version"]

HOSTILE = (
    "'\"><img src=x "
    "onerror=alert(1)><script>window.pwned=1;alert(2)</script></style></title></svg><b "
    "onclick=alert(3)>{{7*7}}\\u202e"
)
Opener = Callable[..., Watched]


def evidence(folder: Path, note: str) -> None:
    """Invented prints, for the test alone."""
    record = Record(
        "2030-01-31",
        "flexible-pla",
        VERSION,
        "worked",
        {"adhesion": "good", "softness": "fair"},
        {"machine.drive": "remote", "machine.tube_length": "420 mm", "spool.nozzle_window": "210 °C to 220 °C"},
        {},
        "00000001",
        note=note,
    )
    for item in (
        record,
        record._replace(mark="00000002", outcome="partly"),
        record._replace(mark="00000003", outcome="failed", facts={}),
    ):
        assert append_record(folder / "evidence" / "flexible-pla.jsonl", item, write_whole) == []


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shipped library's pages, with some evidence."""
    folder = tmp_path_factory.mktemp("catalogue")
    shutil.copytree(shipped(), folder / "club")
    evidence(folder / "club", "The gaiter came off the bed without a mark.")
    write_catalogue(folder / "club", folder / "pages", "page")
    return folder / "pages"


@pytest.fixture(scope="module")
def with_word(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    """The pages of a library with a stranger's word in every text."""

    def make(word: str) -> Path:
        folder = tmp_path_factory.mktemp("catalogue")
        shutil.copytree(shipped(), folder / "club")
        text = word.replace('"', '\\"')
        recipe = folder / "club" / "flexible-pla.toml"
        lines = recipe.read_text(encoding="utf-8")
        for key in ("title", "from", "to", "licence", "why", "source", "ask"):
            lines = re.sub(rf'^{key} = ".*"$', lambda _, key=key: f'{key} = "{text}"', lines, flags=re.MULTILINE)
        lines = lines.replace("cautions = [", f'cautions = ["{text}", ').replace("Profilesmith contributors", text)
        recipe.write_text(lines, encoding="utf-8")
        (folder / "club" / "torn.toml").write_text(f'format = 1\n"{text}" = 1\n', encoding="utf-8")
        library = folder / "club" / "library.toml"
        library.write_text(
            re.sub(
                r'(?m)^(name|about) = "(shipped|Recipes.*)"$',
                lambda found: f'{found.group(1)} = "{text}"',
                library.read_text(encoding="utf-8"),
            ),
            encoding="utf-8",
        )
        evidence(folder / "club", word.replace("\\u202e", "")[:400])
        write_catalogue(folder / "club", folder / "pages", "page")
        return folder / "pages"

    return make


NAMES = ["index.html", "flexible-pla.html", "part-soft.html"]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_is_said_on_the_console_and_nothing_is_fetched(
    opened_file: Opener, pages: Path, name: str, scheme: str
) -> None:
    found = opened_file(pages / name, scheme=scheme)
    found.open_all()
    found.page.wait_for_timeout(50)
    assert found.said == []
    assert len(found.asked) == 1  # the file itself


def test_links_lead_from_the_index_to_a_recipe_and_back_from_files_alone(opened_file: Opener, pages: Path) -> None:
    page = opened_file(pages / "index.html", script=False).page
    page.get_by_role("link", name="Flexible PLA from a profile that prints rigid PLA").click()
    assert page.inner_text("h1") == "Flexible PLA from a profile that prints rigid PLA"
    page.get_by_role("link", name="All recipes").click()
    assert page.url == (pages / "index.html").as_uri()


def test_the_keyboard_reaches_every_recipe_and_opens_a_row(opened_file: Opener, pages: Path) -> None:
    page = opened_file(pages / "index.html").page
    reached = []
    for _ in range(20):
        page.keyboard.press("Tab")
        reached.append(page.evaluate("document.activeElement.getAttribute('href')"))
    assert {path.name for path in pages.glob("*.html")} - {"index.html"} <= set(reached)
    page = opened_file(pages / "flexible-pla.html").page
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.matches('.row summary')"):
            break
    assert page.evaluate("getComputedStyle(document.activeElement).outlineWidth") == "3px"
    page.keyboard.press("Enter")
    assert f"flexible-pla {VERSION}, rule" in page.locator("details[open] dl").first.inner_text()


def test_without_script_nothing_is_missing_but_the_tools(opened_file: Opener, pages: Path) -> None:
    bare, lively = (opened_file(pages / "flexible-pla.html", script=script).page for script in (False, True))
    assert not bare.locator(".tools").is_visible()
    assert lively.locator(".tools").is_visible()
    for what in (".row summary", ".rules li", ".sheet tr", "h2"):
        assert bare.locator(what).all_inner_texts() == lively.locator(what).all_inner_texts() != []


def test_finding_and_opening_work_on_the_rows(opened_file: Opener, pages: Path) -> None:
    page = opened_file(pages / "flexible-pla.html").page
    page.fill("#find", "retraction")
    shown = page.locator(".row").evaluate_all(
        "(found) => found.filter((row) => row.checkVisibility()).map((row) => row.textContent.toLowerCase())"
    )
    assert shown
    assert all("retraction" in text for text in shown)
    page.fill("#find", "")
    page.click("#open")
    assert page.locator("main details:not([open])").count() == 0


@pytest.mark.parametrize("allowed", [True, False])
def test_the_command_is_copied_or_where_that_may_not_be_lies_selected(
    opened_file: Opener, pages: Path, allowed: bool
) -> None:
    page = opened_file(pages / "flexible-pla.html").page
    if allowed:
        page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    else:
        page.evaluate("Object.defineProperty(navigator, 'clipboard', { get() { throw new Error('not here'); } })")
    page.locator("#use summary").click()
    call = page.locator("#use code").inner_text()
    assert call.startswith("profilesmith derive ")
    page.get_by_role("button", name="Copy profilesmith derive").click()
    page.wait_for_function("document.getElementById('told').textContent !== ''")
    told = page.inner_text("#told")
    copied = page.evaluate("navigator.clipboard.readText()" if allowed else "getSelection().toString()")
    assert (told.startswith("Copied"), copied.strip()) == (allowed, call)


def test_the_range_is_drawn_where_the_numbers_say(opened_file: Opener, pages: Path) -> None:
    """1 of 3 worked: 0.84 % to 90.6 % (SciPy's binomtest); the stroke at a third."""
    page = opened_file(pages / "flexible-pla.html").page
    whole, band, stroke = (
        page.locator(f"svg.range .{name}").bounding_box() for name in ("f-track-area", "f-range", "f-seen")
    )
    ends = band["x"], band["x"] + band["width"], stroke["x"] + stroke["width"] / 2
    assert [(end - whole["x"]) / whole["width"] for end in ends] == pytest.approx([0.0084, 0.9057, 1 / 3], abs=0.005)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("width", [360, 320])
def test_a_telephone_scrolls_in_one_direction_only(opened_file: Opener, pages: Path, name: str, width: int) -> None:
    found = opened_file(pages / name, width=width)
    found.open_all()
    assert found.page.evaluate("document.documentElement.scrollWidth") <= width
    cut = found.page.evaluate("""[...document.querySelectorAll('.sheet th, .sheet td')].filter((cell) =>
        cell.checkVisibility() && cell.closest('tbody') && cell.scrollWidth > cell.clientWidth + 1)
        .map((cell) => cell.textContent)""")
    assert cut == []


def test_each_cell_tells_its_column_on_a_telephone(opened_file: Opener, pages: Path) -> None:
    told = opened_file(pages / "index.html", width=360).page.locator("tbody tr").nth(1).inner_text()
    for word in ("From → to", "Version", "Evidence", "1 of 3 worked", "Cautions"):
        assert word in told
    wide = opened_file(pages / "index.html").page
    assert not wide.locator("tbody .head").first.is_visible()


def test_very_long_words_of_strangers_do_not_widen_the_page(opened_file: Opener, with_word: Any) -> None:
    folder = with_word("x" * 390)
    for name in ("index.html", "flexible-pla.html"):
        for width in (1280, 360):
            found = opened_file(folder / name, width=width)
            found.open_all()
            assert found.page.evaluate("document.documentElement.scrollWidth") <= width


def test_a_hostile_library_does_nothing(opened_file: Opener, with_word: Any) -> None:
    hostile, harmless = with_word(HOSTILE), with_word("harmless")
    for name in ("index.html", "flexible-pla.html"):
        bad, good = opened_file(hostile / name), opened_file(harmless / name)
        for found in (bad, good):
            found.open_all()
            found.page.mouse.click(400, 300)
        bad.page.wait_for_timeout(100)
        assert (bad.dialogs, bad.said, len(bad.asked)) == ([], [], 1)
        assert bad.page.evaluate("window.pwned === undefined")
        count = "document.querySelectorAll('*').length"
        assert bad.page.evaluate(count) == good.page.evaluate(count)
        assert "<script>window.pwned=1;alert(2)</script>" in bad.page.inner_text("body")
        assert "{{7*7}}" in bad.page.inner_text("body")


@pytest.mark.parametrize("name", NAMES)
def test_prints_on_a4(opened_file: Opener, pages: Path, name: str) -> None:
    found = opened_file(pages / name)
    sheet = found.page.pdf(prefer_css_page_size=True)
    width, height = map(float, re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", sheet)[0])
    assert (round(width), round(height)) == (595, 842)  # ISO 216 A4 in points
    assert 1 <= len(re.findall(rb"/Type /Page\b", sheet)) <= 7
    found.page.emulate_media(media="print", color_scheme="dark")
    assert found.page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    assert found.page.locator(".sheet").first.is_visible()
    assert found.page.locator(".tools").count() == 0 or not found.page.locator(".tools").is_visible()


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("scheme", "width"), [("light", 1280), ("dark", 1280), ("light", 360)])
def test_axe_finds_nothing(opened_file: Opener, pages: Path, axe: str, name: str, scheme: str, width: int) -> None:
    found = opened_file(pages / name, scheme=scheme, width=width)
    found.open_all()
    look = axe_look(found.page, axe)
    assert look.found == []
    assert look.passed >= {
        "color-contrast",
        "document-title",
        "heading-order",
        "region",
        "aria-required-children",
    }


@pytest.mark.parametrize("name", NAMES)
def test_headings_go_down_step_by_step_and_tables_have_captions(opened_file: Opener, pages: Path, name: str) -> None:
    page = opened_file(pages / name).page
    levels = page.evaluate("[...document.querySelectorAll('h1, h2, h3, h4')].map((item) => Number(item.tagName[1]))")
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    captions = page.evaluate(
        "[...document.querySelectorAll('table')].map((item) => (item.caption || {}).textContent || '')"
    )
    assert captions
    assert all(len(text) > 5 for text in captions)


def test_forced_colours_keep_the_range_visible(opened_file: Opener, pages: Path) -> None:
    page = opened_file(pages / "flexible-pla.html").page
    page.emulate_media(forced_colors="active")
    fills = page.evaluate(
        "['f-track-area', 'f-range', 'f-seen'].map((name) => getComputedStyle(document.querySelector(`.${name}`)).fill)"
    )
    assert fills[1] != fills[2]
