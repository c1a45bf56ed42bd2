"""Check a library: the lint of every file, every recipe on every reference profile, every pair that claims to go
together.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.library.library import DESCRIPTION, Library, load_library
from profilesmith.library.open_files import open_recipe
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.lint_library import files_of_library, lint_description, lint_folder
from profilesmith.lint.names import LibraryNames, files_of, library_names
from profilesmith.workflows.library import findings as say
from profilesmith.workflows.library.accepted import reasons_for, with_accepted
from profilesmith.workflows.library.checked import NOTHING, Changed, LibraryChecked
from profilesmith.workflows.library.effect_findings import effect_findings
from profilesmith.workflows.library.folder import ground, library_folder
from profilesmith.workflows.library.memory import NOTHING_REMEMBERED, Memory, file_hash, open_memory
from profilesmith.workflows.library.remembered import keys_of, name_of, recalled
from profilesmith.workflows.library.since import changes_since
from profilesmith.workflows.library.starter import STARTER, is_example_profile
from profilesmith.workflows.library.steps import Attempt, LintStep, Step, StepOutcome
from profilesmith.workflows.library.trials import TrialSetup, begin, recipe_paths, take
from profilesmith.workflows.parallel import Tell, cores, in_order

FEW = 400  # derivations that are sooner made than further processes are started
CHUNK = 100  # derivations that a process is given at once: less than a second of work
MOST_CLAIMS = 50  # of one recipe that are tried: a stranger's list is no reason to work for days
MOST_PROCESSES = 61  # more cannot be waited for on some systems


class CheckPlan(NamedTuple):
    """What is to be tried. recipes: of the library; pairs: those that a recipe of it claims. findings: claims
    left out.
    """

    recipes: tuple[str, ...]
    pairs: tuple[tuple[str, str], ...]
    findings: tuple[LintFinding, ...] = ()

    @property
    def attempts(self) -> list[Attempt]:
        return [*(Attempt((name,)) for name in self.recipes), *(Attempt(names) for names in self.pairs)]


def check_library(
    folder: Path | None,
    strict: bool,
    jobs: int,
    tell: Tell,
    since: str | None = None,
    accepted: Sequence[str] = (),
    remember: bool | None = None,
) -> LibraryChecked:
    """Check everything. Raises Refused for a folder that is no library and for a wrong call.

    since: the revision that changed recipes are held against; None for the last commit. accepted: numbers of findings
    that a commit since then gives a reason for. remember: whether earlier checks count; None: in a large library.
    """
    _call_is_right(jobs)
    place = library_folder(folder)
    names = _names(place, since)
    reasons = reasons_for(accepted, names, since)
    library, _ = load_library(place)
    if library is None:
        return LibraryChecked(name=place.name, folder=str(place), findings=_sorted(lint_folder(place)))
    strict = strict or library.strict
    memory = _memory(library, remember)
    plan = make_plan(library, memory)
    processes = 1 if since is None else _processes(len(plan.attempts) * len(library.profiles), jobs)
    changed = NOTHING if since is None else changes_since(names, processes, tell)
    outcomes, remembered = _outcomes(library, names, _steps(library, plan, strict), memory, jobs, tell)
    findings = _findings(library, names, plan, changed, outcomes, strict)
    return LibraryChecked(
        name=library.name,
        folder=str(library.folder),
        findings=_sorted(with_accepted(findings, reasons)),
        recipes=len(plan.recipes),
        pairs=len(plan.pairs),
        profiles=len(library.profiles),
        derivations=sum(outcome.derivations for outcome in outcomes),
        strict=strict,
        changed=changed,
        remembered=remembered,
    )


def _findings(
    library: Library,
    names: LibraryNames,
    plan: CheckPlan,
    changed: Changed,
    outcomes: Sequence[StepOutcome],
    strict: bool,
) -> list[LintFinding]:
    """All findings, in no order."""
    trials = [*_profiles(library, plan), *plan.findings, *effect_findings(changed.blocks), *changed.gone]
    trials += (item for outcome in outcomes for item in outcome.trials)
    lint = [*lint_description(library, names, strict), *(item for outcome in outcomes for item in outcome.lint)]
    return [*lint, *(say.strictly(trials) if strict else trials)]


def _memory(library: Library, remember: bool | None) -> Memory:
    if remember is None:
        remember = len(files_of(library.folder, "recipe")) * len(library.profiles) >= FEW
    return open_memory(library.folder) if remember else NOTHING_REMEMBERED


def _outcomes(
    library: Library, names: LibraryNames, steps: Sequence[Step], memory: Memory, jobs: int, tell: Tell
) -> tuple[list[StepOutcome], int]:
    """What comes of every step, in their order, and how many derivations of them were made at an earlier check."""
    keys = keys_of(library, names, recipe_paths(library.folder)) if memory.folder else None
    known = [None if keys is None else recalled(step, keys, memory) for step in steps]
    missing = [step for step, outcome in zip(steps, known, strict=True) if outcome is None]
    setup = TrialSetup(str(library.folder), names, memory, keys)
    count = sum(isinstance(step, Attempt) for step in missing) * len(library.profiles)
    chunk = max(1, CHUNK // max(1, len(library.profiles)))
    processes = _processes(count, jobs)
    made = iter(in_order(take, missing, begin, setup, processes, tell, chunk) if missing else ())
    outcomes = [next(made) if outcome is None else outcome for outcome in known]
    list(made)  # to its end, so that its processes are
    claims = (claims_name(path) for path in files_of(library.folder, "recipe"))
    memory.forget_others([*map(name_of, steps), *claims])
    return outcomes, sum(outcome.derivations for outcome in known if outcome is not None)


def _steps(library: Library, plan: CheckPlan, strict: bool) -> list[Step]:
    """Every file to lint, then everything to try."""
    files = (LintStep(kind, os.fspath(path), strict) for kind, path in files_of_library(library))
    return [*files, *plan.attempts]


def _call_is_right(jobs: int) -> None:
    if jobs < 0:
        hint = "Write 1 or more; 0 is one a core."
        raise Refused([Problem("jobs", f"{jobs} processes cannot work.", Place("--jobs"), hint)])


def _names(place: Path, since: str | None) -> LibraryNames:
    """The library's names, once. Who asked for a revision must not think that something was held against it."""
    names = library_names(place, since)
    if since is not None and names.head.why_not:
        message = f"Nothing can be held against {since[:80]!r}: {names.head.why_not}."
        hint = "Name a branch, tag or commit of the library's own repository, and see that it was fetched."
        raise Refused([Problem("revision", message, Place("--since"), hint)])
    return names


