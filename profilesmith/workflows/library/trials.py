"""A step of a library's check: the lint of a file, or recipes tried on every reference profile.

A trial derives from a profile that was read once, makes the edits, and has the new text read back and audited. A
process of the check calls ``begin`` once and then ``take`` for each step.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType

from profilesmith.engine.derive import new_texts
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.foundation.read_file import read_toml
from profilesmith.ledger import Ledger
from profilesmith.library.find import names, shipped
from profilesmith.library.library import Library, inside, load_library
from profilesmith.library.open_files import open_recipe
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.lint_file import lint_file
from profilesmith.lint.names import LibraryNames
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Recipe
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.library import findings as say
from profilesmith.workflows.library.folder import Ground, ground
from profilesmith.workflows.library.memory import NOTHING_REMEMBERED, Memory, hash_of
from profilesmith.workflows.library.remembered import (
    Keys,
    is_lasting,
    key_of,
    keys_of,
    name_of,
    recipe_hashes,
    record_of,
    tried_before,
)
from profilesmith.workflows.library.starter import suits
from profilesmith.workflows.library.steps import Attempt, LintStep, Step, StepOutcome, TriedDerivation


class TrialSetup(NamedTuple):
    """What a process is told at its start. memory, keys: of earlier checks; nothing is remembered without keys."""

    folder: str
    names: LibraryNames
    memory: Memory = NOTHING_REMEMBERED
    keys: Keys | None = None


class TrialBench(NamedTuple):
    """What a process keeps: the library, its profiles, where its recipes lie, and what earlier checks came to."""

    library: Library
    names: LibraryNames
    grounds: tuple[Ground, ...]
    recipes: dict[str, Path]
    memory: Memory = NOTHING_REMEMBERED
    keys: Keys | None = None


_BENCH: list[TrialBench] = []


def begin(setup: TrialSetup) -> TrialBench:
    """Read the library's profiles once for this process. The library was read before without a mistake."""
    library, _ = load_library(Path(setup.folder))
    assert library is not None
    read = (ground(library, profile)[0] for profile in library.profiles)
    grounds = tuple(item for item in read if item is not None)
    recipes = recipe_paths(library.folder)
    # A profile that changed since it was hashed must not go by the hash that it had.
    as_told = setup.keys is not None and setup.keys == keys_of(library, setup.names, recipes)
    bench = TrialBench(library, setup.names, grounds, recipes, setup.memory, setup.keys if as_told else None)
    _BENCH[:] = [bench]
    _recipe.cache_clear()
    return bench


def recipe_paths(folder: Path) -> dict[str, Path]:
    """Every recipe that may be tried with others: of the library and those that ship. A link out of both is none."""
    paths = names("recipe", folder)
    return {name: path for name, path in paths if inside(folder, path) or inside(shipped(), path)}


@lru_cache(maxsize=256)
def _recipe(path: str) -> Recipe | None:
    return open_recipe(Path(path), path)[0]


def take(step: Step) -> StepOutcome:
    """One step of a check."""
    bench = _BENCH[0]
    before = EarlierTrials({}) if bench.keys is None else known_before(step, bench.keys, bench.memory)
    key = "" if bench.keys is None else key_of(step, bench.keys)
    outcome = _take(bench, step, before)
    if key and bench.keys is not None and key == key_of(step, bench.keys) and is_lasting(outcome, before.used):
        bench.memory.keep(name_of(step), record_of(key, outcome, before.used))
    return outcome


def _take(bench: TrialBench, step: Step, before: EarlierTrials) -> StepOutcome:
    if isinstance(step, LintStep):
        return StepOutcome(lint=tuple(_lint(bench, step)))
    return attempt(bench, step, before)


def _lint(bench: TrialBench, step: LintStep) -> list[LintFinding]:
    try:
        return lint_file(Path(step.path), step.kind, bench.names, step.strict)
    except Exception as error:
        return [say.lint_fault(step.path, error)]


def attempt(bench: TrialBench, wanted: Attempt, before: EarlierTrials | None = None) -> StepOutcome:
    """Try on every profile of the bench. A recipe that does not read is the lint's matter.

    before: derivations that are known already; takes those that are made.
    """
    before = before or EarlierTrials({})
    read = [_recipe(os.fspath(bench.recipes[name])) for name in wanted.recipes]
    recipes = [recipe for recipe in read if recipe is not None]
    if len(recipes) < len(read):
        return StepOutcome()
    suited = [item for item in bench.grounds if suits(wanted.recipes, item.is_example)]
    tried = [(item, before.try_on(item, recipes)) for item in suited]
    findings = _alone(recipes[0], tried, before) if len(recipes) == 1 else _together(recipes, tried, before)
    return StepOutcome(trials=tuple(findings), derivations=len(tried))


