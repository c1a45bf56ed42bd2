"""What a change of a library takes away, each thing named: prints, recipes, bounds on heat, cautions, and what checks
it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import Path

from profilesmith.catalogue.changes_words import rule_name
from profilesmith.facts.facts import fact_kinds
from profilesmith.library.library import DESCRIPTION, Library, inside, load_library
from profilesmith.library.open_files import open_facts, open_recipe
from profilesmith.lint.finding import LintFinding, Severity
from profilesmith.lint.heat import target_material
from profilesmith.lint.machine_limits import LIMITS, hottest
from profilesmith.lint.names import files_of
from profilesmith.recipe.recipe import Recipe, Rule
from profilesmith.review.wording import visible
from profilesmith.revision.meaning import direction
from profilesmith.revision.recipe_changes import RecipeChanges, recipe_changes
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

(
    EVIDENCE_GONE,
    RECIPE_GONE,
    FILE_GONE,
    PROFILE_GONE,
    CAUTION_GONE,
    HEAT_RULE_GONE,
    MATERIAL_GONE,
    LESS_STRICT,
    CHECKER,
    LIMIT_RAISED,
) = (
    "T501",
    "T502",
    "T503",
    "T504",
    "T505",
    "T506",
    "T507",
    "T508",
    "T509",
    "T510",
)
CHECKERS = ("check.sh", ".pre-commit-config.yaml")
"""What lets a library's changes be looked at, beside its description."""
ON_PURPOSE_FIX = (
    "Put it back; where it is meant, say why in a commit's message ('{number}: the reason') "
    "and call with --accept {number}."
)
SHOWN = 100  # signs of a caution


def lint_finding(number: str, severity: Severity, file: Path, message: str, line: int | None = None) -> LintFinding:
    return LintFinding(number, severity, str(file), line, visible(message), ON_PURPOSE_FIX.format(number=number))


def taken_away(before: Path, now: Path) -> Iterator[LintFinding]:
    """Findings for everything that was there before and is gone. Both are folders of a library whose description
    reads.
    """
    was, _ = load_library(before)
    is_now, _ = load_library(now)
    assert was is not None
    assert is_now is not None
    yield from _description(was, is_now, now / DESCRIPTION)
    yield from _checkers(before, now)
    yield from _evidence(before, now)
    yield from _recipes(before, now)
    yield from _limits(before, now)
    for kind in ("key map", "facts"):
        left = _own(now, kind)
        for path in files_of(before, kind):
            if path.stem not in left:
                gone = now / path.relative_to(before)
                yield lint_finding(FILE_GONE, "hint", gone, f"the {kind} {path.stem} is gone: who names it is refused")


def _description(was: Library, is_now: Library, file: Path) -> Iterator[LintFinding]:
    left = {profile.name for profile in is_now.profiles}
    gone = [profile.name for profile in was.profiles if profile.name not in left]
    for name in gone:
        yield lint_finding(
            PROFILE_GONE, "error", file, f"the reference profile {name!r} is gone: nothing is tried on it now"
        )
    if was.strict and not is_now.strict:
        yield lint_finding(LESS_STRICT, "error", file, "the library was strict and is no longer: its hints pass now")


def _checkers(before: Path, now: Path) -> Iterator[LintFinding]:
    for name in CHECKERS:
        old, new = before / name, now / name
        if not old.is_file():
            continue
        if not new.is_file() or new.is_symlink():
            yield lint_finding(CHECKER, "error", new, f"{name} is gone, or a link now: it has changes looked at")
        elif old.read_bytes() != new.read_bytes():
            yield lint_finding(
                CHECKER, "error", new, f"{name} was changed: it has changes looked at, read what it does now"
            )