def make_plan(library: Library, memory: Memory = NOTHING_REMEMBERED) -> CheckPlan:
    """Every recipe of the library, and each claimed pair once, whichever of the two claims it."""
    known = recipe_paths(library.folder)
    mine = [path.stem for path in files_of(library.folder, "recipe") if known.get(path.stem) == path]
    pairs: dict[frozenset[str], tuple[str, str]] = {}
    findings = []
    for name in mine:
        goes_with = _claims(known[name], memory)
        if len(goes_with) > MOST_CLAIMS:
            findings.append(say.claims_too_much(str(known[name]), len(goes_with), MOST_CLAIMS))
        for other in goes_with[:MOST_CLAIMS]:
            if other in known and other != name:
                pairs.setdefault(frozenset((name, other)), (name, other))
    return CheckPlan(tuple(mine), tuple(pairs.values()), tuple(findings))


def claims_name(path: Path) -> str:
    """By which name a recipe's claims are remembered."""
    return f"claims\0{path}"


def _claims(path: Path, memory: Memory) -> tuple[str, ...]:
    """What a recipe says that it goes with; () for one that does not read."""
    name, key = claims_name(path), file_hash(path) if memory.folder else ""
    record = memory.recall(name)
    if key and record.get("key") == key:
        return tuple(record["claims"])
    recipe, _ = open_recipe(path, str(path))
    claims = recipe.goes_with if recipe else ()
    memory.keep(name, {"key": key, "claims": list(claims)})
    return claims


def _profiles(library: Library, plan: CheckPlan) -> Iterator[LintFinding]:
    """The reference profiles that nothing can be tried on, and whether the library's own recipes have one."""
    real = [profile for profile in library.profiles if not is_example_profile(library, profile)]
    own = [name for name in plan.recipes if name != STARTER]
    if not real and (own or not library.profiles):
        yield say.no_profile(str(library.folder / DESCRIPTION), bool(library.profiles))
    for profile in library.profiles:
        known, problems = ground(library, profile)
        if known is None:
            yield from say.unreadable(profile, problems)


def _processes(derivations: int, jobs: int) -> int:
    if not jobs and derivations < FEW:
        return 1
    return max(1, min(jobs or cores(), derivations, MOST_PROCESSES))


def _sorted(findings: Iterable[LintFinding]) -> tuple[LintFinding, ...]:
    """By file and line, each once."""
    return tuple(
        sorted(dict.fromkeys(findings), key=lambda item: (item.file, item.line or 0, item.number, item.message))
    )
