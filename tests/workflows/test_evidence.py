"""``evidence add`` and ``list``, ``recipe show``: what is recorded, what is never recorded, what is said of it."""

from __future__ import annotations

import datetime
import getpass
import json
import shutil
import socket
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.cli.commands.evidence import which_values
from profilesmith.workflows.request import Request
from tests.shipped import version

Program = Callable[..., Any]
MAP = (
    'format = 1\n[keymap]\nname = "m"\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n'
    '[[binding]]\nsetting = "nozzle.temperature"\nkey = "tip"\n'
)
RECIPE = (
    'format = 1\n[recipe]\nname = "slow"\nversion = "1.0.0"\n[inputs.most]\nkind = "speed"\n'
    'default = "40 mm/s"\nask = "How fast?"\n'
    '[[rule]]\nsetting = "outer_wall.speed"\ncap = { input = "most" }\nwhy = "test"\n'
)
FACTS = (
    'format = 1\n[machine]\nname = "Bessie of 3 Mill Lane"\ndrive = "remote"\n'
    'tube_length = "42 cm"\n[spool]\nmaterial = "{}"\nnozzle_window = ["210 °C", "220 °C"]\n'
    'drying_time = "6 h"\n[part]\nthickness = "2 mm"\n'
)
ADD = (
    "evidence",
    "add",
    "slow",
    "--base",
    "base.cfg",
    "--keymap",
    "map.toml",
    "--facts",
    "facts.toml",
    "--library",
    "club",
)


@pytest.fixture(autouse=True)
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("club/recipes").mkdir(parents=True)
    Path("club/recipes/slow.toml").write_text(RECIPE)
    Path("base.cfg").write_text("rim = 80\ntip = 205\n")
    Path("map.toml").write_text(MAP)
    Path("facts.toml").write_text(FACTS.format("flexible PLA"))
    return tmp_path


def lines() -> list[dict[str, Any]]:
    return [json.loads(line) for line in Path("club/evidence/slow.jsonl").read_text(encoding="utf-8").splitlines()]


def test_a_record_holds_version_facts_values_and_what_was_judged(program: Program) -> None:
    ran = program(
        *ADD,
        "--outcome",
        "worked",
        "--adhesion",
        "good",
        "--sanding",
        "poor",
        "--date",
        "2024-01-31",
        "--answer",
        "most=30 mm/s",
    )
    assert ran.code == 0, ran.err
    assert ran.out == (
        "2024-01-31  worked: adhesion good, sanding poor\n"
        "  machine: drive remote, tube length 420 mm; spool: material flexible PLA, nozzle window "
        "210 °C to 220 °C, drying time 6 h\n"
        "  settings: outer_wall.speed 30 mm/s\n"
        "slow 1.0.0: tried once, worked 1 of 1: too few to tell (2 % to 100 % of such prints would "
        "work, with 95 % confidence).\n"
    )
    assert ran.err == "recorded in club/evidence/slow.jsonl\n"
    record = lines()[0]
    assert (record["recipe"], record["version"], record["date"], record["outcome"]) == (
        "slow",
        "1.0.0",
        "2024-01-31",
        "worked",
    )
    assert record["judged"] == {"adhesion": "good", "sanding": "poor"}
    assert record["values"] == {"outer_wall.speed": "30 mm/s"}
    assert record["facts"] == {
        "machine.drive": "remote",
        "machine.tube_length": "420 mm",
        "spool.material": "flexible PLA",
        "spool.nozzle_window": "210 °C to 220 °C",
        "spool.drying_time": "21600 s",
    }


def test_no_person_machine_or_file_is_named(program: Program, tmp_path: Path) -> None:
    shutil.copy("base.cfg", tmp_path / "bessie-secret.cfg")
    words = [word if word != "base.cfg" else str(tmp_path / "bessie-secret.cfg") for word in ADD]
    assert program(*words, "--outcome", "failed").code == 0
    written = Path("club/evidence/slow.jsonl").read_text(encoding="utf-8")
    for secret in (
        "Bessie",
        "bessie",
        "Mill Lane",
        str(tmp_path),
        tmp_path.name,
        "facts.toml",
        "map.toml",
        f'"{socket.gethostname()}"',
        f'"{getpass.getuser()}"',
        "note",
        '"by"',
    ):
        assert secret not in written
    # A day and no hour; the thickness of the part is nobody's machine or spool.
    assert len(lines()[0]["date"]) == 10
    assert "part." not in written


