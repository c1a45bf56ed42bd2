"""The files that a distillation leaves: the common recipe, each machine's tweaks, and what is in neither."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.distil.examples import PairExample, example_of
from profilesmith.distil.finding import Distilled
from profilesmith.distil.raw_difference import RawDifference
from profilesmith.distil.replay import Replay
from profilesmith.distil.sample import Sample, Seen
from profilesmith.foundation.words import plural
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.distilled.as_rule import rules_of, tweak_rule
from profilesmith.review.distilled.reasons import as_tuned, counted, raw_text, tweak_reason
from profilesmith.review.distilled.remarks import (
    machine_tweaks,
    miss_text,
    no_rule_text,
    not_seen_text,
    remarks,
    tweak_text,
)
from profilesmith.review.distilled.write_recipe import Head, WrittenRule, recipe_text
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def common_text(
    distilled: Distilled, seen: Sequence[Seen], name: str, licence: str, raw: Sequence[RawDifference]
) -> str:
    """The recipe of what all pairs share; "" where no rule was found. raw: what no rule can be learnt from."""
    if not distilled.findings:
        return ""
    vocabulary, pairs = load_vocabulary(), len(distilled.samples)
    made = rules_of(distilled.findings, pairs, vocabulary)
    rules = [rule for rule, _, _ in made]
    written = [
        WrittenRule(rule, item.excluded, () if bound else remarks(item, distilled.samples, vocabulary))
        for rule, item, bound in made
    ]
    recipe = Recipe(name=name, version="1.0.0", title="", rules=tuple(rules), inputs={})
    head = Head(name, f"Distilled from {plural(pairs, 'pair')} of hand-tuned settings", licence)
    return recipe_text(
        head,
        written,
        _examples(distilled.samples, recipe, seen),
        [sample.name for sample in distilled.samples],
        _notes(distilled, raw),
    )


def _examples(samples: Sequence[Sample], recipe: Recipe, seen: Sequence[Seen]) -> list[PairExample]:
    made = (example_of(number, sample, recipe, seen, load_vocabulary()) for number, sample in enumerate(samples))
    return [example for example in made if example is not None]


def tweaks_text(distilled: Distilled, machine: str, seen: Sequence[Seen], named: tuple[str, str], common: str) -> str:
    """A recipe of one machine's own tweaks: those that can be laid over the common recipe.

    named: its name and its licence; common: the name of the common recipe, "" where there is none.
    """
    over_it = f", to be laid over {common}" if common else ""
    head = Head(named[0], f"What {machine} alone shows{over_it}", named[1])
    tweaks = [tweak for tweak in distilled.tweaks if tweak.machine == machine]
    vocabulary = load_vocabulary()
    fitting = [tweak for tweak in tweaks if tweak.fits]
    rules = [tweak_rule(tweak, number, vocabulary) for number, tweak in enumerate(fitting, 1)]
    if not rules:
        return ""
    recipe = Recipe(name=head.name, version="1.0.0", title="", rules=tuple(rules), inputs={})
    own = [item for item in seen if distilled.samples[item.pair].machine == machine]
    notes = [f"Left out: {tweak_text(tweak, distilled.samples, vocabulary)}." for tweak in tweaks if not tweak.fits]
    written = [WrittenRule(rule, (), (f"{tweak_reason(tweak)}.",)) for rule, tweak in zip(rules, fitting, strict=True)]
    return recipe_text(
        head, written, _examples(distilled.samples, recipe, own), [sample.name for sample in distilled.samples], notes
    )


def _notes(distilled: Distilled, raw: Sequence[RawDifference]) -> list[str]:
    """Comments at the end of the recipe: what is not in it."""
    vocabulary, samples = load_vocabulary(), distilled.samples
    notes = [
        f"{machine} alone: {tweak_text(tweak, samples, vocabulary)}."
        for machine, tweaks in machine_tweaks(distilled).items()
        for tweak in tweaks
    ]
    notes += [f"no rule found: {no_rule_text(none, samples, vocabulary)}." for none in distilled.no_rule]
    notes += [f"{not_seen_text(item, samples)}." for item in distilled.not_seen]
    notes += [f"no setting of the map: {raw_text(line)}." for line in raw]
    return ["Not in this recipe:", *notes] if notes else []


def replay_comments(result: Replay, samples: tuple[Sample, ...]) -> str:
    """What the recipe came to on the pairs that it was made of, as comments at its end."""
    return "".join(f"# Replay: {line}\n" for line in _verdict(result, samples))


def _verdict(result: Replay, samples: tuple[Sample, ...]) -> list[str]:
    values = counted(result)
    if result.passed:
        return [f"{as_tuned(result)} ({values})."]
    vocabulary = load_vocabulary()
    misses = [f"exception: {miss_text(miss, samples, vocabulary)}." for miss in result.misses]
    return [
        f"{values}, {len(result.misses)} otherwise.",
        *misses,
        *(f"{samples[number].name}: {problem.message}" for number, problem in result.problems),
    ]
