"""The index of a large library in Chromium: found by words and filters, sorted by evidence, small and quick."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.catalogue.catalogue import Catalogue, RecipeEntry
from profilesmith.catalogue.page import render
from profilesmith.evidence.record import Record
from profilesmith.evidence.tally import tally
from profilesmith.recipe.recipe import Recipe
from tests.browser.lent_pages import Watched

RECIPES = 300
LARGEST = 100_000  # bytes of the index


def entry(number: int) -> RecipeEntry:
    material = ("flexible PLA", "TPU 95A")[number % 2]
    title = f"{material} from a profile that prints rigid PLA, the way of bench {number}"
    recipe = Recipe(f"soft-{number}", "1.0.0", title, (), {}, "rigid PLA", material)
    facts = {"machine.drive": "remote", "machine.nozzle_diameter": "0.6 mm"}
    prints = number if number in (3, 5) else 0
    made = [Record("2030-01-31", recipe.name, "1.0.0", "worked", {}, facts, {}, f"{at:08x}") for at in range(prints)]
    return RecipeEntry(recipe.name, recipe.name, recipe, tally(recipe.name, "1.0.0", made), ())


@pytest.fixture(scope="module")
def index(tmp_path_factory: pytest.TempPathFactory) -> Path:
    entries = tuple(entry(number) for number in range(RECIPES))
    path = tmp_path_factory.mktemp("pages") / "index.html"
    pages = render(Catalogue("club", "", "CC0-1.0", (), entries, (), "profilesmith"))
    path.write_text(pages["index.html"], encoding="utf-8")
    return path


@pytest.fixture
def page(opened_file: Callable[..., Watched], index: Path) -> Any:
    return opened_file(index, width=360).page


def shown(page: Any) -> list[str]:
    return page.locator("[data-f]").evaluate_all(
        "(all) => all.filter((row) => row.checkVisibility()).map((row) => row.textContent)"
    )


def test_the_index_is_small(index: Path) -> None:
    assert index.stat().st_size <= LARGEST


def test_recipes_are_found_by_words_and_filters(page: Any) -> None:
    assert len(shown(page)) == RECIPES
    page.fill("#find", "tpu bench 29")
    assert [text for text in shown(page) if "soft-291" in text]
    assert all("TPU" in text and "29" in text for text in shown(page))
    page.fill("#find", "")
    page.select_option("#to", "to:flexible PLA")
    assert len(shown(page)) == RECIPES // 2
    page.select_option("#to", "")
    page.select_option("#tried", "tried")
    assert len(shown(page)) == 2
    page.select_option("#bore", "bore:0.6 mm nozzle")
    page.select_option("#drive", "drive:drive through a tube")
    assert len(shown(page)) == 2
    assert page.inner_text("#told") == f"2 of {RECIPES} recipes"
    page.select_option("#part", "part")
    assert shown(page) == []


def test_most_evidence_first(page: Any) -> None:
    page.select_option("#order", "evidence")
    first = shown(page)[:2]
    assert ["soft-5" in first[0], "soft-3" in first[1]] == [True, True]
    page.select_option("#order", "name")
    assert "soft-0" in shown(page)[0]


def test_nothing_scrolls_sideways(page: Any) -> None:
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