def test_a_material_in_ones_own_words_is_left_out_and_said_so(program: Program) -> None:
    Path("facts.toml").write_text(FACTS.format("Uncle Ned's bendy stuff"))
    ran = program(*ADD, "--outcome", "worked")
    assert "spool.material" not in lines()[0]["facts"]
    assert "spool.material is not recorded" in ran.err
    assert "Uncle Ned" not in Path("club/evidence/slow.jsonl").read_text(encoding="utf-8")


def test_a_note_and_a_name_are_recorded_only_when_given_and_are_called_public(program: Program) -> None:
    ran = program(*ADD, "--outcome", "partly", "--note", 'Fine but for "strings"', "--by", "Ada")
    assert (lines()[0]["note"], lines()[0]["by"]) == ('Fine but for "strings"', "Ada")
    assert "public" in ran.err
    assert "public" not in program(*ADD, "--outcome", "partly").err


def test_two_equal_prints_are_two_records_and_the_second_is_pointed_out(program: Program) -> None:
    first, second = (program(*ADD, "--outcome", "worked", "--again") for _ in range(2))
    assert "equal record" not in first.err
    assert "equal record" in second.err
    assert "worked 2 of 2" in second.out
    assert lines()[0]["id"] != lines()[1]["id"]


def test_quiet(program: Program) -> None:
    ran = program(*ADD, "--outcome", "worked", "--quiet")
    assert (ran.code, ran.out, ran.err) == (0, "", "")
    assert len(lines()) == 1


def test_a_recipe_of_the_shipped_library_is_recorded_in_ones_own(program: Program) -> None:
    words = [word if word != "slow" else "flexible-pla" for word in ADD]
    assert program(*words, "--outcome", "worked").code == 0
    assert "worked 1 of 1" in program("recipe", "show", "flexible-pla", "--library", "club").out
    assert f"Not tried yet at version {version('flexible-pla')[:3]}" in program("recipe", "show", "flexible-pla").out


def test_the_library_may_come_from_the_environment(program: Program, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PROFILESMITH_LIBRARY", "club")
    assert program(*ADD[:-2], "--outcome", "worked").code == 0
    assert len(lines()) == 1


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["--outcome", "great"], "value"),
        (["--outcome", "worked", "--adhesion", "super"], "value"),
        (["--outcome", "worked", "--date", "2024-02-30"], "value"),
        (["--outcome", "worked", "--date", "9999-01-31"], "future"),
        (["--outcome", "worked", "--as", "page"], "form"),
        (["--outcome", "worked", "--note", "two\nlines"], "control"),
        (["--outcome", "worked", "--note", "\u202eturned"], "control"),
        (["--outcome", "worked", "--note", "x" * 500], "too-long"),
        (["--outcome", "worked", "--by", "x" * 100], "too-long"),
        (["--outcome", "worked", "--library", "nowhere"], "no-library"),
        (["--outcome", "worked", "--facts", "none.toml"], "no-file"),
    ],
)
def test_what_is_refused_leaves_no_file(program: Program, words: list[str], code: str) -> None:
    ran = program(*ADD, *words)
    assert ran.code == 2
    assert code in ran.codes
    assert not Path("club/evidence").exists()


def test_without_a_library_the_hint_says_how_to_get_one(program: Program) -> None:
    ran = program(*ADD[:-2], "--outcome", "worked")
    assert ran.code == 2
    assert "no-library" in ran.codes or "not-found" in ran.codes
    assert "library new" in ran.err


