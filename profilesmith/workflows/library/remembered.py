"""Steps of a check against what is remembered: by which name and hash each goes, and its outcome as a record and
back.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.library.find import names
from profilesmith.library.library import Library, ReferenceProfile
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.names import LibraryNames
from profilesmith.workflows.library.findings import FAULT
from profilesmith.workflows.library.memory import Memory, file_hash, hash_of
from profilesmith.workflows.library.steps import Attempt, LintStep, Step, StepOutcome, TriedDerivation

ALONE = ("recipe", "key map", "facts")
"""The kinds of file whose lint looks at nothing but the file, git's commit of it and the names of its library."""


class Keys(NamedTuple):
    """What outcomes depend on beside the files of a step itself. grounds: reference profile -> hash of all its
    files.
    """

    folder: str
    names: str
    blobs: Mapping[str, str]
    grounds: Mapping[str, str]
    recipes: Mapping[str, Path]

    @property
    def all_grounds(self) -> str:
        return hash_of(*(f"{name}\0{value}" for name, value in self.grounds.items()))


def keys_of(library: Library, there: LibraryNames, recipes: Mapping[str, Path]) -> Keys:
    """Read every reference profile's bytes once."""
    claimed = (f"{name}\0{os.path.realpath(path)}" for name, paths in there.recipes.items() for path in paths)
    known = (*claimed, *sorted(there.key_maps), "", *sorted(there.facts), "", *sorted(there.shipped))
    head = (there.head.why_not, there.head.since)
    maps, facts = (dict(names(kind, library.folder)) for kind in ("key map", "facts"))
    grounds = {profile.name: _ground(library, profile, maps, facts) for profile in library.profiles}
    return Keys(os.path.realpath(library.folder), hash_of(*known, *head), there.head.blobs, grounds, recipes)


def _ground(library: Library, profile: ReferenceProfile, maps: Mapping[str, Path], facts: Mapping[str, Path]) -> str:
    paths = [library.folder / text for text in profile.texts]
    held = [maps.get(profile.key_map), *(facts.get(name) for name in profile.facts)]
    return hash_of(profile.name, *map(file_hash, paths), *("" if path is None else file_hash(path) for path in held))


def name_of(step: Step) -> str:
    """By which name a step is remembered."""
    if isinstance(step, LintStep):
        return f"lint\0{step.kind}\0{step.path}"
    return "\0".join(("attempt", *step.recipes))


def key_of(step: Step, keys: Keys) -> str:
    """The hash of all that its outcome depends on; "" for a step that is not remembered."""
    if isinstance(step, Attempt):
        return hash_of(keys.all_grounds, *recipe_hashes(step, keys))
    if step.kind not in ALONE:
        return ""
    inner = os.path.relpath(os.path.abspath(step.path), keys.folder).replace(os.sep, "/")
    blob = keys.blobs.get(inner, "")
    return hash_of(file_hash(Path(step.path)), str(step.strict), keys.names, blob)


def recipe_hashes(step: Attempt, keys: Keys) -> list[str]:
    return [file_hash(keys.recipes[name]) for name in step.recipes]


def recalled(step: Step, keys: Keys, memory: Memory) -> StepOutcome | None:
    """The outcome that is remembered of a step, where all that it depends on is as it was."""
    key = key_of(step, keys) if memory.folder else ""
    record = memory.recall(name_of(step)) if key else {}
    if record.get("key") != key or not key:
        return None
    lint, trials, derivations = record["outcome"]
    return StepOutcome(_findings(lint), _findings(trials), derivations)


def record_of(key: str, outcome: StepOutcome, tried: Mapping[str, TriedDerivation]) -> dict[str, Any]:
    """As ``recalled`` and ``tried_before`` read it."""
    made = [list(outcome.lint), list(outcome.trials), outcome.derivations]
    return {"key": key, "outcome": made, "tried": {name: _plain(item) for name, item in tried.items()}}


def tried_before(record: Mapping[str, Any]) -> dict[str, TriedDerivation]:
    """The derivations that a record holds, by their own hashes."""
    return {
        name: TriedDerivation(tuple(_problem(item) for item in problems), frozenset(keyed))
        for name, (problems, keyed) in record.get("tried", {}).items()
    }


def is_lasting(outcome: StepOutcome, tried: Mapping[str, TriedDerivation]) -> bool:
    """Whether it may be remembered: not where something could not be asked, or the program has a fault."""
    findings = (*outcome.lint, *outcome.trials)
    faults = any(problem.code == "fault" for item in tried.values() for problem in item.problems)
    return not faults and not any(item.severity == "skipped" or item.number == FAULT for item in findings)


def _findings(items: Sequence[Sequence[Any]]) -> tuple[LintFinding, ...]:
    return tuple(LintFinding(*item) for item in items)


def _plain(item: TriedDerivation) -> list[Any]:
    problems = [[list(part) if isinstance(part, Place) else part for part in one] for one in item.problems]
    return [problems, sorted(item.keyed)]


def _problem(item: Sequence[Any]) -> Problem:
    code, message, place, *rest = item
    return Problem(code, message, Place(*place), *rest)
