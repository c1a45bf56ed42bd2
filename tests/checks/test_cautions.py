"""Cautions: those that the change makes apply, once, and never talked away by a recipe."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from profilesmith.checks.cautions import TRIGGERS, cautions_of, known_cautions, merged
from tests.checks.samples import case

RECIPES = Path(__file__).resolve().parents[2] / "recipes"
ALWAYS = ["fumes", "fire", "burns"]


def ids(
    now: dict[str, str | None] | None = None,
    told: dict[str, str] | None = None,
    base: dict[str, str | None] | None = None,
) -> list[str]:
    return [item.id for item in cautions_of([case(now, told, base)])]


def test_an_everyday_print_has_those_that_always_apply() -> None:
    assert ids() == ALWAYS


@pytest.mark.parametrize(
    ("now", "told", "more"),
    [
        ({"nozzle.temperature": "235 °C"}, {}, ["heat"]),
        ({"nozzle.temperature": "245 °C"}, {}, ["heat", "liner"]),
        ({"nozzle.temperature": "245 °C"}, {"machine.liner": "all-metal"}, ["heat"]),
        ({"first_layer.nozzle_temperature": "245 °C"}, {"machine.liner": "PTFE"}, ["heat", "liner"]),
        ({}, {"spool.drying_time": "6 h"}, ["drying"]),
        ({}, {"spool.material": "TPU 95A"}, ["drying", "skin"]),
        ({}, {"spool.material": "TPU 95A", "part.skin_contact": "no"}, ["drying"]),
        ({}, {"part.skin_contact": "yes"}, ["skin"]),
        ({}, {"part.sanding_allowance": "0.3 mm"}, ["sanding-dust", "sanding-heat"]),
        ({}, {"part.sanding_allowance": "0 mm"}, []),
        ({}, {"part.coating": "elastic"}, ["spray", "isocyanates"]),
        ({}, {"part.coating": "none"}, []),
    ],
)
def test_what_applies(now: dict[str, str | None], told: dict[str, str], more: list[str]) -> None:
    assert ids(now, told) == [*ALWAYS, *more]


def test_a_long_print_may_take_so_much_longer() -> None:
    ours = cautions_of([case({"infill.speed": "20 mm/s"}, base={})])
    assert "may take up to 4 times" in next(item.text for item in ours if item.id == "long-print")


def test_a_long_print() -> None:
    assert "long-print" in ids({"infill.speed": "20 mm/s"}, base={})
    assert "long-print" not in ids({"infill.speed": "70 mm/s"}, base={})


def test_every_trigger_is_known() -> None:
    assert {item.trigger for item in known_cautions()} == set(TRIGGERS)


def test_a_recipe_that_says_the_same_is_not_repeated() -> None:
    ours = cautions_of([case()])
    said = "Ventilate the room and stay out of the plume: every melted plastic gives off fine particles and vapours."
    more = "Thin soft walls tear sooner. Try the part by hand before something depends on it."
    assert merged(ours, [said, more, more]) == (*(item.text for item in ours), more)


def test_a_recipe_with_a_number_says_more() -> None:
    ours = cautions_of([case(told={"spool.material": "TPU 95A"})])
    text = "Dry the spool in a dryer at 55 °C, in no oven."
    shown = merged(ours, ["Own.", text])
    assert shown[-1] == "Own."
    assert shown.index(text) == next(number for number, item in enumerate(ours) if item.id == "drying") + 1


def test_no_recipe_talks_a_caution_away() -> None:
    ours = cautions_of([case()])
    shown = merged(ours, ["No need to ventilate, the plume is harmless and fumes are fine."])
    assert shown == tuple(item.text for item in ours)


def test_the_words_by_which_repeats_are_known_are_our_own() -> None:
    """Each caution is recognised by its own text, or nothing would ever be a repeat."""
    for item in known_cautions():
        assert len(item.said) >= 2, item.id
        assert any(word in item.text.casefold() for word in item.said), item.id
        assert all(word == word.casefold() for word in item.said)


def test_of_the_shipped_recipes_only_repeats_are_dropped() -> None:
    """A recipe's own caution is dropped only where one of ours on the same matter is shown."""
    told = {"spool.material": "flexible PLA", "part.sanding_allowance": "0.3 mm", "part.coating": "elastic"}
    ours = cautions_of([case({"infill.speed": "20 mm/s"}, told, base={})])
    dropped = 0
    for path in (path for path in RECIPES.glob("*.toml") if path.name != "library.toml"):
        texts = tomllib.loads(path.read_text(encoding="utf-8"))["recipe"].get("cautions", [])
        kept = merged(ours, texts)
        for text in set(texts) - set(kept):
            dropped += 1
            assert any(sum(word in text.casefold() for word in item.said) >= 2 for item in ours)
    assert dropped >= 5