def test_a_conflict_is_not_recorded(program: Program) -> None:
    Path("club/recipes/slow.toml").write_text(
        RECIPE + '[[rule]]\nsetting = "outer_wall.speed"\nraise_to = "50 mm/s"\nwhy = "test"\n'
    )
    assert program(*ADD, "--outcome", "worked").code == 3
    assert not Path("club/evidence").exists()


def test_a_file_with_a_mistake_is_not_added_to(program: Program) -> None:
    program(*ADD, "--outcome", "worked")
    path = Path("club/evidence/slow.jsonl")
    path.write_text(path.read_text(encoding="utf-8") + "nonsense\n", encoding="utf-8")
    before = path.read_bytes()
    ran = program(*ADD, "--outcome", "worked")
    assert ran.code == 2
    assert "slow.jsonl:2" in ran.err
    assert path.read_bytes() == before
    shown = program("recipe", "show", "slow", "--library", "club")
    assert shown.code == 0
    assert "Not counted: " in shown.out
    listed = program("evidence", "list", "--library", "club")
    assert listed.code == 1
    assert "worked 1 of 1" in listed.out
    assert "slow.jsonl:2" in listed.err


def test_one_edited_line_hides_no_other_record(program: Program) -> None:
    for word in ("good", "fair"):
        program(*ADD, "--outcome", "worked", "--adhesion", word)
    path = Path("club/evidence/slow.jsonl")
    path.write_text(path.read_text(encoding="utf-8").replace('"fair"', '"good"'), encoding="utf-8")
    for form in ("terminal", "json"):
        listed = program("evidence", "list", "slow", "--library", "club", "--as", form)
        assert listed.code == 1
        assert "slow.jsonl:2" in listed.err
        assert "Put the record back as it was" in listed.err
    assert json.loads(listed.out)[0]["tried"] == 1


def test_a_link_out_of_the_library_is_neither_read_nor_written(program: Program, tmp_path: Path) -> None:
    outside = tmp_path / "outside.jsonl"
    outside.write_text("")
    Path("club/evidence").mkdir()
    Path("club/evidence/slow.jsonl").symlink_to(outside)
    ran = program(*ADD, "--outcome", "worked")
    assert (ran.code, ran.codes) == (2, ("outside",))
    assert outside.read_text() == ""


def test_a_folder_that_links_out_of_the_library_is_refused(program: Program, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    Path("club/evidence").symlink_to(tmp_path / "elsewhere")
    assert program(*ADD, "--outcome", "worked").codes == ("outside",)
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_recipe_by_a_hostile_name_stays_in_the_folder(program: Program, tmp_path: Path) -> None:
    Path("club/recipes/slow.toml").write_text(RECIPE.replace('"slow"', '"../../slow"'))
    assert program(*ADD, "--outcome", "worked").code == 0
    assert [path.parent.name for path in tmp_path.rglob("*.jsonl")] == ["evidence"]
    assert "worked 1 of 1" in program("evidence", "list", "slow", "--library", "club").out


def test_the_list_shows_sums_records_and_other_versions(program: Program) -> None:
    program(*ADD, "--outcome", "worked", "--adhesion", "good", "--note", "Came off well.")
    program(*ADD, "--outcome", "partly", "--adhesion", "poor")
    Path("club/recipes/slow.toml").write_text(RECIPE.replace("1.0.0", "1.1.0"))
    program(*ADD, "--outcome", "failed", "--date", "2024-01-31")
    shown = program("evidence", "list", "--library", "club").out
    for words in (
        "slow 1.1.0",
        "worked 0 of 1, 1 failed: too few to tell (0 % to 98 % ",
        "Other versions (1.0): worked 1 of 2; they are not counted here",
        "no fair sample",
        "2024-01-31  1.1.0  failed",
        "drive remote",
        "drying time 6 h",
    ):
        assert words in shown
    data = json.loads(program("evidence", "list", "slow", "--library", "club", "--as", "json").out)
    assert [(item["tried"], len(item["other_versions"]), round(item["interval"]["high"], 3)) for item in data] == [
        (1, 2, 0.975)
    ]
    assert program("evidence", "list", "--as", "smoke").code == 2
    assert program("evidence", "list").out == "No evidence is recorded yet.\n"


def test_values_that_differ_by_tool_stay_apart(program: Program) -> None:
    Path("map.toml").write_text(MAP.replace('key = "rim"', 'key = "rim"\ntools = true'))
    Path("base.cfg").write_text("rim = 80,35\ntip = 205\n")
    assert program(*ADD, "--outcome", "worked").code == 0
    assert lines()[0]["values"] == {"outer_wall.speed": ["40 mm/s", "35 mm/s"]}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--outcome", "worked", "--adhesion", "super"], "--adhesion: 'super' is not one of good, fair, poor."),
        (["--outcome", "great"], "--outcome: 'great' is not one of worked, partly, failed."),
        (["--outcome", "worked", "--by", "x" * 100], "--by: "),
    ],
)
def test_a_mistake_is_told_by_its_option(program: Program, words: list[str], told: str) -> None:
    assert told in program(*ADD, *words).err


