"""How the page and the checklist look: figures seen, narrow screens, paper, contrast, colour-blind eyes.

Outside checks: axe-core holds the pages against W3C WCAG 2.2 AA; Chromium itself emulates colour-blind eyes.
"""

from __future__ import annotations

import base64
import re
from typing import Any

import pytest

from profilesmith.review.render import render
from profilesmith.review.review import Review
from tests.browser.walk import axe_look

FORMS = ["page", "checklist-page"]
Opener = Any


WITH_VALUES = (*FORMS, "sheet-page")


@pytest.mark.parametrize("width", [1280, 360])
def test_figures_are_seen_and_their_words_stay_inside(opened: Opener, full: Review, width: int) -> None:
    page = opened(render(full, "page"), width=width).page
    charts = page.locator("figure svg.chart")
    assert charts.count() >= 2
    page.evaluate("document.querySelectorAll('#changes details').forEach((fold) => { fold.open = true; })")
    assert page.locator("#changes .window svg.chart").count() > 15
    sizes = "(found) => found.map((item) => item.getBoundingClientRect()).map((box) => [box.width, box.height])"
    assert all(wide > 200 and high > 40 for wide, high in page.locator("svg.chart").evaluate_all(sizes))
    tables = page.locator("figure table").evaluate_all(sizes)
    assert len(tables) == charts.count()
    assert all(wide > 100 and high > 20 for wide, high in tables)
    # Words are as large as the page's small print at any width, and none leaves the card.
    sizes = page.evaluate(
        "[...document.querySelectorAll('svg.chart text')].map((text) => parseFloat(getComputedStyle(text).fontSize))"
    )
    assert min(sizes) >= 13
    outside = page.evaluate("""[...document.querySelectorAll('figure, .window')].flatMap((card) => {
        const outer = card.getBoundingClientRect();
        return [...card.querySelectorAll('svg.chart text')].filter((text) => {
            const inner = text.getBoundingClientRect();
            return inner.left < outer.left - 1.5 || inner.right > outer.right + 1.5 || inner.bottom > outer.bottom;
        }).map((text) => text.textContent);
    })""")
    assert outside == []


def test_tick_numbers_do_not_run_into_each_other(opened: Opener, full: Review) -> None:
    seen = opened(render(full, "page"), width=360)
    seen.open_all()
    page = seen.page
    clashes = page.evaluate("""[...document.querySelectorAll('svg.chart')].flatMap((chart) => {
        const boxes = [...chart.querySelectorAll('text.f-tick')].map((text) => text.getBoundingClientRect());
        return boxes.flatMap((one, at) => boxes.slice(at + 1).filter((other) =>
            Math.min(one.right, other.right) - Math.max(one.left, other.left) > 0 &&
            Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 4)
            .map(() => chart.getAttribute('aria-label')));
    })""")
    assert clashes == []


@pytest.mark.parametrize("form", WITH_VALUES)
@pytest.mark.parametrize("width", [360, 320])
def test_a_telephone_scrolls_in_one_direction_only(opened: Opener, full: Review, form: str, width: int) -> None:
    seen = opened(render(full, form), width=width)
    seen.open_all()
    assert seen.page.evaluate("document.documentElement.scrollWidth") <= width


def test_very_long_words_of_strangers_do_not_widen_the_page(opened: Opener, with_text: Any) -> None:
    for form in FORMS:
        seen = opened(render(with_text("x" * 300), form), width=360)
        seen.open_all()
        assert seen.page.evaluate("document.documentElement.scrollWidth") <= 360


def test_the_demo_prints_on_four_sheets(opened: Opener, demo: Review) -> None:
    sheet = opened(render(demo, "page")).page.pdf(prefer_css_page_size=True)
    assert len(re.findall(rb"/Type /Page\b", sheet)) <= 4


