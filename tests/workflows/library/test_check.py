"""A club's library, from laying it out to a check in several processes; and the check held against ``derive``
itself.
"""

from __future__ import annotations

import json
import os
import re
import shlex
import signal
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.foundation.problem import Problem, Refused
from profilesmith.library.find import shipped
from profilesmith.library.library import load_library
from profilesmith.library.open_files import open_recipe
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.names import library_names
from profilesmith.recipe.recipe import Recipe
from profilesmith.workflows.derive import derive
from profilesmith.workflows.library import trials as library_try
from profilesmith.workflows.library.check import check_library, make_plan
from profilesmith.workflows.library.checked import LibraryChecked
from profilesmith.workflows.library.findings import conflicts_with_itself
from profilesmith.workflows.library.folder import ground
from profilesmith.workflows.library.new_library import new_library
from profilesmith.workflows.request import Request
from tests.git import git

Program = Callable[..., Any]
ROOT = Path(__file__).resolve().parents[3]
LINE = re.compile(r"\S[^:]*:\d+: (error|hint|skipped) [A-Z]\d{3} \S.*")
HEAD = (
    'format = 1\n[recipe]\nname = "{name}"\nversion = "1.0.0"\ntitle = "Tried here"\n'
    'licence = "CC0-1.0"\ncautions = ["Ventilate: fumes."]\n{more}'
)
RULE = (
    '[[rule]]\nsetting = "{setting}"\n{demand}\nwhy = "So that something is asked for here."\n'
    'source = "common practice"\n'
)