@pytest.mark.parametrize(("days", "code"), [(0, 0), (1, 0), (2, 2)])
def test_a_day_to_come_is_refused_but_for_tomorrow(program: Program, days: int, code: int) -> None:
    day = datetime.date.today() + datetime.timedelta(days=days)
    assert program(*ADD, "--outcome", "worked", "--date", day.isoformat()).code == code


def test_json_of_what_was_recorded(program: Program) -> None:
    assert json.loads(program(*ADD, "--outcome", "worked", "--as", "json").out) == lines()


STIFF = (
    RECIPE.replace('"slow"', '"hot"')
    .replace("outer_wall.speed", "nozzle.temperature")
    .replace('kind = "speed"', 'kind = "temperature"')
    .replace("40 mm/s", "200 °C")
)
DERIVED = ("evidence", "add", "--derived", "soft.cfg", "--library", "club", "--outcome", "worked")


@pytest.fixture
def derived(files: Path, program: Program) -> Path:
    Path("club/recipes/hot.toml").write_text(STIFF, encoding="utf-8")
    ran = program(
        "derive",
        "base.cfg",
        "--keymap",
        "map.toml",
        "--recipe",
        "slow",
        "--recipe",
        "hot",
        "--facts",
        "facts.toml",
        "--library",
        "club",
        "-o",
        "soft.cfg",
        "-q",
    )
    assert ran.code == 0, ran.err
    return files / "soft.cfg"


def records(recipe: str) -> list[dict[str, Any]]:
    return [json.loads(line) for line in Path(f"club/evidence/{recipe}.jsonl").read_text(encoding="utf-8").splitlines()]


def test_a_derived_file_says_recipes_facts_and_values(program: Program, derived: Path) -> None:
    ran = program(*DERIVED)
    assert ran.code == 0, ran.err
    slow, hot = records("slow")[0], records("hot")[0]
    assert (slow["together"], hot["together"]) == ({"hot": "1.0.0"}, {"slow": "1.0.0"})
    for record in (slow, hot):
        assert record["values"] == {"outer_wall.speed": "40 mm/s", "nozzle.temperature": "200 °C"}
        assert record["facts"]["spool.nozzle_window"] == "210 °C to 220 °C"
        assert "machine.name" not in record["facts"]
        assert "by_hand" not in record
    assert slow["mark"] == hot["mark"]
    assert slow["id"] != hot["id"]
    assert "together with hot 1.0.0" in program("evidence", "list", "slow", "--library", "club").out
    assert ran.err == "recorded in club/evidence/slow.jsonl\nrecorded in club/evidence/hot.jsonl\n"


def test_what_was_edited_since_is_recorded_as_it_is_and_said(program: Program, derived: Path) -> None:
    derived.write_text(derived.read_text().replace("rim = 40", "rim = 45"))
    ran = program(*DERIVED, "--values", "now")
    assert ran.code == 0, ran.err
    assert records("slow")[0]["values"] == {"outer_wall.speed": "45 mm/s", "nozzle.temperature": "200 °C"}
    assert records("slow")[0]["by_hand"] == ["outer_wall.speed"]
    assert "outer_wall.speed 40 mm/s → 45 mm/s" in ran.err
    assert "slow 1.0.0, rule 1" in ran.err
    assert "by hand: outer_wall.speed" in ran.out


