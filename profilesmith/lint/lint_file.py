"""One file to its findings: a pure function of the file and of the names of its library, so that files may be linted
apart.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

from profilesmith.coupon.load_plan import parse_plan
from profilesmith.coupon.read_log import parse_log
from profilesmith.evidence.load_evidence import load_evidence
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.read_file import read_bounded, read_toml
from profilesmith.foundation.toml_lines import index_lines
from profilesmith.foundation.toml_table import parse_toml
from profilesmith.library.open_files import open_facts, open_key_map
from profilesmith.library.run_examples import run_examples
from profilesmith.lint.finding import LintFinding, strictly
from profilesmith.lint.names import LibraryNames, names_around
from profilesmith.lint.reading import of_problems
from profilesmith.lint.rule import LintRule
from profilesmith.lint.rules import COUPON, COUPON_LOG, EVIDENCE, FACTS, KEY_MAP, RECIPE, TROUBLES
from profilesmith.lint.subjects import (
    CouponLog,
    CouponPlan,
    EvidenceFile,
    FactsFile,
    KeyMapFile,
    RecipeFile,
    TroublesFile,
)
from profilesmith.lint.unread import of_what_reads
from profilesmith.mend.load_troubles import parse_troubles, shipped_troubles
from profilesmith.recipe.load_recipe import what_reads
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def lint_file(path: Path, kind: str, names: LibraryNames | None = None, strict: bool = False) -> list[LintFinding]:
    """All findings of a file, by line.

    kind: ``recipe``, ``key map``, ``facts``, ``evidence``, ``coupon`` or ``coupon log``. names: from ``library_names``;
    None to look around the file.
    """
    findings = sorted(BY_KIND[kind](path, names or names_around(path)), key=lambda item: (item.line or 0, item.number))
    return strictly(findings) if strict else findings


def findings(rules: Iterable[LintRule], subject: Any, file: str) -> Iterator[LintFinding]:
    """What some rules find in a subject."""
    for rule in rules:
        for fault in rule.find(subject):
            yield rule.finding(fault, file)


def _recipe(path: Path, names: LibraryNames) -> Iterator[LintFinding]:
    vocabulary, raw = load_vocabulary(), read_bounded(path, str(path))
    if isinstance(raw, Problem):
        yield from of_problems([raw], RECIPE, str(path))
        return
    top, problems = parse_toml(raw, str(path), "recipe", go_on=True)
    recipe = what_reads(top, vocabulary) if top else None
    yield from of_problems(problems, RECIPE, str(path))
    if top is None or recipe is None:
        return
    file = RecipeFile(path, raw, index_lines(top.file.text), names, vocabulary, recipe)
    if problems:
        yield from of_what_reads(file, problems, RECIPE)
    else:
        yield from findings(RECIPE, file._replace(results=tuple(run_examples(recipe, vocabulary))), str(path))


def _key_map(path: Path, names: LibraryNames) -> Iterator[LintFinding]:
    key_map, problems = open_key_map(path, str(path))
    yield from of_problems(problems, KEY_MAP, str(path))
    top, _ = read_toml(path, str(path), "key map")
    if top is not None and key_map is not None:
        yield from findings(KEY_MAP, KeyMapFile(path, index_lines(top.file.text), key_map), str(path))


def _facts(path: Path, names: LibraryNames) -> Iterator[LintFinding]:
    facts, problems = open_facts([(path, str(path))])
    yield from of_problems(problems, FACTS, str(path))
    top, _ = read_toml(path, str(path), "facts file")
    if top is not None and not problems:
        yield from findings(FACTS, FactsFile(path, index_lines(top.file.text), top.content, facts), str(path))


def _evidence(path: Path, names: LibraryNames) -> Iterator[LintFinding]:
    loaded = load_evidence(path, str(path), load_vocabulary())
    yield from of_problems(loaded.problems, EVIDENCE, str(path))
    yield from findings(EVIDENCE, EvidenceFile(path, names, loaded.records, loaded.withdrawals), str(path))


def _coupon(path: Path, names: LibraryNames) -> Iterator[LintFinding]:
    raw = read_bounded(path, str(path))
    if isinstance(raw, Problem):
        yield from of_problems([raw], COUPON, str(path))
        return
    plan, problems = parse_plan(raw, str(path), load_vocabulary())
    yield from of_problems(problems, COUPON, str(path))
    top, _ = parse_toml(raw, str(path), "coupon plan")
    if top is not None and plan is not None:
        yield from findings(COUPON, CouponPlan(path, index_lines(top.file.text), names, plan), str(path))


def _coupon_log(path: Path, names: LibraryNames) -> Iterator[LintFinding]:
    raw = read_bounded(path, str(path))
    problems = (raw,) if isinstance(raw, Problem) else parse_log(raw, str(path), None, load_vocabulary()).problems
    yield from of_problems(problems, COUPON_LOG, str(path))
    yield from findings(COUPON_LOG, CouponLog(path), str(path))


def _troubles(path: Path, names: LibraryNames) -> Iterator[LintFinding]:
    raw = read_bounded(path, str(path))
    if isinstance(raw, Problem):
        yield from of_problems([raw], TROUBLES, str(path))
        return
    shipped = shipped_troubles()
    known, problems = parse_troubles([(raw, str(path))], load_vocabulary(), shipped)
    yield from of_problems(problems, TROUBLES, str(path))
    causes = (cause for trouble in known.troubles.values() for cause in trouble.causes)
    own = tuple(cause for cause in causes if cause.place.file == str(path))
    yield from findings(TROUBLES, TroublesFile(path, own), str(path))


BY_KIND: Mapping[str, Callable[[Path, LibraryNames], Iterator[LintFinding]]] = {
    "recipe": _recipe,
    "key map": _key_map,
    "facts": _facts,
    "evidence": _evidence,
    "coupon": _coupon,
    "coupon log": _coupon_log,
    "troubles": _troubles,
}
