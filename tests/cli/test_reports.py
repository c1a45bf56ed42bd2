"""Several --report: each is written in the form that its name asks for, and none replaces another."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]
MAP = 'format = 1\n[keymap]\nname = "m"\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n'
RECIPE = (
    'format = 1\n[recipe]\nname = "slow"\nversion = "1.0.0"\n[[rule]]\n'
    'setting = ["outer_wall.speed", "infill.speed"]\ncap = "40 mm/s"\nwhy = "test"\n'
)
CALL = ["derive", "base.cfg", "--keymap", "map.toml", "--recipe", "slow.toml"]
HEADS = {"review.html": "<!doctype html>", "checklist.md": "# ", "review.json": "{", "review.txt": ""}
LEFT = "1 setting is left to you"


@pytest.fixture(autouse=True)
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("base.cfg").write_text("rim = 80\n")
    Path("map.toml").write_text(MAP)
    Path("slow.toml").write_text(RECIPE)
    Path("order.toml").write_text(
        'format = 1\n[order]\nname = "o"\nkeymap = "map.toml"\nrecipes = ["slow.toml"]\n[[job]]\n'
        'base = "base.cfg"\nout = "soft"\n'
    )


def reports(*names: str) -> list[str]:
    return [word for name in names for word in ("--report", name)]


def test_every_report_is_written_in_its_own_form(program: Program) -> None:
    ran = program(*CALL, *reports(*HEADS), "-o", "soft.cfg")
    assert ran.code == 0
    for name, head in HEADS.items():
        assert Path(name).read_text(encoding="utf-8").startswith(head)
        assert f"wrote {name}" in ran.err
    assert "- [ ] " in Path("checklist.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", ["review.html", "review.md", "review.txt"])
def test_a_report_names_the_file_that_was_written(program: Program, name: str) -> None:
    assert program(*CALL, *reports(name), "-o", "soft.cfg", "-q").code == 0
    assert "soft.cfg" in Path(name).read_text(encoding="utf-8")


def test_rederive_writes_several_too(program: Program) -> None:
    assert program(*CALL, "-o", "soft.cfg", "-q").code == 0
    assert program("rederive", "soft.cfg", "-o", "again.cfg", *reports("a.md", "b.html"), "-q").code == 0
    assert [Path(name).is_file() for name in ("again.cfg", "a.md", "b.html")] == [True] * 3


@pytest.mark.parametrize("names", [("a.md", "a.md"), ("a.md", "./a.md"), ("a.md", "soft.cfg.ledger.json")])
def test_two_outputs_of_one_name_are_refused(names: tuple[str, ...], program: Program) -> None:
    ran = program(*CALL, "-o", "soft.cfg", *reports(*names))
    assert (ran.code, ran.codes) == (2, ("same-output",))
    assert not Path("soft.cfg").exists()
    assert not Path("a.md").exists()


def test_each_unknown_ending_is_named(program: Program) -> None:
    ran = program(*CALL, *reports("a.md", "b.doc", "c.pdf"))
    assert (ran.code, ran.codes) == (2, ("form", "form"))
    assert not Path("a.md").exists()


def test_an_input_is_no_report(program: Program) -> None:
    Path("map.md").write_text(MAP)
    ran = program(
        "derive", "base.cfg", "--keymap", "map.md", "--recipe", "slow.toml", *reports("a.md", "map.md"), "--overwrite"
    )
    assert ran.codes == ("output-is-input",)
    assert Path("map.md").read_text() == MAP


def test_batch_writes_several_too(program: Program) -> None:
    assert program("batch", "order.toml", *reports("sum.md", "sum.json"), "-q").code == 0
    assert Path("soft/base.cfg").is_file()
    assert Path("sum.md").read_text(encoding="utf-8").startswith("# ")
    assert Path("sum.json").read_text(encoding="utf-8").startswith("{")


@pytest.mark.parametrize("names", [("a.md", "./a.md"), ("a.md", "b.csv")])
def test_batch_refuses_before_it_derives(names: tuple[str, ...], program: Program) -> None:
    assert program("batch", "order.toml", *reports(*names)).code == 2
    assert not Path("soft").exists()


def test_a_half_finished_file_is_said_to_be_so(program: Program) -> None:
    ran = program(*CALL, "-o", "a.cfg")
    assert ran.code == 0
    assert "1 to set by hand" in ran.out.splitlines()[2]
    assert "To set by hand (your text has no key for it)" in ran.out.splitlines()
    full = program(*CALL, "-o", "e.cfg", "--full")
    assert full.out.rstrip().endswith(f"{LEFT}: see 'To set by hand'")
    assert LEFT not in ran.err  # once is enough
    page = program(*CALL, "-o", "b.cfg", "--as", "page")
    assert page.err.rstrip().endswith(f"{LEFT}: see 'To set by hand'")
    assert program(*CALL, "-o", "d.cfg", "--as", "json").err.rstrip().endswith(LEFT)
    quiet = program(*CALL, "-o", "c.cfg", "-q")
    assert (quiet.code, quiet.out, quiet.err) == (0, "", "")


@pytest.mark.parametrize(("short", "long"), [("html", "page"), ("md", "markdown")])
def test_short_names_and_older_ones_mean_the_same(short: str, long: str, program: Program) -> None:
    shown = [program(*CALL, "--dry-run", "--as", name) for name in (short, long)]
    assert shown[0].out == shown[1].out != ""
    assert shown[0].code == 0


@pytest.mark.parametrize(
    ("call", "known"),
    [
        (["derive", "base.cfg", "--keymap", "map.toml"], "html, md"),
        (["evidence", "list"], "terminal or json"),
        (["library", "page", ".", "-o", "pages"], "html or md"),
        (["batch", "order.toml"], "terminal, html, md, json, checklist or sheet"),
    ],
)
def test_a_form_that_there_is_not_is_refused_with_those_there_are(
    call: list[str], known: str, program: Program
) -> None:
    ran = program(*call, "--as", "hologram")
    assert (ran.code, ran.codes) == (2, ("form",))
    assert known in ran.err


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("look", "look has no ending that names a form.\n  Such as look.html. Known endings: .html, "),
        ("look.pdf", "The ending '.pdf' of look.pdf names no form.\n  Such as look.html. Known endings: .html, "),
    ],
)
def test_a_name_that_asks_for_no_form_is_told_of_one_that_does(name: str, message: str, program: Program) -> None:
    ran = program(*CALL, "--report", name)
    assert ran.codes == ("form",)
    assert message in ran.err