def test_what_follows_an_edited_value_was_not_edited_itself(program: Program) -> None:
    Path("map.toml").write_text(
        MAP
        + '[[binding]]\nsetting = "first_layer.speed"\nkey = "first"\nunit = "%"\nrelative_to = "outer_wall.speed"\n'
    )
    Path("base.cfg").write_text("rim = 80\ntip = 205\nfirst = 50\n")
    program(
        "derive",
        "base.cfg",
        "--keymap",
        "map.toml",
        "--recipe",
        "slow",
        "--library",
        "club",
        "-o",
        "soft.cfg",
        "-q",
        "--shares",
        "follow",
    )
    path = Path("soft.cfg")
    path.write_text(path.read_text().replace("rim = 40", "rim = 45"))
    assert program(*DERIVED, "--values", "now").code == 0
    assert records("slow")[0]["values"] == {"outer_wall.speed": "45 mm/s", "first_layer.speed": "22.5 mm/s"}
    assert records("slow")[0]["by_hand"] == ["outer_wall.speed"]


def test_after_an_edit_it_must_be_said_which_values_were_printed(program: Program, derived: Path) -> None:
    derived.write_text(derived.read_text().replace("rim = 40", "rim = 45"))
    ran = program(*DERIVED)
    assert (ran.code, ran.codes) == (2, ("edited-since",))
    assert "(outer_wall.speed): which values were printed?" in ran.err
    assert "--values printed" in ran.err
    assert not Path("club/evidence").exists()
    assert program(*DERIVED, "--values", "then").codes == ("values",)
    assert program(*ADD, "--outcome", "worked", "--values", "now").codes == ("values",)


def test_what_was_edited_after_the_print_is_not_recorded(program: Program, derived: Path) -> None:
    derived.write_text(derived.read_text().replace("rim = 40", "rim = 45"))
    ran = program(*DERIVED, "--values", "printed")
    assert ran.code == 0, ran.err
    record = records("slow")[0]
    assert record["values"] == {"outer_wall.speed": "40 mm/s", "nozzle.temperature": "200 °C"}
    assert "by_hand" not in record
    assert "recorded as it was written, before" in ran.err


@pytest.mark.parametrize(("answer", "speed"), [("y", "45 mm/s"), ("n", "40 mm/s")])
def test_on_a_terminal_it_is_asked_which_values_were_printed(
    program: Program, derived: Path, monkeypatch: pytest.MonkeyPatch, answer: str, speed: str
) -> None:
    derived.write_text(derived.read_text().replace("rim = 40", "rim = 45"))
    for stream in (sys.stdin, sys.stderr):
        monkeypatch.setattr(stream, "isatty", lambda: True)
    asked: list[str] = []
    monkeypatch.setattr("typer.confirm", lambda text, **_: (asked.append(text), answer == "y")[1])
    assert which_values("soft.cfg", Request(bases=(), key_map=""), quiet=False) == (
        "now" if answer == "y" else "printed"
    )
    assert asked == ["Was it printed with these edits?"]
    assert program(*DERIVED, "--values", "now" if answer == "y" else "printed").code == 0
    assert records("slow")[0]["values"]["outer_wall.speed"] == speed


def test_what_was_observed_stands_once_and_is_told_of_the_whole_print(program: Program, derived: Path) -> None:
    assert "worked, of the whole print: stringing poor" in program(*DERIVED, "--stringing", "poor").out
    assert [records(name)[0]["judged"] for name in ("slow", "hot")] == [{"stringing": "poor"}, {}]
    for name in ("slow", "hot"):
        shown = program("evidence", "list", name, "--library", "club").out
        assert "worked, of the whole print: stringing poor" in shown
        assert "  stringing, in prints with other recipes too: 1 poor" in shown
    listed = json.loads(program("evidence", "list", "hot", "--library", "club", "--as", "json").out)[0]
    assert list(listed["observed_with_other_recipes"].values()) == [{"stringing": "poor"}]


