"""What trials of recipes on reference profiles find, in words. One finding tells of all profiles where it was found."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from profilesmith.foundation.problem import Problem
from profilesmith.library.library import ReferenceProfile
from profilesmith.lint.finding import LintFinding, Severity
from profilesmith.lint.finding import strictly as all_strictly
from profilesmith.recipe.recipe import Recipe, Rule
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

# Numbers of trials; the letters of lint rules name kinds of files, T stands for trials.
UNREADABLE, NO_PROFILE, FAULT, NOT_CARRIED_OUT, SELF_CONFLICT, FACTS_CONFLICT, NO_KEY, CLAIM_BROKEN, CLAIMS = (
    "T101",
    "T102",
    "T103",
    "T201",
    "T202",
    "T203",
    "T204",
    "T301",
    "T302",
)
MOST_NAMES = 3
TOO_HOT_FIX = "Lower the temperature, or say for which machines the rule is: when = { ... }."
UNSUITED_FIX = (
    "Nothing, if the recipe is not meant for that machine or spool; else give the rule a condition or a wider bound."
)

Stopped = Sequence[tuple[str, Sequence[Problem]]]
"""Profile names with what stood against the recipe there."""


def strictly(findings: Iterable[LintFinding]) -> list[LintFinding]:
    """Hints as errors; but a recipe need not suit every machine and spool, in no strictness."""
    return [item if item.number == FACTS_CONFLICT else strict for item in findings for strict in all_strictly((item,))]


def lint_finding(number: str, severity: Severity, file: str, line: int | None, message: str, fix: str) -> LintFinding:
    return LintFinding(number, severity, file, line, visible(message), visible(fix))


def unreadable(profile: ReferenceProfile, problems: Iterable[Problem]) -> Iterator[LintFinding]:
    """A reference profile that nothing can be tried on. What is missing is told by the lint of the description."""
    for problem in problems:
        if problem.code in ("not-found", "no-file", "outside"):
            continue
        where = "" if problem.place.file in ("", profile.place.file) else f"{problem.place}: "
        message = f"the reference profile {profile.name!r} cannot be read: {where}{problem.message}"
        yield lint_finding(UNREADABLE, "error", profile.place.file, profile.place.line, message, problem.hint)


def fault(error: Exception) -> Problem:
    """A fault of the program while it tried something. PROFILESMITH_TRACEBACK=1 shows a contributor where it
    happened.
    """
    if os.environ.get("PROFILESMITH_TRACEBACK"):
        raise error
    return Problem(
        "fault", f"The program has a fault: {type(error).__name__}: {error}", hint="Please report it with the files."
    )


def lint_fault(file: str, error: Exception) -> LintFinding:
    """As ``fault``, while a file was linted."""
    problem = fault(error)
    return lint_finding(FAULT, "error", file, None, problem.message, problem.hint)


def no_profile(file: str, has_example: bool = False) -> LintFinding:
    """Nothing to try recipes on. has_example: but for the starter example, which says nothing of a real recipe."""
    fix = "Add a [[profile]] with a text, a key map and facts."
    message = "the library has no reference profile: its recipes are tried on nothing"
    if has_example:
        message = "the library has no reference profile but the starter example's: its recipes are tried on nothing"
    return lint_finding(NO_PROFILE, "hint", file, None, message, fix)


def not_carried_out(recipes: Sequence[Recipe], profile: str, problems: Iterable[Problem]) -> Iterator[LintFinding]:
    """The new text does not say what the ledger says, or could not be made."""
    who = " with ".join(recipe.name for recipe in recipes)
    for problem in problems:
        yield lint_finding(
            NOT_CARRIED_OUT,
            "error",
            recipes[0].file,
            problem.place.line if problem.place.file == recipes[0].file else None,
            f"{who} on {profile!r}: {problem.message}",
            problem.hint,
        )


def conflicts_with_itself(recipe: Recipe, stopped: Stopped, tried: int) -> Iterator[LintFinding]:
    """Its rules cannot be met whatever the facts are."""
    for problem, profiles in _gathered(stopped, recipe.file):
        fix = "Change one of them, or give it a condition: as it is, the recipe cannot be used there."
        yield lint_finding(
            SELF_CONFLICT,
            "error",
            recipe.file,
            _line(problem, recipe),
            f"{problem.message.rstrip('.')} {_where(profiles, tried)}",
            fix,
        )


def conflicts_with_facts(recipe: Recipe, stopped: Stopped, tried: int) -> Iterator[LintFinding]:
    """It does not suit a machine or spool: that is what facts are for."""
    for problem, profiles in _gathered(stopped, recipe.file):
        fix = TOO_HOT_FIX if _is_too_hot(problem) else UNSUITED_FIX
        message = f"with these facts {problem.message.rstrip('.')} {_where(profiles, tried)}"
        yield lint_finding(FACTS_CONFLICT, "hint", recipe.file, _line(problem, recipe), message, fix)


def _is_too_hot(problem: Problem) -> bool:
    """Whether a rule goes past a machine's limit of temperature."""
    setting = load_vocabulary().settings.get(problem.setting)
    return problem.code == "hard-limit" and setting is not None and setting.kind == "temperature"


def conflict_together(
    first: Recipe, second: Recipe, stopped: Stopped, tried: int, line: int | None
) -> Iterator[LintFinding]:
    """Two that claim to go together do not, though each does alone."""
    for problem, profiles in _gathered(stopped, first.file):
        fix = f"Take {second.name!r} out of goes_with, or change one of the rules."
        message = (
            f"{first.name} claims to go with {second.name}, but {problem.message.rstrip('.')} {_where(profiles, tried)}"
        )
        yield lint_finding(CLAIM_BROKEN, "error", first.file, line, message, fix)


def claims_too_much(file: str, claims: int, most: int) -> LintFinding:
    """Claims beyond what is tried."""
    message = f"{Path(file).stem} claims to go with {claims:,} recipes; only the first {most} are tried"
    return lint_finding(CLAIMS, "error", file, None, message, "Name only those that people do use together.")


def found_no_key(recipe: Recipe, rule: Rule, tried: int) -> LintFinding:
    """A rule that nobody has seen at work."""
    message = f"rule {rule.number} ({', '.join(rule.named)}) found a key in no reference profile ({tried} tried)"
    fix = "Check the setting; if it is right, add a reference profile that has it."
    return lint_finding(NO_KEY, "hint", recipe.file, rule.place.line, message, fix)


def _gathered(stopped: Stopped, recipe: str) -> list[tuple[Problem, list[str]]]:
    """Like problems once, with the profiles that they were found on; the first one's words stand for all.

    recipe: its file. Where another file is named, as the facts of each machine, that makes no other problem.
    """
    gathered: dict[tuple[object, ...], tuple[Problem, list[str]]] = {}
    for profile, problems in stopped:
        for problem in problems:
            place = problem.place if problem.place.file == recipe else None
            key = (problem.code, place, problem.setting or problem.message)
            profiles = gathered.setdefault(key, (problem, []))[1]
            if profile not in profiles:
                profiles.append(profile)
    return list(gathered.values())


def _line(problem: Problem, recipe: Recipe) -> int | None:
    return problem.place.line if problem.place.file == recipe.file else None


def _where(profiles: Sequence[str], tried: int) -> str:
    named = ", ".join(profiles[:MOST_NAMES])
    more = f" and {len(profiles) - MOST_NAMES} more" if len(profiles) > MOST_NAMES else ""
    return f"(on {len(profiles)} of {tried} profile{'' if tried == 1 else 's'}: {named}{more})"
