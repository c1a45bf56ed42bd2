"""``library check --since``: what a change does to every reference profile, by its cause, and what counts as an
error.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from markdown_it import MarkdownIt

from profilesmith.workflows.library.new_library import new_library
from tests.git import git

Program = Callable[..., Any]
pytestmark = pytest.mark.skipif(not shutil.which("git"), reason="git is not installed")
WARM = """format = 1
[recipe]
name = "warm"
version = "1.0.0"
title = "Warmer"
from = "PLA"
to = "flexible PLA"
licence = "CC0-1.0"
cautions = ["Ventilate: fumes.", "Hot parts burn."]
[[rule]]
setting = "nozzle.temperature"
aim = "212 °C"
why = "It flows better when it is warm."
source = "common practice"
[[rule]]
setting = "nozzle.temperature"
window = ["208 °C", "215 °C"]
why = "Hotter than this it comes apart."
source = "common practice"
[[rule]]
setting = "travel.speed"
cap = "300 mm/s"
why = "The belt of an invented printer slips."
source = "common practice"
[[example]]
given = { "travel.speed" = "320 mm/s" }
expect = { "travel.speed" = "300 mm/s" }
"""
PRINTERS = 20
FEW = 5
LOW = 3  # printers whose hot end takes no more than 220 °C


def commit(folder: Path) -> None:
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "--allow-empty", "-m", "A change")


@pytest.fixture(scope="module")
def laid_out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A club with a recipe and twenty printers, committed."""
    return lay_out(tmp_path_factory.mktemp("laid") / "club", PRINTERS)