def test_what_was_observed_of_a_recipe_alone_counts_for_it(program: Program, derived: Path) -> None:
    program(*DERIVED, "--stringing", "poor")
    program(*ADD, "--outcome", "worked", "--stringing", "good")
    shown = program("evidence", "list", "slow", "--library", "club").out
    assert "  stringing: 1 good\n  stringing, in prints with other recipes too: 1 poor\n" in shown


def test_one_recipe_of_several_may_be_named(program: Program, derived: Path) -> None:
    assert program("evidence", "add", "hot", *DERIVED[2:]).code == 0
    assert records("hot")[0]["together"] == {"slow": "1.0.0"}
    assert not Path("club/evidence/slow.jsonl").exists()
    assert program("evidence", "add", "flexible-pla", *DERIVED[2:]).codes == ("other-recipe",)


def test_a_map_that_learnt_more_keys_is_no_edit(program: Program, derived: Path) -> None:
    derived.with_name("base.cfg").write_text("rim = 80\ntip = 205\nfan = 30\n")
    program(
        "derive",
        "base.cfg",
        "--keymap",
        "map.toml",
        "--recipe",
        "slow",
        "--library",
        "club",
        "-o",
        "soft.cfg",
        "-q",
        "--overwrite",
    )
    Path("map.toml").write_text(MAP + '[[binding]]\nsetting = "fan.power"\nkey = "fan"\n')
    assert program(*DERIVED).code == 0
    assert "by_hand" not in records("slow")[0]


def test_several_recipes_over_a_base_are_one_print(program: Program) -> None:
    Path("club/recipes/hot.toml").write_text(STIFF, encoding="utf-8")
    assert program("evidence", "add", "slow", "hot", *ADD[3:], "--outcome", "worked").code == 0
    assert records("slow")[0]["together"] == {"hot": "1.0.0"}
    assert records("slow")[0]["values"] == records("hot")[0]["values"]


def test_a_base_that_the_recipe_made_is_refused(program: Program, derived: Path) -> None:
    ran = program(
        "evidence",
        "add",
        "slow",
        "--base",
        "soft.cfg",
        "--keymap",
        "map.toml",
        "--library",
        "club",
        "--outcome",
        "worked",
    )
    assert (ran.code, ran.codes) == (2, ("derived-base",))
    assert "--derived soft.cfg" in ran.err
    assert not Path("club/evidence").exists()
    Path("club/recipes/more.toml").write_text(RECIPE.replace('"slow"', '"more"'))
    assert (
        program(
            "evidence",
            "add",
            "more",
            "--base",
            "soft.cfg",
            "--keymap",
            "map.toml",
            "--library",
            "club",
            "--outcome",
            "worked",
        ).code
        == 0
    )


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["--base", "base.cfg"], "twice"),
        (["--facts", "facts.toml"], "twice"),
        (["--answer", "most=30 mm/s"], "twice"),
        (["--keymap", "none.toml"], "no-file"),
        (["--outcome", "great"], "value"),
    ],
)
def test_refused_beside_a_derived_file(program: Program, derived: Path, words: list[str], code: str) -> None:
    ran = program(*DERIVED, *words)
    assert ran.code == 2
    assert code in ran.codes
    assert not Path("club/evidence").exists()


def test_a_file_without_a_ledger_and_a_call_without_a_print(program: Program) -> None:
    assert program("evidence", "add", "--derived", "base.cfg", *DERIVED[4:]).codes == ("no-ledger",)
    assert program("evidence", "add", "slow", "--library", "club", "--outcome", "worked").codes == ("no-print",)


def test_the_printed_file_is_gone(program: Program, derived: Path) -> None:
    derived.unlink()
    ran = program(*DERIVED)
    assert ran.code == 2
    assert "soft.cfg" in ran.err