def _limits(before: Path, now: Path) -> Iterator[LintFinding]:
    """Limits of machines that are higher now, or gone."""
    here = _own(now, "facts")
    for path in files_of(before, "facts"):
        if path.stem not in here:
            continue
        old, new = (open_facts([(file, str(file))])[0] for file in (path, here[path.stem]))
        for name, table in LIMITS.items():
            was, is_now = (facts[name].value if name in facts else None for facts in (old, new))
            if not isinstance(was, Fraction) or (isinstance(is_now, Fraction) and is_now <= was):
                continue
            line = new[name].place.line if name in new else None
            beyond = not isinstance(is_now, Fraction) or is_now > hottest(table)
            shown = fact_kinds()[name].show(is_now) if is_now is not None else "not said"
            message = f"{path.stem}: {name} was {fact_kinds()[name].show(was)} and is {shown} now"
            yield lint_finding(LIMIT_RAISED, "error" if beyond else "hint", here[path.stem], message, line)


def _evidence(before: Path, now: Path) -> Iterator[LintFinding]:
    for path in files_of(before, "evidence"):
        file = now / path.relative_to(before)
        left = set(file.read_bytes().splitlines()) if file.is_file() else set()
        lines = [line for line in path.read_bytes().splitlines() if line.strip()]
        gone = [number for number, line in enumerate(lines, 1) if line not in left]
        if gone:
            message = f"{len(gone)} of {len(lines)} records of prints were taken out or altered: "
            message += "the file is gone" if not file.is_file() else f"the first was line {gone[0]}"
            yield lint_finding(EVIDENCE_GONE, "error", file, message)


def _recipes(before: Path, now: Path) -> Iterator[LintFinding]:
    here = _own(now, "recipe")
    there = {path.stem: path for path in files_of(before, "recipe")}
    new = {name: content for name in here.keys() - there.keys() if (content := _read(here[name])) is not None}
    for name, path in there.items():
        old = _read(path)
        if name not in here:
            yield _gone(name, now / path.relative_to(before), old, new)
        elif old is not None and (recipe := _read(here[name])) is not None:
            yield from _from_recipe(recipe_changes(old, recipe), here[name])


def _own(folder: Path, kind: str) -> dict[str, Path]:
    """The library's files of a kind; what is a link out of it is none."""
    return {path.stem: path for path in files_of(folder, kind) if inside(folder, path)}


def _read(path: Path) -> Recipe | None:
    return open_recipe(path, str(path))[0]


def _gone(name: str, file: Path, old: Recipe | None, new: Mapping[str, Recipe]) -> LintFinding:
    alike = sorted(other for other, recipe in new.items() if old is not None and not recipe_changes(old, recipe).does)
    message = f"the recipe {name} is gone, or no plain file of the library"
    if alike:
        message += f"; {alike[0]}, which is new, does the same: under another name its prints and version begin anew"
    return lint_finding(RECIPE_GONE, "error", file, message)


def _from_recipe(changes: RecipeChanges, file: Path) -> Iterator[LintFinding]:
    old, new = changes.old, changes.new
    gone = [text for text in old.cautions if text not in new.cautions]
    fewer = len(new.cautions) < len(old.cautions)
    for text in gone:
        verb = "is gone" if fewer else "reads otherwise now"
        yield lint_finding(CAUTION_GONE, "error" if fewer else "hint", file, f"a caution {verb}: {text[:SHOWN]!r}")
    for rule in changes.went:
        if _on_heat(rule):
            message = f"rule {rule.number} of {old.version} on {rule_name(rule)} is gone: nothing holds the heat there"
            yield lint_finding(HEAT_RULE_GONE, "error", file, message)
    for change in changes.changed:
        if _on_heat(change.new) and "bound" in change.parts and direction(change.old, change.new) == "looser":
            message = f"rule {change.new.number} on {rule_name(change.new)} holds the heat less tightly than it did"
            yield lint_finding(HEAT_RULE_GONE, "hint", file, message, change.new.place.line)
    if target_material(old.target_material) and not target_material(new.target_material):
        message = f"'to' was {old.target_material!r} and names no known material now: its heat is held against none"
        yield lint_finding(MATERIAL_GONE, "error", file, message)


def _on_heat(rule: Rule) -> bool:
    return any(load_vocabulary().settings[name].kind == "temperature" for name in rule.settings)