@pytest.fixture
def club(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv("PROFILESMITH_LIBRARY", raising=False)
    monkeypatch.delenv("PROFILESMITH_TRACEBACK", raising=False)
    new_library(tmp_path / "club", "", "CC0-1.0")
    text = tmp_path / "club" / "profiles" / "example-sheet.settings"
    text.write_bytes(b"; a member's\n" + text.read_bytes())  # as laid out it is none of a real recipe's
    return tmp_path / "club"


def recipe(club: Path, name: str, *rules: tuple[str, str], more: str = "") -> Path:
    path = club / "recipes" / f"{name}.toml"
    path.write_text(
        HEAD.format(name=name, more=more)
        + "".join(RULE.format(setting=setting, demand=demand) for setting, demand in rules)
    )
    return path


def check(folder: Path, strict: bool = False, jobs: int = 1) -> LibraryChecked:
    return check_library(folder, strict, jobs, lambda done, total: None)


def trials(report: LibraryChecked) -> list[LintFinding]:
    return [item for item in report.findings if item.number.startswith("T")]


def told(report: LibraryChecked) -> list[tuple[str, str, str]]:
    return [(item.number, item.severity, Path(item.file).name) for item in trials(report)]


def test_a_new_library_passes(tmp_path: Path, program: Program, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    made = program("library", "new", "club")
    assert (made.code, made.err) == (0, "")
    assert "profilesmith library check club" in made.out
    ran = program("library", "check", "club")
    assert (ran.code, ran.err) == (0, "")
    assert "1 recipe and 1 pair on 1 reference profile, 2 derivations: 0 errors, 0 hints" in ran.out
    assert program("library", "check", "club", "--strict").code == 0
    monkeypatch.chdir(tmp_path / "club")
    assert program("library", "check").code == 0
    assert program("library", "check", "-q").out == ""


def test_names_and_licences(tmp_path: Path, program: Program) -> None:
    named = tmp_path / "a"
    assert (
        program("library", "new", named, "--name", "Verein für Flügel, Nord (2)", "--licence", "MIT OR Apache-2.0").code
        == 0
    )
    library, problems = load_library(named)
    assert problems == []
    assert (library.name, library.licence) == ("Verein für Flügel, Nord (2)", "MIT OR Apache-2.0")
    assert program("library", "check", named).code == 0
    assert program("library", "new", tmp_path / "b", "--name", "x`*<b>\n").codes == ("name",)
    assert program("library", "new", tmp_path / "b", "--name", "x" * 81).codes == ("name",)
    assert program("library", "new", tmp_path / "b", "--licence", 'x"\n').codes == ("licence",)
    assert program("library", "new", named).codes == ("exists",)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a"]


def test_schemas_and_editor_lines(club: Path) -> None:
    """Every ``#:schema`` line leads to a JSON Schema, and the file that it stands in fits it (jsonschema as outside
    judge).
    """
    import tomllib

    from jsonschema import Draft202012Validator

    seen = 0
    for path in club.rglob("*.toml"):
        first = path.read_text(encoding="utf-8").partition("\n")[0]
        assert first.startswith("#:schema "), path
        schema = json.loads(
            (path.parent / first.removeprefix("#:schema ")).resolve(strict=True).read_text(encoding="utf-8")
        )
        Draft202012Validator.check_schema(schema)
        content = tomllib.loads(path.read_text(encoding="utf-8"))
        assert [error.message for error in Draft202012Validator(schema).iter_errors(content)] == [], path
        assert not Draft202012Validator(schema).is_valid({**content, "nonsense": 1}), path
        seen += 1
    assert seen == 4


def test_other_commands_use_the_library(club: Path, program: Program) -> None:
    assert "example-gentle" in program("recipe", "list", "--library", club).out
    assert "Gentle speeds" in program("recipe", "show", "example-gentle", "--library", club).out
    assert "2 of 2 examples pass" in program("recipe", "check", "example-gentle", "--library", club).out
    base = club / "profiles" / "example-sheet.settings"
    ran = program(
        "derive",
        base,
        "--keymap",
        "example-sheet",
        "--recipe",
        "example-gentle",
        "--facts",
        "example-printer",
        "--library",
        club,
        "-o",
        club.parent / "out",
    )
    assert ran.code == 0
    assert b"PaceCore=50" in (club.parent / "out").read_bytes()


def test_every_command_of_its_readme_runs(club: Path, program: Program, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(club)
    readme = (club / "README.md").read_text(encoding="utf-8")
    commands = re.findall(r"^    profilesmith (.*)$", readme, re.M)
    assert len(commands) == 5
    for command in commands:
        for word, real in (
            ("MY-PROFILE", "profiles/example-sheet.settings"),
            ("MY-MAP", "example-sheet"),
            ("NEW-PROFILE", "../new.settings"),
        ):
            command = command.replace(word, real)
        ran = program(*shlex.split(command))
        assert (ran.code, ran.codes) == (0, ()), command
    for place in re.findall(r"^\| `([a-z.]+)/?`", readme, re.M):
        assert (club / place).exists(), place


def test_list(club: Path, program: Program) -> None:
    (club / "recipes" / "broken.toml").write_text("format = 1\n")
    out = program("library", "list", club).out
    assert re.search(r"^  example-gentle +1\.0\.0 .*2 examples +not tried +Gentle", out, re.M)
    assert re.search(r"^  broken +cannot be read", out, re.M)
    assert re.search(r"^  example-sheet +13 settings", out, re.M)
    assert re.search(r"^  example-printer +11 facts +on machine and spool", out, re.M)
    assert re.search(
        r"^  example +profiles/example-sheet\.settings +map example-sheet, facts example-printer", out, re.M
    )
    record = (
        "--base",
        club / "profiles" / "example-sheet.settings",
        "--keymap",
        "example-sheet",
        "--library",
        club,
        "--date",
        "2020-01-31",
    )
    assert program("evidence", "add", "example-gentle", "--outcome", "worked", *record).code == 0
    assert "1 of 1 worked" in program("library", "list", club).out
    assert program("library", "check", club).code == 1  # broken.toml, and nothing else
    assert {item.file for item in check(club).findings if item.severity == "error"} == {
        str(club / "recipes" / "broken.toml")
    }


def test_which_library_is_meant(club: Path, program: Program, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(club.parent)
    ran = program("library", "check")
    assert (ran.code, ran.codes) == (2, ("no-library",))  # never silently another one
    assert str(shipped()) not in ran.out + ran.err  # where the package lies is nobody's matter
    assert program("library", "list", "nowhere").codes == ("no-folder",)
    monkeypatch.setenv("PROFILESMITH_LIBRARY", "club")
    lines = program("library", "check").out.splitlines()
    assert lines[-2:] == [
        "club: 1 recipe and 1 pair on 1 reference profile, 2 derivations: 0 errors, 0 hints.",
        "Not asked: 1 rule, named above as skipped.",
    ]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--jobs", "-1"), "jobs"),
        (("--as", "page"), "form"),
        (("--as", "LINES"), "form"),
        (("--since", "main"), "revision"),
        (("--since", ""), "revision"),
    ],
)
def test_wrong_calls(club: Path, program: Program, words: tuple[str, ...], code: str) -> None:
    ran = program("library", "check", club, *words)
    assert (ran.code, ran.codes, ran.out) == (2, (code,), "")


def test_since_a_revision(club: Path, program: Program) -> None:
    """A change that is committed already: unseen from the last commit, an error from the branch that it came from."""
    for words in (
        ("init", "-q", "-b", "main"),
        ("add", "."),
        ("commit", "-q", "-m", "A library"),
        ("checkout", "-q", "-b", "change"),
    ):
        git(club, *words)
    path = club / "recipes" / "example-gentle.toml"
    before = path.read_text()
    path.write_text(before.replace('why = "', 'why = "Slowly: ', 1))
    git(club, "commit", "-q", "-a", "-m", "Other words")
    assert "R701" not in program("library", "check", club).out
    told = program("library", "check", club, "--since", "main", "--as", "lines")
    assert told.code == 1
    assert [line.split()[2] for line in told.out.splitlines()] == ["R701"]
    assert "since main, and is still 1.0.0" in told.out
    path.write_text(path.read_text().replace('version = "1.0.0"', 'version = "1.0.1"'))
    done = program("library", "check", club, "--since", "main")
    assert done.code == 0
    assert "1.0.0 → 1.0.1: 1 rule changed." in done.out
    assert "  reason: Slowly: " in done.out
    told = json.loads(program("library", "check", club, "--since", "main", "--as", "json").out)["changes"]
    assert "Rules that changed" in told
    assert "changed" not in program("library", "check", club).out
    for revision in ("gone", "--all", "main..change"):
        wrong = program("library", "check", club, f"--since={revision}")
        assert (wrong.code, wrong.codes, wrong.out) == (2, ("revision",), "")


def test_the_shipped_library_has_no_error() -> None:
    report = check(shipped())
    assert [item for item in report.findings if item.severity == "error"] == []
    assert (report.recipes, report.profiles) == (7, 3)
    assert report.derivations == (7 + report.pairs) * 3


def test_a_trial_says_what_derive_says() -> None:
    """Every recipe and every two of them on every shipped profile: refused by ``derive`` exactly where the trial has
    problems.
    """
    library, _ = load_library(shipped())
    paths = sorted(shipped().glob("*.toml"))
    recipes = {path.stem: open_recipe(path)[0] for path in paths if path.stem != "library"}
    seen = set()
    for profile in library.profiles:
        where, _ = ground(library, profile)
        for names in [*((name,) for name in recipes), *((one, two) for one in recipes for two in recipes if one < two)]:
            found = library_try.try_on(where, [recipes[name] for name in names])
            request = Request(
                bases=tuple(str(shipped() / text) for text in profile.texts),
                key_map=profile.key_map,
                recipes=names,
                facts=profile.facts,
                library=shipped(),
            )
            assert found.problems == derive(request).problems, (profile.name, names)
            seen.add(bool(found.problems))
    assert seen == {True, False}


def test_a_claim_that_does_not_hold(club: Path) -> None:
    """Each alone is fine, the two conflict: an error at the claim. Both claim it, and it is tried and told once."""
    recipe(club, "brisk", ("outer_wall.speed", 'raise_to = "60 mm/s"'), more='goes_with = ["calm"]\n')
    recipe(club, "calm", ("outer_wall.speed", 'cap = "40 mm/s"'), more='goes_with = ["brisk"]\n')
    report = check(club)
    assert told(report) == [("T301", "error", "brisk.toml")]
    found = trials(report)[0]
    assert (club / "recipes" / "brisk.toml").read_text().splitlines()[found.line - 1].startswith("goes_with")
    assert "brisk claims to go with calm" in found.message
    assert report.pairs == 2


def test_no_claim_no_fault(club: Path) -> None:
    recipe(club, "brisk", ("outer_wall.speed", 'raise_to = "60 mm/s"'))
    recipe(club, "calm", ("outer_wall.speed", 'cap = "40 mm/s"'))
    assert told(check(club)) == []


def test_aims_that_overrule_one_another_are_no_conflict(club: Path) -> None:
    recipe(club, "warm", ("nozzle.temperature", 'aim = "215 C"'), more='goes_with = ["warmer"]\n')
    recipe(club, "warmer", ("nozzle.temperature", 'aim = "218 C"'))
    assert told(check(club)) == []


def test_one_setting_that_stops_several_profiles_is_told_once() -> None:
    """The numbers differ from profile to profile, and so the words."""
    made = Recipe(name="hot", version="1.0.0", title="", rules=(), inputs={}, file="hot.toml")
    stopped = [
        (name, [Problem("hard-limit", f"{setting}: past {limit}.", setting=setting)])
        for name, setting, limit in (
            ("bench", "nozzle.temperature", 240),
            ("floor", "nozzle.temperature", 260),
            ("floor", "bed.temperature", 80),
        )
    ]
    told_of = [item.message for item in conflicts_with_itself(made, stopped, 2)]
    assert [message.partition(":")[0] for message in told_of] == ["nozzle.temperature", "bed.temperature"]
    assert "bench, floor" in told_of[0]


def test_a_recipe_that_does_not_suit_the_facts_is_a_hint(club: Path) -> None:
    """245 °C is above the example printer's own limit of 240 °C: right for another machine. Not even strictly an
    error.
    """
    path = recipe(club, "hot", ("nozzle.temperature", 'raise_to = "245 C"'), more='goes_with = ["example-gentle"]\n')
    for strict in (False, True):
        report = check(club, strict)
        assert told(report) == [("T203", "hint", "hot.toml")]
        assert path.read_text().splitlines()[trials(report)[0].line - 1] == "[[rule]]"
        assert "on 1 of 1 profile: example" in trials(report)[0].message
        assert trials(report)[0].fix == "Lower the temperature, or say for which machines the rule is: when = { ... }."


def test_what_t203_says_to_do_helps(club: Path) -> None:
    """A condition on the machine takes the hint away; what is beside a machine's limit of temperature has other
    words.
    """
    recipe(
        club,
        "hot",
        ("nozzle.temperature", 'when = { "machine.maximum_nozzle_temperature" = ">= 245 C" }\nraise_to = "245 C"'),
    )
    assert told(check(club)) == []
    text = (club / "facts" / "example-printer.toml").read_text()
    (club / "facts" / "example-printer.toml").write_text(text.replace("[spool]", '[spool]\nhardness = "85 A"', 1))
    recipe(
        club,
        "torn",
        ("outer_wall.speed", 'cap = "40 mm/s"'),
        ("outer_wall.speed", 'when = { "machine.drive" = "direct" }\nraise_to = "50 mm/s"'),
    )
    assert [(item.number, item.fix.partition(",")[0]) for item in trials(check(club))] == [("T203", "Nothing")]


def test_a_recipe_against_itself_is_an_error(club: Path) -> None:
    recipe(
        club,
        "torn",
        ("outer_wall.speed", 'cap = "40 mm/s"'),
        ("outer_wall.speed", 'raise_to = "50 mm/s"'),
        more='goes_with = ["example-gentle"]\n',
    )
    assert told(check(club)) == [("T202", "error", "torn.toml")]


def test_a_rule_that_found_no_key(club: Path, program: Program) -> None:
    """``support.gap`` has no key in the example's map; a second profile with one takes the hint away."""
    recipe(club, "gap", ("support.gap", 'raise_to = "0.2 mm"'), ("wall.count", 'cap = "2"'))
    assert told(check(club)) == [("T204", "hint", "gap.toml")]
    assert "rule 1 (support.gap)" in trials(check(club))[0].message
    assert told(check(club, strict=True)) == [("T204", "error", "gap.toml")]
    (club / "keymaps" / "more.toml").write_text(
        'format = 1\n[keymap]\nname = "more"\n[[binding]]\nsetting = "support.gap"\nkey = "Gap"\nunit = "mm"\n'
    )
    (club / "profiles" / "more.settings").write_text("Gap = 0.1\n")
    with (club / "library.toml").open("a") as stream:
        stream.write('\n[[profile]]\nname = "more"\ntext = "profiles/more.settings"\nkeymap = "more"\n')
    assert told(check(club)) == []


@pytest.mark.parametrize(
    "condition", ['when = { "machine.drive" = "remote" }\n', 'when = { "part.coating" = "rigid" }\n']
)
def test_a_rule_whose_condition_is_not_met_has_still_found_its_key(club: Path, condition: str) -> None:
    recipe(club, "when", ("retraction.distance", f'{condition}cap = "1 mm"'))
    assert told(check(club)) == []


def test_no_reference_profile(club: Path) -> None:
    text = (club / "library.toml").read_text()
    (club / "library.toml").write_text(text[: text.index("[[profile]]")])
    report = check(club)
    assert told(report) == [("T102", "hint", "library.toml")]
    assert report.derivations == 0


def test_a_profile_that_cannot_be_read(club: Path) -> None:
    (club / "profiles" / "example-sheet.settings").write_text("nothing here\n")
    report = check(club)
    assert told(report) == [("T101", "error", "library.toml")]
    assert "'example' cannot be read" in trials(report)[0].message
    line = trials(report)[0].line
    assert (club / "library.toml").read_text().splitlines()[line - 1] == "[[profile]]"


def test_a_text_that_is_not_opened(club: Path) -> None:
    """A pipe that nobody writes to, and a text of more than 5 MB: told at once."""
    path = club / "profiles" / "example-sheet.settings"
    path.write_bytes(path.read_bytes() + b"; long\n" * 800_000)
    assert told(check(club)) == [("T101", "error", "library.toml")]
    assert "larger than 5,000,000 bytes" in trials(check(club))[0].message
    path.unlink()
    os.mkfifo(path)
    report = check(club)
    assert [item.number for item in report.findings if item.severity == "error"] == ["L110"]


def test_what_is_missing_is_told_once(club: Path) -> None:
    (club / "keymaps" / "example-sheet.toml").unlink()
    report = check(club)
    assert [(item.number, Path(item.file).name) for item in report.findings if item.severity == "error"] == [
        ("L111", "library.toml")
    ]


def test_a_text_that_cannot_be_written(club: Path) -> None:
    """The map's word for "on" has a character that the text's own encoding (here Windows-1252) has not."""
    path = club / "keymaps" / "example-sheet.toml"
    path.write_text(path.read_text().replace('on = "yes"', 'on = "✓"'))
    profile = club / "profiles" / "example-sheet.settings"
    profile.write_bytes(profile.read_bytes() + "Note=Größe für Flügel\n".encode("cp1252"))
    recipe(club, "raft", ("raft.on", 'set = "on"'))
    report = check(club)
    assert told(report) == [("T201", "error", "raft.toml")]
    assert "'✓'" in trials(report)[0].message


def test_a_fault_of_the_program_is_told_and_the_rest_is_tried(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = library_try.apply_recipes

    def failing(base: object, recipes: Any, *more: Any) -> Any:
        if recipes[0].name == "odd":
            raise ZeroDivisionError("by nothing")
        return real(base, recipes, *more)

    recipe(club, "odd", ("wall.count", 'cap = "2"'))
    monkeypatch.setattr(library_try, "apply_recipes", failing)
    report = check(club)
    assert told(report) == [("T201", "error", "odd.toml")]
    assert "ZeroDivisionError: by nothing" in trials(report)[0].message
    assert report.derivations == 3
    monkeypatch.setenv("PROFILESMITH_TRACEBACK", "1")
    with pytest.raises(ZeroDivisionError):
        check(club)


def test_a_fault_of_the_lint_is_told(club: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def failing(path: Path, *more: Any) -> Any:
        raise ZeroDivisionError(path.name)

    monkeypatch.setattr(library_try, "lint_file", failing)
    assert {number for number, _, _ in told(check(club))} == {"T103"}


def test_what_is_skipped_has_a_file_and_a_line(club: Path, program: Program) -> None:
    """A folder has no line 1; its description has."""
    lines = program("library", "check", club, "--as", "lines").out.splitlines()
    assert [line.partition(" ")[0] for line in lines] == [f"{club / 'library.toml'}:1:"]
    assert lines[0].split()[1:3] == ["skipped", "R701"]
    assert all(LINE.fullmatch(line) for line in lines)


def test_a_material_that_nobody_knows(club: Path, program: Program) -> None:
    """320 °C for "a soft gaiter": an error without a known material; 215 °C: told as not asked, and no error even
    strictly.
    """
    for degrees, wanted in ((320, "error"), (215, "skipped")):
        path = recipe(club, "gaiter", ("nozzle.temperature", f'aim = "{degrees} C"'), more='to = "a soft gaiter"\n')
        path.write_text(
            path.read_text()
            + (
                f'[[example]]\ngiven = {{ "nozzle.temperature" = "200 C" }}\n'
                f'expect = {{ "nozzle.temperature" = "{degrees} C" }}\n'
            )
        )
        ran = program("library", "check", club, "--strict", "--as", "lines")
        found = [line.split()[1] for line in ran.out.splitlines() if " R401 " in line]
        assert (found, ran.code) == ([wanted], int(wanted == "error")), ran.out


def test_a_description_with_mistakes_is_a_finding(club: Path, program: Program) -> None:
    (club / "library.toml").write_text('format = 1\n[library]\nname = "club"\nlicence = "CC0-1.0"\nnonsense = 1\n')
    ran = program("library", "check", club, "--as", "lines")
    assert ran.code == 1
    assert ran.out.startswith(f"{club / 'library.toml'}:5: error L102 ")


def test_nothing_outside_is_read(club: Path, tmp_path: Path) -> None:
    """Neither a path instead of a name nor a link leads out; what lies there is never quoted."""
    (tmp_path / "secret.toml").write_text("secret = 'hidden words'\n")
    (club / "recipes" / "linked.toml").symlink_to(tmp_path / "secret.toml")
    (club / "keymaps" / "linked.toml").symlink_to(tmp_path / "secret.toml")
    text = (club / "library.toml").read_text()
    for name in (str(tmp_path / "secret.toml"), "../../secret.toml", "linked"):
        (club / "library.toml").write_text(text.replace('keymap = "example-sheet"', f"keymap = {json.dumps(name)}"))
        report = check(club)
        assert report.errors >= 1
        assert report.derivations == 0
        assert "hidden" not in str(report)
        assert "'secret'" not in str(report)


def test_strangers_words_are_made_visible(club: Path, program: Program) -> None:
    """An escape sequence and a direction mark in a recipe's name: shown as codes in every form."""
    path = club / "recipes" / "odd.toml"
    path.write_text(
        HEAD.format(name="odd\\u001b[31m\\u202e", more="") + RULE.format(setting="support.gap", demand='cap = "0.2 mm"')
    )
    for form in ("terminal", "lines", "json"):
        out = program("library", "check", club, "--as", form).out
        assert "odd" in out
        assert "\x1b" not in out
        assert "\u202e" not in out


def test_lines_and_json(club: Path, program: Program) -> None:
    recipe(club, "torn", ("outer_wall.speed", 'cap = "40 mm/s"'), ("outer_wall.speed", 'raise_to = "50 mm/s"'))
    lines = program("library", "check", club, "--as", "lines")
    assert lines.code == 1
    assert all(LINE.fullmatch(line) for line in lines.out.splitlines()), lines.out
    data = json.loads(program("library", "check", club, "--as", "json").out)
    assert len(data["findings"]) == len(lines.out.splitlines())
    assert data["errors"] == sum(" error " in line for line in lines.out.splitlines()) > 0
    assert (data["recipes"], data["pairs"], data["profiles"], data["derivations"]) == (2, 1, 1, 3)


def test_several_processes_say_the_same(club: Path) -> None:
    """Sixty recipes with hints and errors: the same findings in the same order, whatever the number of processes."""
    for number in range(60):
        demand = 'raise_to = "245 C"' if number % 2 else 'cap = "200 C"'
        recipe(
            club,
            f"n{number}",
            ("nozzle.temperature", demand),
            ("support.gap", 'cap = "0.2 mm"'),
            more=f'goes_with = ["n{(number + 1) % 60}"]\n',
        )
    alone, far = check(club), []
    together = check_library(club, False, 3, lambda done, total: far.append((done, total)))
    assert together == alone
    assert alone.findings == tuple(
        sorted(alone.findings, key=lambda item: (item.file, item.line or 0, item.number, item.message))
    )
    assert {item.number for item in trials(alone)} == {"T203", "T204"}
    assert (alone.pairs, alone.derivations) == (61, 122)
    assert far[-1][0] == far[-1][1] == len(far)


def test_a_pair_is_planned_once(club: Path) -> None:
    recipe(club, "a", ("wall.count", 'cap = "2"'), more='goes_with = ["b", "nobody", "a"]\n')
    recipe(club, "b", ("wall.count", 'cap = "3"'), more='goes_with = ["a", "part-soft"]\n')
    library, _ = load_library(club)
    plan = make_plan(library)
    assert plan.recipes == ("a", "b", "example-gentle")
    assert plan.pairs == (("a", "b"), ("b", "part-soft"), ("example-gentle", "part-soft"))


def test_claims_without_end_are_not_tried(club: Path) -> None:
    """Fifty of sixty are; the rest is told."""
    for number in range(60):
        recipe(club, f"n{number:02}", ("wall.count", 'cap = "4"'))
    recipe(
        club,
        "all",
        ("wall.count", 'cap = "5"'),
        more=f"goes_with = {json.dumps([f'n{number:02}' for number in range(60)])}\n",
    )
    report = check(club)
    assert told(report) == [("T302", "error", "all.toml")]
    assert report.pairs == 50 + 1


def test_a_process_that_dies_is_told(club: Path) -> None:
    """``begin`` that ends its process stands for one that ran out of memory."""
    from profilesmith.workflows.parallel import in_order

    with pytest.raises(Refused) as refused:
        list(in_order(len, ["a", "b"], sys.exit, 3, 2, lambda done, total: None))
    assert [problem.code for problem in refused.value.problems] == ["process-died"]


def test_a_bench_is_begun_once_for_a_process(club: Path) -> None:
    bench = library_try.begin(library_try.TrialSetup(str(club), library_names(club)))
    assert [item.profile.name for item in bench.grounds] == ["example"]
    assert {"example-gentle", "part-soft"} <= bench.recipes.keys()


def hear_interrupts() -> None:
    """In a new process: a job in the background is born deaf to Ctrl-C, and so are those that it starts."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})


# The program as a file of its own, which the processes that it starts read too: the work on one recipe waits until
# somebody writes into a pipe, so that Ctrl-C comes while there is work, however fast or slow the machine is.
WAITING_PROGRAM = """from functools import wraps

from profilesmith.workflows.library import check, trials

take = trials.take

@wraps(take)
def waits(step):
    if "waits" in str(step):
        with open({gate!r}, "rb") as gate:
            gate.read(1)
    return take(step)

trials.take = check.take = waits
check.CHUNK = 1

if __name__ == "__main__":
    from profilesmith.start import main

    main()
"""


def test_ctrl_c_on_a_terminal(club: Path, tmp_path: Path) -> None:
    """A real terminal shows how far it is; Ctrl-C, which all processes hear, ends them without a traceback."""
    import pexpect

    for name in ("waits", "x1", "x2", "x3", "x4", "x5", "x6"):
        recipe(club, name, ("wall.count", 'cap = "2"'), ("printing speeds", 'cap = "40 mm/s"'))
    os.mkfifo(tmp_path / "gate")
    (tmp_path / "waiting.py").write_text(WAITING_PROGRAM.format(gate=str(tmp_path / "gate")))
    gate = os.open(tmp_path / "gate", os.O_RDWR)
    words = [str(tmp_path / "waiting.py"), "library", "check", str(club), "--jobs", "2"]
    with pexpect.spawn(
        sys.executable,
        words,
        timeout=300,
        encoding="utf-8",
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        preexec_fn=hear_interrupts,
    ) as child:
        child.expect(r"checking the library, [1-9]\d* of [\d,]+, \d+ s")
        child.sendintr()
        child.expect_exact("^C")  # which the terminal shows once it has told the processes
        os.write(gate, b"!")
        child.expect(pexpect.EOF)
        child.wait()
        os.close(gate)
        assert child.exitstatus == 130
        assert "Stopped; nothing was left half written." in child.before
        assert "Traceback" not in child.before
