"""Every rule has a fixture that passes and one that fails with its number alone: ``tests/cases/lint/<number>``."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from profilesmith.library.schemas.load_schema import load_schema
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.head_commit import HeadCommit
from profilesmith.lint.lint_file import lint_file
from profilesmith.lint.lint_library import lint_folder
from profilesmith.lint.names import names_around
from profilesmith.lint.render import count_line, render, render_json, render_plain
from profilesmith.lint.rules import RULES, rule_texts
from tests.git import git
from tests.lint.kinds import kind_of

CASES = Path(__file__).resolve().parents[1] / "cases" / "lint"
NUMBERS = [rule.number for rule in RULES]
SEVERITY = {rule.number: rule.severity for rule in RULES}


def lint(fixture: Path, work: Path) -> list[LintFinding]:
    """The findings of a fixture: a recipe, a folder of one file, a whole library, or a file and what was committed of
    it.
    """
    if (fixture / "committed.toml").is_file():
        return _since_commit(fixture, work)
    if (fixture / "library.toml").is_file():
        return lint_folder(fixture)
    files = (
        [fixture.with_suffix(".toml")]
        if not fixture.is_dir()
        else [path for path in fixture.rglob("*") if path.is_file()]
    )
    assert len(files) == 1
    # Whether this fixture was changed since the project's own last commit is not asked here.
    names = names_around(files[0])._replace(head=HeadCommit({}))
    return lint_file(files[0], kind_of(files[0]), names)


def _since_commit(fixture: Path, work: Path) -> list[LintFinding]:
    if not shutil.which("git"):
        pytest.skip("git is not installed")
    path = work / "slow-walls.toml"
    shutil.copyfile(fixture / "committed.toml", path)
    git(work, "init", "-q")
    git(work, "add", ".")
    git(work, "commit", "-q", "-m", "A recipe")
    assert lint_file(path, "recipe") == []
    shutil.copyfile(fixture / "now.toml", path)
    return lint_file(path, "recipe")


@pytest.mark.parametrize("number", NUMBERS)
def test_the_passing_fixture_has_no_finding(number: str, tmp_path: Path) -> None:
    assert [item for item in lint(CASES / number / "pass", tmp_path) if item.severity != "skipped"] == []


@pytest.mark.parametrize("number", NUMBERS)
def test_the_failing_fixture_fails_with_its_number_alone(number: str, tmp_path: Path) -> None:
    found = [item for item in lint(CASES / number / "fail", tmp_path) if item.severity != "skipped"]
    assert {item.number for item in found} == {number}, found
    assert {item.severity for item in found} == {SEVERITY[number]}
    for item in found:
        assert Path(item.file).is_file() or Path(item.file).is_dir()
        assert len(item.message) > 10
        assert len(item.fix) > 5
        assert item.line is None or 1 <= item.line <= Path(item.file).read_text(encoding="utf-8").count("\n")


def test_every_fixture_belongs_to_a_rule() -> None:
    assert {path.name for path in CASES.iterdir()} == set(NUMBERS)


def test_numbers_are_given_once_and_every_rule_is_explained() -> None:
    assert len(NUMBERS) == len(set(NUMBERS)) > 40
    for text in rule_texts():
        assert text.number[0] in "RKFECML"
        assert text.number[1:].isdigit()
        assert len(text.number) == 4
        assert min(len(text.title), len(text.why), len(text.fix)) > 15, text
        assert text.severity in ("error", "hint")


def test_where_findings_point() -> None:
    """Lines are those of the rule, input or key that is meant."""
    wanted = {
        "R201": "[[rule]]",
        "R602": "[inputs.fastest]",
        "R110": "licence =",
        "R112": "name =",
        "R502": "[[example]]",
        "K111": "[[binding]]",
        "F104": "tube_length =",
    }
    for number, words in wanted.items():
        item = lint(CASES / number / "fail", CASES)[0]
        assert item.line is not None
        assert Path(item.file).read_text(encoding="utf-8").split("\n")[item.line - 1].startswith(words), item


def test_strict_makes_hints_errors() -> None:
    path = CASES / "R111" / "fail.toml"
    assert [item.severity for item in lint_file(path, "recipe")] == ["hint"]
    assert [item.severity for item in lint_file(path, "recipe", strict=True)] == ["error"]


def test_the_three_forms(tmp_path: Path) -> None:
    found = [
        *lint(CASES / "R201" / "fail", tmp_path),
        *lint(CASES / "R111" / "fail", tmp_path),
        LintFinding("R701", "skipped", "club", None, "Not asked.", "Nothing."),
    ]
    document = json.loads(render_json(found))
    Draft202012Validator(load_schema("lint")).validate(document)
    assert (document["errors"], document["hints"], document["skipped"]) == (1, 1, 1)
    plain = render_plain(found).splitlines()
    assert len(plain) == 3
    assert plain[0] == f"{found[0].file}:{found[0].line}: error R201 {found[0].message}"
    assert plain[2].startswith("club:1: skipped R701 ")
    assert count_line(found) == "1 error, 1 hint, 1 rule skipped"
    assert found[0].fix in render(found, "terminal")
    assert count_line([]) == "nothing to complain about"


def test_strangers_text_is_made_visible() -> None:
    item = LintFinding("R112", "error", "a\x1b[31m.toml", 3, "The recipe is called '\u202egpj'.", "Rename\nit")
    for form in ("terminal", "plain", "json"):
        text = render([item], form)
        assert "\x1b" not in text
        assert "\u202e" not in text
    assert len(render_plain([item]).splitlines()) == 1