class EarlierTrials:
    """Derivations by the hash of all that they depend on. hashes: of each profile's and each recipe's files."""

    def __init__(self, known: Mapping[str, TriedDerivation], hashes: Mapping[str, str] = MappingProxyType({})) -> None:
        self.known, self.hashes, self.used = known, hashes, dict[str, TriedDerivation]()

    def try_on(self, where: Ground, recipes: Sequence[Recipe], with_facts: bool = True) -> TriedDerivation:
        """As ``try_on``, where it is not known."""
        if not self.hashes:
            return try_on(where, recipes, with_facts)
        files = (self.hashes[f"recipe {recipe.file}"] for recipe in recipes)
        key = hash_of(self.hashes[f"profile {where.profile.name}"], *files, str(with_facts))
        self.used[key] = self.known.get(key) or try_on(where, recipes, with_facts)
        return self.used[key]


def known_before(step: Step, keys: Keys, memory: Memory) -> EarlierTrials:
    """What is remembered of a step's derivations."""
    if isinstance(step, LintStep):
        return EarlierTrials({})
    files = (keys.recipes[name] for name in step.recipes)
    hashes = {f"recipe {path}": value for path, value in zip(files, recipe_hashes(step, keys), strict=True)}
    hashes |= {f"profile {name}": value for name, value in keys.grounds.items()}
    return EarlierTrials(tried_before(memory.recall(name_of(step))), hashes)


def try_on(where: Ground, recipes: Sequence[Recipe], with_facts: bool = True) -> TriedDerivation:
    """Derive, make the edits, read back and audit. A fault of the program is told of, and the rest is still tried."""
    try:
        return derive_on(where, recipes, where.facts if with_facts else {})
    except Exception as error:
        return TriedDerivation((say.fault(error),))


def derive_on(where: Ground, recipes: Sequence[Recipe], facts: Facts) -> TriedDerivation:
    """One derivation without a review."""
    vocabulary, translation = load_vocabulary(), where.translation
    ledger = apply_recipes(translation.profile, recipes, facts, {}, vocabulary)
    if ledger.problems:
        return TriedDerivation(ledger.problems, keyed_rules(ledger))
    writing = write_ledger(ledger, translation, vocabulary)
    try:
        new_texts(translation, writing.edits, writing.ledger)
    except Refused as refused:
        return TriedDerivation(refused.problems, keyed_rules(ledger))
    return TriedDerivation((), keyed_rules(ledger))


def keyed_rules(ledger: Ledger) -> frozenset[int]:
    """The rules that found a key for at least one of their settings, or could add one."""
    here = ledger.base.entries.keys() | ledger.derived.entries.keys()
    return frozenset(row.cause.rule for row in ledger.rows if row.setting in here)


def _alone(
    recipe: Recipe, tried: Sequence[tuple[Ground, TriedDerivation]], before: EarlierTrials
) -> Iterable[LintFinding]:
    stopped = [(where, result) for where, result in tried if result.problems]
    for where, result in stopped:
        if not result.conflict:
            yield from say.not_carried_out((recipe,), where.profile.name, result.problems)
    facts_alone: list[tuple[str, Sequence[Problem]]] = []
    always: list[tuple[str, Sequence[Problem]]] = []
    for where, result in stopped:
        if result.conflict:
            kept = always if before.try_on(where, (recipe,), with_facts=False).problems else facts_alone
            kept.append((where.profile.name, result.problems))
    yield from say.conflicts_with_itself(recipe, always, len(tried))
    yield from say.conflicts_with_facts(recipe, facts_alone, len(tried))
    keyed = frozenset().union(*(result.keyed for _, result in tried))
    if tried and all(result.conflict or not result.problems for _, result in tried):
        yield from (say.found_no_key(recipe, rule, len(tried)) for rule in recipe.rules if rule.number not in keyed)


def _together(
    recipes: Sequence[Recipe], tried: Sequence[tuple[Ground, TriedDerivation]], before: EarlierTrials
) -> Iterable[LintFinding]:
    clashes = []
    for where, result in tried:
        # What stops one of them by itself is told of that one; it says nothing on the two.
        if not result.problems or any(before.try_on(where, (recipe,)).problems for recipe in recipes):
            continue
        if result.conflict:
            clashes.append((where.profile.name, result.problems))
        else:
            yield from say.not_carried_out(recipes, where.profile.name, result.problems)
    if clashes:
        yield from say.conflict_together(
            recipes[0], recipes[1], clashes, len(tried), _claim_line(Path(recipes[0].file))
        )


def _claim_line(path: Path) -> int | None:
    """The line on which a recipe says what it goes with."""

    top, _ = read_toml(path, str(path), "recipe")
    return None if top is None else top.file.place(("recipe", "goes_with")).line
