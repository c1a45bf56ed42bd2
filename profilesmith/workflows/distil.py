"""Distil: pairs of settings texts to the recipe that explains them, tried by the real engine before it is written."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path

from profilesmith.distil.as_rule import rules_of, tweak_rule
from profilesmith.distil.distil import distil as find_rules
from profilesmith.distil.examples import PairExample, example_of
from profilesmith.distil.finding import Distilled
from profilesmith.distil.remarks import (
    machine_tweaks,
    miss_text,
    no_rule_text,
    not_seen_text,
    remarks,
    tweak_text,
)
from profilesmith.distil.replay import Replay, as_tuned, counted, replay, windows_of
from profilesmith.distil.report import report, report_json
from profilesmith.distil.sample import Sample, Seen, world_of
from profilesmith.distil.write_recipe import Head, WrittenRule, recipe_text
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.foundation.words import plural
from profilesmith.library.run_examples import run_examples
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.pairs import PairsRequest, PairTexts, read_pairs
from profilesmith.write_files import outputs_free, write_whole


class Distillation(NamedTuple):
    """Everything that a report tells. text: the recipe, "" when no rule was found; tweaks: a recipe for each machine.

    alone: the recipe replayed on every pair; together: with each machine's tweaks over it.
    """

    distilled: Distilled
    text: str
    recipe: Recipe | None
    tweaks: Mapping[str, str]
    alone: Replay
    together: Replay
    raw: tuple[str, ...]
    inputs: tuple[str, ...]


def distil(request: PairsRequest, name: str, licence: str = "CC0-1.0", tweaks_file: str = "") -> Distillation:
    """Find, write as text, read back with the loader, and replay. Raises Refused; writes nothing.

    tweaks_file: where the machines' tweaks will be written; it names their recipes.
    """
    texts = read_pairs(request)
    samples = tuple(text.sample for text in texts)
    vocabulary = load_vocabulary()
    distilled = find_rules(samples, vocabulary)
    samples = distilled.samples
    seen = [item for items in world_of(samples, vocabulary).seen.values() for item in items]
    notes = _notes(distilled, texts)
    text = _recipe_text(distilled, seen, name, licence, notes)
    recipe = _loaded(text) if text else None
    over_it = f", to be laid over {name}" if text else ""
    own = tweak_paths(
        tweaks_file or f"{name}.toml",
        [tweak.machine for tweak in distilled.tweaks if tweak.fits],
        alone=bool(tweaks_file),
    )
    tweaks = {
        machine: _tweak_text(distilled, machine, seen, Head(path.stem, f"What {machine} alone shows{over_it}", licence))
        for machine, path in own.items()
    }
    tweaks = {machine: text for machine, text in tweaks.items() if text}
    over = {machine: _loaded(text) for machine, text in tweaks.items()}
    base = [recipe] if recipe is not None else []
    windows = windows_of(distilled.findings)
    alone = replay(samples, [base] * len(samples), seen, vocabulary, windows)
    both = [[*base, *([over[sample.machine]] if sample.machine in over else [])] for sample in samples]
    together = replay(samples, both, seen, vocabulary, windows)
    text += "".join(f"# Replay: {line}\n" for line in _verdict(alone, samples)) if text else ""
    raw = tuple(line for item in texts for line in item.raw)
    return Distillation(
        distilled, text, recipe, tweaks, alone, together, raw, tuple(file for item in texts for file in item.files)
    )


def _recipe_text(distilled: Distilled, seen: Sequence[Seen], name: str, licence: str, notes: Sequence[str]) -> str:
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
        head, written, _examples(distilled.samples, recipe, seen), [sample.name for sample in distilled.samples], notes
    )


def _examples(samples: Sequence[Sample], recipe: Recipe, seen: Sequence[Seen]) -> list[PairExample]:
    made = (example_of(number, sample, recipe, seen, load_vocabulary()) for number, sample in enumerate(samples))
    return [example for example in made if example is not None]


def _tweak_text(distilled: Distilled, machine: str, seen: Sequence[Seen], head: Head) -> str:
    """A recipe of one machine's own tweaks: those that can be laid over the common recipe."""
    tweaks = [tweak for tweak in distilled.tweaks if tweak.machine == machine]
    vocabulary = load_vocabulary()
    fitting = [tweak for tweak in tweaks if tweak.fits]
    rules = [tweak_rule(tweak, number, vocabulary) for number, tweak in enumerate(fitting, 1)]
    if not rules:
        return ""
    recipe = Recipe(name=head.name, version="1.0.0", title="", rules=tuple(rules), inputs={})
    own = [item for item in seen if distilled.samples[item.pair].machine == machine]
    notes = [f"Left out: {tweak_text(tweak, distilled.samples, vocabulary)}." for tweak in tweaks if not tweak.fits]
    written = [WrittenRule(rule, (), (f"{tweak.reason}.",)) for rule, tweak in zip(rules, fitting, strict=True)]
    return recipe_text(
        head, written, _examples(distilled.samples, recipe, own), [sample.name for sample in distilled.samples], notes
    )


