"""A derived file's ledger knows its key map: ``check`` and ``compare`` need no ``--keymap`` then."""

import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.workflows.demo import run_demo

Program = Callable[..., Any]


@pytest.fixture(autouse=True)
def heron(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    run_demo(str(tmp_path / "heron"))
    monkeypatch.chdir(tmp_path / "heron")
    return tmp_path / "heron"


def test_check_takes_the_map_that_the_ledger_knows(program: Program) -> None:
    told = program("check", "soft.settings", "--as", "markdown")
    assert "The key map is keymap.toml, as the ledger beside soft.settings says." in told.out.replace("\\", "")
    named = program("check", "soft.settings", "--keymap", "keymap.toml", "--as", "markdown")
    assert named.code == told.code
    assert "The key map is" not in named.out


@pytest.mark.parametrize("sides", [("base.settings", "soft.settings"), ("soft.settings", "base.settings")])
def test_compare_takes_the_map_of_either_side(sides: tuple[str, str], program: Program) -> None:
    told = program("compare", *sides, "--as", "json")
    named = program("compare", *sides, "--keymap", "keymap.toml", "--as", "json")
    assert told.code == named.code == 0
    assert json.loads(told.out)["patch"] == json.loads(named.out)["patch"]


def test_derive_takes_the_map_that_the_ledger_knows(program: Program) -> None:
    call = ("derive", "soft.settings", "--recipe", "tpu-95a")
    ran, named = (program(*call, *more, "--dry-run") for more in ((), ("--keymap", "keymap.toml")))
    assert (ran.code, ran.out) == (named.code, named.out)
    assert "The key map is keymap.toml, as the ledger beside soft.settings says." in ran.err
    assert program("derive", "base.settings", "--recipe", "tpu-95a").codes == ("no-keymap",)


def test_from_another_folder(heron: Path, monkeypatch: pytest.MonkeyPatch, program: Program) -> None:
    monkeypatch.chdir(heron.parent)
    assert program("check", "heron/soft.settings").code in (0, 1)


def test_without_ledger_or_map_it_has_to_be_named(heron: Path, program: Program) -> None:
    assert program("check", "base.settings").codes == ("no-keymap",)
    assert program("compare", "base.settings", "base.settings").codes == ("no-keymap",)
    (heron / "keymap.toml").unlink()
    ran = program("check", "soft.settings")
    assert ran.codes == ("no-keymap",)
    assert "names the map 'keymap.toml', which is not there" in ran.err


def test_a_stranger_s_ledger_leads_to_no_other_place(heron: Path, program: Program) -> None:
    """No absolute path, and no folder in place of a map."""
    ledger = heron / "soft.settings.ledger.json"
    data = json.loads(ledger.read_text(encoding="utf-8"))
    shutil.copy(heron / "keymap.toml", heron.parent / "k.toml")
    for named in (str(heron.parent / "k.toml"), ".", ""):
        ledger.write_text(json.dumps({**data, "key_map_file": named}), encoding="utf-8")
        assert program("check", "soft.settings").codes == ("no-keymap",)


def test_check_remembers_the_facts_and_answers_of_the_derivation(heron: Path, program: Program) -> None:
    """A derivation's own facts files and ``--answer`` are asked for no second time; a file named now goes before."""
    call = ("derive", "base.settings", "--keymap", "keymap.toml", "--recipe", "flexible-pla", "--facts", "machine.toml")
    assert program(*call, "--answer", "part.thickness=2 mm", "-o", "mine.settings", "-q").code in (0, 1)
    facts = json.loads(program("check", "mine.settings", "--as", "json").out)["facts"]
    assert facts["part.thickness"]["said"] == "2 mm"
    assert facts["machine.drive"]["said"] == "direct"
    assert "facts and answers are as the ledger beside it says" in program("check", "mine.settings", "--full").out
    (heron / "thick.toml").write_text('format = 1\n[part]\nthickness = "3 mm"\n', encoding="utf-8")
    facts = json.loads(program("check", "mine.settings", "--facts", "thick.toml", "--as", "json").out)["facts"]
    assert facts["part.thickness"]["said"] == "3 mm"
    assert facts["machine.drive"]["said"] == "direct"


def test_a_damaged_ledger_gives_no_facts(heron: Path, program: Program) -> None:
    (heron / "soft.settings.ledger.json").write_text("{}", encoding="utf-8")
    assert json.loads(program("check", "soft.settings", "--keymap", "keymap.toml", "--as", "json").out)["facts"] == {}


SPEED = "outer_wall.speed"


def edit(heron: Path) -> None:
    """A hand writes another speed of the outer wall into the demo's derived text: 4620 mm/min are 77 mm/s."""
    text = heron / "soft.settings"
    raw, many = re.subn(rb"(\[rim\][^\[]*?\nfeed\s*=\s*)[\d.]+", rb"\g<1>4620", text.read_bytes())
    assert many == 1
    text.write_bytes(raw)


def test_check_says_that_a_derived_text_was_edited(heron: Path, program: Program) -> None:
    assert "Edited since" not in program("check", "soft.settings").out
    edit(heron)
    told = " ".join(program("check", "soft.settings").out.split())
    assert re.search(rf"Edited since it was derived: {SPEED} \S+ mm/s → 77 mm/s", told)
    assert told.index("Look first") < told.index("Edited since") < told.index("Consequences")


def test_a_ledger_that_was_copied_tells_nothing_of_the_copy(heron: Path, program: Program) -> None:
    for end in ("", ".ledger.json"):
        shutil.copy(heron / f"soft.settings{end}", heron / f"copy.settings{end}")
    edit(heron)
    assert "Edited since" not in program("check", "copy.settings").out


def test_explain_of_a_derived_text_tells_what_its_ledger_knows(heron: Path, program: Program) -> None:
    told = program("explain", SPEED, "soft.settings")
    assert told.code == 0
    assert "flexible-pla" in told.out
    assert "in the text that was derived from: " in told.out
    assert "edited by hand" not in told.out
    edit(heron)
    told = program("explain", SPEED, "soft.settings")
    assert f"edited by hand since: {SPEED}" in told.out


def test_explain_with_a_recipe_takes_the_map_that_the_ledger_knows(program: Program) -> None:
    told = program("explain", SPEED, "soft.settings", "--recipe", "flexible-pla")
    named = program("explain", SPEED, "soft.settings", "--recipe", "flexible-pla", "--keymap", "keymap.toml")
    assert (told.code, told.out) == (named.code, named.out)
    assert program("explain", SPEED, "base.settings").codes == ("no-keymap",)


def test_check_judges_what_the_review_does_and_says_what_it_cannot_judge_alone(program: Program) -> None:
    alone, review = (
        {item["check"] for item in json.loads(program(*call, "--as", "json").out)["findings"]}
        for call in (("check", "soft.settings"), ("review", "soft.settings"))
    )
    assert review - alone == {"print-time", "mass", "stiffness"}
    assert not alone - review
    assert "against another one (time, plastic, stiffness)" in " ".join(program("check", "soft.settings").out.split())