@pytest.mark.parametrize("form", FORMS)
def test_prints_on_a4_what_was_opened(opened: Opener, full: Review, form: str) -> None:
    seen = opened(render(full, form))
    if form == "page":
        seen.page.get_by_text("Support density").first.click()
    sheet = seen.page.pdf(prefer_css_page_size=True)
    assert sheet.startswith(b"%PDF")
    width, height = map(float, re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", sheet)[0])
    assert (round(width), round(height)) == (595, 842)  # ISO 216 A4 in points
    assert 2 <= len(re.findall(rb"/Type /Page\b", sheet)) <= 12
    seen.page.emulate_media(media="print", color_scheme="dark")
    if form == "page":
        reasons = seen.page.locator("#changes dl").evaluate_all("(all) => all.map((one) => one.checkVisibility())")
        assert sum(reasons) == 1
        assert len(reasons) > 15
        assert not seen.page.locator(".tools").is_visible()
    # Paper is white, whatever the reader's screen is like.
    assert seen.page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"


EVERYWHERE = [
    *((form, 1280, scheme) for form in WITH_VALUES for scheme in ("light", "dark")),
    *((form, 360, "light") for form in WITH_VALUES),
    ("page", 360, "dark"),
    *(("page", width, "forced") for width in (1280, 360)),
    ("checklist-page", 360, "forced"),
]


def test_axe_sees_what_it_is_to_see(opened: Opener, axe: str) -> None:
    page = '<html lang="en"><title>A page</title><main><h1>A page</h1><img src="data:,"></main></html>'
    look = axe_look(opened(page).page, axe)
    assert [(rule, html) for rule, html, _ in look.found] == [("image-alt", '<img src="data:,">')]
    assert "document-title" in look.passed


@pytest.mark.parametrize(("form", "width", "scheme"), EVERYWHERE)
def test_axe_finds_nothing(opened: Opener, full: Review, axe: str, form: str, width: int, scheme: str) -> None:
    seen = opened(render(full, form), width=width, scheme="dark" if scheme == "dark" else "light")
    if scheme == "forced":
        seen.page.emulate_media(forced_colors="active")
    seen.open_all()
    # Only its colours tell the dark page from the light one.
    short = scheme == "dark" or (scheme, width) == ("forced", 1280)
    rules = {"runOnly": ["color-contrast"]} if short else {}
    look = axe_look(seen.page, axe, **rules)
    assert look.found == []
    names = {
        "color-contrast",
        "document-title",
        "list",
        "region",
        "td-headers-attr" if form == "sheet-page" else "label",
    }
    assert look.passed >= ({"color-contrast"} if short else names)


def oklab(red: float, green: float, blue: float) -> tuple[float, float, float]:
    """sRGB (0 to 255) to OKLab (Ottosson 2020, "A perceptual color space for image processing")."""
    linear = [
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
        for value in (red / 255, green / 255, blue / 255)
    ]
    mixed = [
        sum(weight * value for weight, value in zip(weights, linear, strict=True)) ** (1 / 3)
        for weights in (
            (0.4122214708, 0.5363325363, 0.0514459929),
            (0.2119034982, 0.6806995451, 0.1073969566),
            (0.0883024619, 0.2817188376, 0.6299787005),
        )
    ]
    light, a, b = (
        sum(weight * value for weight, value in zip(weights, mixed, strict=True))
        for weights in (
            (0.2104542553, 0.7936177850, -0.0040720468),
            (1.9779984951, -2.4285922050, 0.4505937099),
            (0.0259040371, 0.7827717662, -0.8086757660),
        )
    )
    return light, a, b


READ_PIXEL = """async (picture) => {
    const image = new Image();
    image.src = `data:image/png;base64,${picture}`;
    await image.decode();
    const canvas = new OffscreenCanvas(image.width, image.height).getContext('2d');
    canvas.drawImage(image, 0, 0);
    return [...canvas.getImageData(image.width / 2, image.height / 2, 1, 1).data].slice(0, 3);
}"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_up_and_down_differ_in_colour_for_all_eyes(opened: Opener, demo: Review, scheme: str) -> None:
    page = opened(render(demo, "page"), scheme=scheme, alone=True).page
    emulation = page.context.new_cdp_session(page)
    # The canvas of a blank page reads the colour in the middle of each sign.
    reader = opened("<!doctype html><title>reader</title>").page
    seen = {}
    for eyes in ("none", "deuteranopia", "protanopia", "tritanopia"):
        emulation.send("Emulation.setEmulatedVisionDeficiency", {"type": eyes})
        shots = [base64.b64encode(page.locator(f".key b.{sign}").screenshot()).decode() for sign in ("down", "up")]
        one, other = seen[eyes] = [oklab(*reader.evaluate(READ_PIXEL, shot)) for shot in shots]
        # A difference of 0.02 is just seen; 0.1 is plain.
        assert sum((a - b) ** 2 for a, b in zip(one, other, strict=True)) ** 0.5 > 0.1, eyes
    assert seen["none"] != seen["deuteranopia"] != seen["tritanopia"]  # the emulation was at work