@pytest.fixture(scope="module")
def laid_out_small(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same with few printers, for what does not hang on how many there are."""
    return lay_out(tmp_path_factory.mktemp("small") / "club", FEW)


def lay_out(club: Path, printers: int) -> Path:
    new_library(club, "", "CC0-1.0")
    (club / "recipes" / "example-gentle.toml").unlink()
    (club / "recipes" / "warm.toml").write_text(WARM)
    facts = (club / "facts" / "example-printer.toml").read_text()
    (club / "facts" / "low.toml").write_text(facts.replace('"240 °C"', '"220 °C"'))
    text = (club / "profiles" / "example-sheet.settings").read_bytes()
    head = (club / "library.toml").read_text().split("[[profile]]")[0]
    for number in range(printers):
        (club / "profiles" / f"p{number}.settings").write_bytes(
            text.replace(b"PaceHop=140", b"PaceHop=%d" % (140 + number))
        )
        head += f'[[profile]]\nname = "p{number}"\ntext = "profiles/p{number}.settings"\nkeymap = "example-sheet"\n'
        head += f'facts = ["{"low" if number < LOW else "example-printer"}"]\n'
    (club / "library.toml").write_text(head)
    git(club, "init", "-q", "-b", "main")
    commit(club)
    return club


@pytest.fixture
def club(laid_out: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv("PROFILESMITH_LIBRARY", raising=False)
    return Path(shutil.copytree(laid_out, tmp_path / "club", symlinks=True))


@pytest.fixture
def small(laid_out_small: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv("PROFILESMITH_LIBRARY", raising=False)
    return Path(shutil.copytree(laid_out_small, tmp_path / "club", symlinks=True))


def change(path: Path, *pairs: tuple[str, str]) -> None:
    text = path.read_text()
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    path.write_text(text)


def numbers(ran: Any) -> list[tuple[str, str]]:
    found = [(item["number"], item["severity"]) for item in json.loads(ran.out)["findings"]]
    return [item for item in found if item[0] in ("T401", "T402")]


def test_nothing_changed(club: Path, program: Program) -> None:
    ran = program("library", "check", club, "--since", "main")
    assert "every recipe derives what it did at main" in ran.out
    assert json.loads(program("library", "check", club, "--since", "main", "--as", "json").out)["effects"] == []
    assert "What changes" not in program("library", "check", club).out


def test_one_changed_value_over_twenty_printers_is_a_page_at_most(club: Path, program: Program) -> None:
    change(club / "recipes" / "warm.toml", ('aim = "212 °C"', 'aim = "209 °C"'), ("1.0.0", "1.1.0"))
    ran = program("library", "check", club, "--since", "main", "--as", "md")
    assert ran.code == 0
    lines = ran.out.splitlines()
    assert len(lines) <= 60
    assert sum("209 °C; was 212 °C" in line for line in lines if "nozzle.temperature" in line) == 1
    assert all(f"p{number}" in ran.out for number in range(PRINTERS))
    assert "warm 1.0.0 → 1.1.0: another outcome on 20 reference profiles" in ran.out
    assert "<h3>" in MarkdownIt().render(ran.out)
    effects = json.loads(program("library", "check", club, "--since", "main", "--as", "json").out)["effects"]
    assert [item["profile"] for item in effects] == [f"p{number}" for number in range(PRINTERS)]
    assert effects[0]["values"] == [
        {"setting": "nozzle.temperature", "base": "205 °C", "was": "212 °C", "now": "209 °C"}
    ]


def test_a_recipe_that_gets_hot(club: Path, program: Program) -> None:
    """Refused on the three that take 220 °C: an error. A caution on the others: a hint, an error when it is strict."""
    change(
        club / "recipes" / "warm.toml",
        ('aim = "212 °C"', 'aim = "236 °C"'),
        ('["208 °C", "215 °C"]', '["236 °C", "240 °C"]'),
        ("1.0.0", "1.1.0"),
    )
    ran = program("library", "check", club, "--since", "main", "--as", "json")
    assert ran.code == 1
    assert numbers(ran) == [("T401", "error"), ("T402", "hint")]
    strict = program("library", "check", club, "--since", "main", "--as", "json", "--strict")
    assert ("T402", "error") in numbers(strict)
    told = program("library", "check", club, "--since", "main").out
    assert "no longer derived: nozzle.temperature" in told
    assert "(on p0, p1 and p2)" in told
    assert "new: caution: Nozzle temperature: It is 16 °C above" in told
    assert "nozzle.temperature: 236 °C; was 212 °C (on p3, p4" in told


def test_a_changed_fact_is_one_cause_for_all(club: Path, program: Program) -> None:
    """The recipe is as it was: the fact is named once, with a count and the three worst."""
    for number in range(5):
        (club / "recipes" / f"warm-{number}.toml").write_text(WARM.replace('"warm"', f'"warm-{number}"'))
    commit(club)
    git(club, "branch", "before")
    change(club / "facts" / "example-printer.toml", ('"240 °C"', '"205 °C"'))
    ran = program("library", "check", club, "--since", "before", "--as", "json")
    assert numbers(ran) == [("T401", "error")]
    message = next(item for item in json.loads(ran.out)["findings"] if item["number"] == "T401")["message"]
    assert message.startswith("facts example-printer (machine.maximum_nozzle_temperature 205 °C, was 240 °C): ")
    assert f"{6 * (PRINTERS - LOW)} derivations" in message
    lines = program("library", "check", club, "--since", "before").out.splitlines()
    told = [line for line in lines if line.startswith("- no longer derived")]
    assert len(told) == 1
    assert "102: warm-0 on p3, warm-0 on p4, warm-0 on p5 and 99 more" in told[0]


def test_a_new_recipe_is_held_against_the_profile_itself(club: Path, program: Program) -> None:
    hot = WARM.replace('"warm"', '"hot"').replace('"212 °C"', '"236 °C"').replace('"215 °C"', '"240 °C"')
    (club / "recipes" / "hot.toml").write_text(hot)
    ran = program("library", "check", club, "--since", "main")
    assert "hot 1.0.0, new: asks for a look on" in ran.out
    assert "T401" not in ran.out
    assert "T402" in ran.out


def test_an_alarm_that_goes_is_told_and_is_no_finding(club: Path, program: Program) -> None:
    path = club / "recipes" / "warm.toml"
    change(path, ('aim = "212 °C"', 'aim = "225 °C"'), ('"215 °C"', '"240 °C"'))
    change(club / "facts" / "low.toml", ('"220 °C"', '"240 °C"'))
    commit(club)
    git(club, "branch", "hot")
    change(path, ('aim = "225 °C"', 'aim = "212 °C"'), ("1.0.0", "1.1.0"))
    ran = program("library", "check", club, "--since", "hot", "--as", "json")
    assert numbers(ran) == []
    assert "- gone: caution: Nozzle temperature (on" in program("library", "check", club, "--since", "hot").out


def test_what_the_other_branch_did_since_is_no_change_here(club: Path, program: Program) -> None:
    """Held against the merge base: a branch that is merely behind takes nothing back."""
    git(club, "branch", "behind")
    change(club / "recipes" / "warm.toml", ('aim = "212 °C"', 'aim = "209 °C"'), ("1.0.0", "1.1.0"))
    commit(club)
    git(club, "checkout", "-q", "behind")
    ran = program("library", "check", club, "--since", "main")
    assert ran.code == 0
    assert "every recipe derives what it did at main" in ran.out
    assert "R701" not in ran.out


def test_several_processes_find_the_same(club: Path, program: Program) -> None:
    change(club / "recipes" / "warm.toml", ('aim = "212 °C"', 'aim = "209 °C"'), ("1.0.0", "1.1.0"))
    shutil.copyfile(club / "recipes" / "warm.toml", club / "recipes" / "other.toml")
    change(club / "recipes" / "other.toml", ('name = "warm"', 'name = "other"'), ("209", "230"))
    words = ("library", "check", club, "--since", "main", "--as", "json", "--jobs")
    assert json.loads(program(*words, "1").out) == json.loads(program(*words, "2").out)


def test_a_revision_without_a_library(club: Path, program: Program) -> None:
    git(club, "checkout", "-q", "--orphan", "empty")
    git(club, "rm", "-rq", "--cached", ".")
    git(club, "commit", "-q", "--allow-empty", "-m", "Nothing")
    ran = program("library", "check", club, "--since", "empty")
    assert ran.code == 0
    assert "empty holds no library that reads" in ran.out


def gone(ran: Any) -> list[tuple[str, str]]:
    found = [(item["number"], item["severity"]) for item in json.loads(ran.out)["findings"]]
    return [item for item in found if item[0].startswith("T5")]


def since_main(program: Program, club: Path, *words: str) -> Any:
    return program("library", "check", club, "--since", "main", "--as", "json", *words)


def with_prints(club: Path) -> Path:
    path = club / "evidence" / "warm.jsonl"
    path.write_text('{"a": 1}\n{"a": 2}\n')
    commit(club)
    return path


def drop_print(club: Path) -> None:
    with_prints(club).write_text('{"a": 2}\n')


def drop_map(club: Path) -> None:
    spare = club / "keymaps" / "spare.toml"
    spare.write_text((club / "keymaps" / "example-sheet.toml").read_text().replace('"example-sheet"', '"spare"'))
    commit(club)
    spare.unlink()


def gut(club: Path) -> None:
    change(club / "library.toml", ("# strict = true", "strict = true"))
    commit(club)
    change(club / "library.toml", ("strict = true", "strict = false"))
    (club / "check.sh").write_text("#!/bin/sh\nexit 0\n")
    (club / ".pre-commit-config.yaml").unlink()


def rename(club: Path) -> None:
    (club / "recipes" / "warm.toml").rename(club / "recipes" / "warmer.toml")
    change(club / "recipes" / "warmer.toml", ('name = "warm"', 'name = "warmer"'))


def only_a_link(club: Path) -> None:
    path = club / "recipes" / "warm.toml"
    outside = club.parent / "elsewhere.toml"
    path.rename(outside)
    path.symlink_to(outside)


RECIPE = "recipes/warm.toml"
HEAT_RULE = WARM[
    WARM.index('[[rule]]\nsetting = "nozzle.temperature"\nwindow') : WARM.index('[[rule]]\nsetting = "travel')
]
TAKEN = {
    "nothing": (lambda club: None, []),
    "a recipe": (lambda club: (club / RECIPE).unlink(), [("T502", "error")]),
    "a recipe, renamed": (rename, [("T502", "error")]),
    "a recipe, linked": (only_a_link, [("T502", "error")]),
    "a map": (drop_map, [("T503", "hint")]),
    "a profile": (
        lambda club: change(club / "library.toml", ('name = "p4"', 'name = "other"')),
        [("T504", "error")],
    ),
    "a caution": (
        lambda club: change(
            club / RECIPE, ('"Ventilate: fumes.", "Hot parts burn."', '"Ventilate: fumes."'), ("1.0.0", "1.1.0")
        ),
        [("T505", "error")],
    ),
    "a caution's words": (
        lambda club: change(club / RECIPE, ('"Ventilate: fumes."', '"Fumes."'), ("1.0.0", "1.1.0")),
        [("T505", "hint")],
    ),
    "a rule on heat": (lambda club: change(club / RECIPE, (HEAT_RULE, ""), ("1.0.0", "1.1.0")), [("T506", "error")]),
    "a bound on heat": (
        lambda club: change(club / RECIPE, ('"208 °C", "215 °C"', '"208 °C", "225 °C"'), ("1.0.0", "1.1.0")),
        [("T506", "hint")],
    ),
    "the material": (
        lambda club: change(club / RECIPE, ('to = "flexible PLA"', 'to = "goo"'), ("1.0.0", "1.1.0")),
        [("T507", "error")],
    ),
    "what checks it": (gut, [("T509", "error"), ("T509", "error"), ("T508", "error")]),
    "a print": (drop_print, [("T501", "error")]),
    "all prints": (lambda club: with_prints(club).unlink(), [("T501", "error")]),
}


@pytest.mark.parametrize("what", TAKEN)
def test_what_is_taken_away_is_named(what: str, small: Path, program: Program) -> None:
    take, expected = TAKEN[what]
    take(small)
    ran = since_main(program, small)
    assert sorted(gone(ran)) == sorted(expected)
    if ("error" in {severity for _, severity in expected}) or what == "nothing":
        assert ran.code == (1 if expected else 0)


def test_a_renamed_recipe_is_told_as_one(club: Path, program: Program) -> None:
    rename(club)
    assert "warmer, which is new, does the same" in since_main(program, club).out


def test_accepted_on_purpose_with_a_reason(small: Path, program: Program) -> None:
    change(small / RECIPE, ('to = "flexible PLA"', 'to = "goo"'), ("1.0.0", "1.1.0"))
    git(small, "checkout", "-q", "-b", "change")
    git(small, "commit", "-q", "-a", "-m", "Lead to goo")
    assert since_main(program, small, "--accept", "T507").codes == ("no-reason",)
    git(small, "commit", "-q", "--allow-empty", "-m", "Why\n\nT507: nobody prints the old one any more")
    ran = since_main(program, small, "--accept", "t507", "--strict")
    assert gone(ran) == [("T507", "hint")]
    assert "(accepted: nobody prints the old one any more)" in ran.out


@pytest.mark.parametrize("words", [("--since", "main", "--accept", "R701"), ("--accept", "T507")])
def test_what_cannot_be_accepted(words: tuple[str, ...], club: Path, program: Program) -> None:
    assert program("library", "check", club, *words).codes == ("accept",)


def test_many_findings_of_one_number_are_a_few_lines(small: Path, program: Program) -> None:
    for number in range(11):
        (small / "recipes" / f"warm-{number}.toml").write_text(WARM.replace('"warm"', f'"warm-{number}"'))
    commit(small)
    change(small / "facts" / "example-printer.toml", ('"240 °C"', '"205 °C"'))
    ran = program("library", "check", small, "--since", "HEAD", "--as", "md")
    assert sum("hint T203 " in line for line in ran.out.splitlines()) == 3
    assert "9 more of hint T203" in ran.out
    assert program("library", "check", small, "--since", "HEAD", "--as", "lines").out.count(" T203 ") == 12
