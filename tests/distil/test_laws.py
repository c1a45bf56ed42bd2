"""Properties over random hidden recipes and random bases (``hidden.py``)."""

from __future__ import annotations

import random
import tempfile
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st

from profilesmith.distil.distil import distil
from profilesmith.distil.examples import example_of
from profilesmith.distil.finding import Distilled
from profilesmith.distil.replay import Replay, replay, windows_of
from profilesmith.distil.sample import Sample, world_of
from profilesmith.library.run_examples import run_examples
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe, Rule
from profilesmith.review.distilled.as_rule import rule_of, tweak_rule
from profilesmith.review.distilled.remarks import remarks
from profilesmith.review.distilled.write_recipe import Head, WrittenRule, recipe_text
from tests.distil.hidden import VOCABULARY, Case, case, recipe_of

seeds = st.integers(0, 10**9)
counts = st.integers(1, 5)
few = settings(max_examples=25, deadline=None)


def rules_of(found: Distilled) -> tuple[Rule, ...]:
    return tuple(rule_of(item, number, len(found.samples), VOCABULARY) for number, item in enumerate(found.findings, 1))


def replayed(hidden: Case, found: Distilled, tweaks: bool) -> Replay:
    """The found recipe over every base, with each machine's tweaks where asked."""
    seen = [item for items in world_of(hidden.samples, VOCABULARY).seen.values() for item in items]
    common = [recipe_of("found", rules_of(found))]
    recipes: list[list[Recipe]] = []
    for sample in hidden.samples:
        mine = [tweak for tweak in found.tweaks if tweak.machine == sample.machine and tweak.fits and tweaks]
        recipes.append([*common, recipe_of("tweaks", tuple(tweak_rule(tweak, 1, VOCABULARY) for tweak in mine))])
    return replay(hidden.samples, recipes, seen, VOCABULARY, windows_of(found.findings))


def named(found: Distilled) -> set[tuple[int, str]]:
    """Pair and setting of everything that the report names as not given by the recipe."""
    seen = [item for finding in found.findings for item in finding.exceptions]
    seen += [item for tweak in found.tweaks for item in tweak.seen]
    seen += [item for none in found.no_rule for item in none.seen]
    return {(item.pair, item.setting) for item in seen}


@few
@given(seeds, counts, st.booleans())
@example(372208, 3, True)  # values near one another: a window with its aim, as the proof itself counts them
def test_every_pair_is_reproduced_or_the_exception_is_named(seed: int, pairs: int, noise: bool) -> None:
    hidden = case(seed, pairs, noise)
    found = distil(hidden.samples, VOCABULARY)
    result = replayed(hidden, found, tweaks=False)
    assert result.problems == ()
    assert {(miss.pair, miss.setting) for miss in result.misses} <= named(found)


@few
@given(seeds, counts)
def test_a_hidden_recipe_leaves_no_exception_to_a_rule(seed: int, pairs: int) -> None:
    """Without noise the tweaks make up for all that no rule was found for, but for two values that a window would
    explain.
    """
    hidden = case(seed, pairs)
    found = distil(hidden.samples, VOCABULARY)
    left = {(item.pair, item.setting) for none in found.no_rule for item in none.seen}
    left |= {(item.pair, item.setting) for tweak in found.tweaks if not tweak.fits for item in tweak.seen}
    result = replayed(hidden, found, tweaks=True)
    assert {(miss.pair, miss.setting) for miss in result.misses} <= left


@few
@given(seeds, counts)
def test_the_written_text_is_the_found_recipe_and_its_examples_pass(seed: int, pairs: int) -> None:
    hidden = case(seed, pairs, noise=True)
    found = distil(hidden.samples, VOCABULARY)
    rules = rules_of(found)
    if not rules:
        return
    seen = [item for items in world_of(hidden.samples, VOCABULARY).seen.values() for item in items]
    made = [
        example_of(number, sample, recipe_of("r", rules), seen, VOCABULARY)
        for number, sample in enumerate(hidden.samples)
    ]
    written = [
        WrittenRule(rule, item.excluded, remarks(item, found.samples, VOCABULARY))
        for rule, item in zip(rules, found.findings, strict=True)
    ]
    examples = [item for item in made if item is not None]
    text = recipe_text(Head("r", "title", "CC0-1.0"), written, examples, [sample.name for sample in found.samples], ())
    recipe = loaded(text)
    assert [(rule.named, rule.settings, rule.actions, rule.when) for rule in recipe.rules] == [
        (rule.named, rule.settings, rule.actions, rule.when) for rule in rules
    ]
    assert [fault for result in run_examples(recipe, VOCABULARY) for fault in result.faults] == []


def loaded(text: str) -> Recipe:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "r.toml")
        path.write_text(text, encoding="utf-8")
        recipe, problems = load_recipe(path.read_bytes(), "r.toml", VOCABULARY)
    assert recipe is not None, (problems, text)
    return recipe


@few
@given(seeds, st.integers(2, 5))
@example(20082, 4)  # rivals were once told apart on a pair that does not meet the condition
def test_the_order_of_pairs_does_not_matter(seed: int, pairs: int) -> None:
    hidden = case(seed, pairs)
    shuffled = list(hidden.samples)
    random.Random(seed).shuffle(shuffled)
    one, two = distil(hidden.samples, VOCABULARY), distil(shuffled, VOCABULARY)
    assert [(item.named, item.excluded, item.law, item.rivals) for item in one.findings] == [
        (item.named, item.excluded, item.law, item.rivals) for item in two.findings
    ]


@few
@given(seeds, counts)
def test_untuned_pairs_show_nothing(seed: int, pairs: int) -> None:
    samples = [Sample(item.name, item.machine, item.base, item.base, item.facts) for item in case(seed, pairs).samples]
    found = distil(samples, VOCABULARY)
    assert (found.findings, found.tweaks, found.no_rule, found.not_seen) == ((), (), (), ())