def _loaded(text: str) -> Recipe:
    """The text through the strict loader, with its own examples run. A failure here is a fault of ours."""
    recipe, problems = load_recipe(text.encode(), "the distilled recipe", load_vocabulary())
    if recipe is None:
        raise Refused(problems)
    faults = [fault for result in run_examples(recipe, load_vocabulary()) for fault in result.faults]
    refuse_if(
        Problem("example", f"An example of the distilled recipe fails: {fault}.", hint="Please report it.")
        for fault in faults
    )
    return recipe


def _notes(distilled: Distilled, texts: Sequence[PairTexts]) -> list[str]:
    """Comments at the end of the recipe: what is not in it."""
    vocabulary, samples = load_vocabulary(), distilled.samples
    notes = [
        f"{machine} alone: {tweak_text(tweak, samples, vocabulary)}."
        for machine, tweaks in machine_tweaks(distilled).items()
        for tweak in tweaks
    ]
    notes += [f"no rule found: {no_rule_text(none, samples, vocabulary)}." for none in distilled.no_rule]
    notes += [f"{not_seen_text(item, samples)}." for item in distilled.not_seen]
    notes += [f"no setting of the map: {line}." for text in texts for line in text.raw]
    return ["Not in this recipe:", *notes] if notes else []


def _verdict(result: Replay, samples: tuple[Sample, ...]) -> list[str]:
    values = counted(result)
    if result.passed:
        return [f"{as_tuned(result)} ({values})."]
    vocabulary = load_vocabulary()
    misses = [f"exception: {miss_text(miss, samples, vocabulary)}." for miss in result.misses]
    return [
        f"{values}, {len(result.misses)} otherwise.",
        *misses,
        *(f"{samples[number].name}: {message}" for number, message in result.problems),
    ]


def write(result: Distillation, out: str, tweaks: str, overwrite: bool) -> list[Path]:
    """Write the recipe, and one file of tweaks for each machine that has some. Raises Refused; then nothing was
    written.
    """
    files = {Path(out): result.text.encode()} if out and result.text else {}
    if tweaks:
        files |= {
            path: result.tweaks[machine].encode() for machine, path in tweak_paths(tweaks, tuple(result.tweaks)).items()
        }
    refuse_if(outputs_free(files, map(Path, result.inputs), overwrite))
    refuse_if(write_whole(files, overwrite))
    return list(files)


FORMS = ("terminal", "json")


def show(result: Distillation, form: str, width: int = 100) -> str:
    """The findings for a terminal or as JSON."""
    parts = (result.distilled, result.alone, result.together, result.raw, load_vocabulary())
    if form == "json":
        return json.dumps(report_json(*parts), ensure_ascii=False, indent=2) + "\n"
    return report(*parts, width)


def tweak_paths(tweaks: str, machines: Sequence[str], alone: bool = True) -> dict[str, Path]:
    """The named file for one machine; for several (or when not alone), with the machine's name before the ending."""
    path, names = Path(tweaks), list(dict.fromkeys(machines))
    if alone and len(names) == 1:
        return {names[0]: path}
    return {machine: path.with_name(f"{path.stem}-{machine}{path.suffix or '.toml'}") for machine in names}
