"""Runs the folders of real files under ``cases/``. To add a test, add a folder; ``cases/README.md`` says what is in it.

Outside checks: the ledger against a JSON Schema (draft 2020-12) with jsonschema; its patch (RFC 6902) applied with
jsonpatch, which shares no code with us.
"""

from __future__ import annotations

import hashlib
import json
import re
import tomllib
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import jsonpatch
import jsonschema
import pytest

from profilesmith.foundation.quantity import show_quantity
from profilesmith.ledger.file import ledger_schema
from profilesmith.text.document import Edit, line_ends
from profilesmith.text.edit_document import edit_document
from profilesmith.text.read_document import read_document
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Unreadable, Value, read_value
from profilesmith.workflows.read import read
from profilesmith.workflows.request import Request

CASES = Path(__file__).parent / "cases"
SCHEMA = ledger_schema()
LINE = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+\Z")
Program = Callable[..., Any]


def folders(kind: str) -> list[Any]:
    """One parameter for each case; ``xfail`` in its file names a fault that is known and not yet mended."""
    found = []
    for folder in sorted((CASES / kind).iterdir()):
        told = toml(folder / ("case.toml" if kind == "derive" else "expect.toml"))
        marks = [pytest.mark.xfail(strict=True, reason=told["xfail"])] if "xfail" in told else []
        found.append(pytest.param(folder, id=folder.name, marks=marks))
    return found


def toml(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("folder", folders("round_trip"))
def test_round_trip(folder: Path, laid_out: Callable[[Path], Path], program: Program) -> None:
    expect = toml(folder / "expect.toml")
    path = next(path for path in folder.iterdir() if path.stem == "text")
    raw = path.read_bytes()
    document = read_document(raw, path.name)
    assert edit_document(document, []) == raw
    assert str(document.codec) == expect["encoding"]
    assert document.newline == expect.get("newline", "\n")
    assert [[item.line, item.section, item.key, document.value(item)] for item in document.assignments] == expect[
        "entries"
    ]
    assert [item.line for item in document.unread] == expect.get("unread", [])
    assert [item.name for item in document.headings] == expect.get("headings", [])
    for item in document.assignments:
        # A written value replaces its own bytes and no other.
        encode, mark = document.codec.encode, len(document.codec.bom)
        before, new, after = (
            encode(document.text[: item.start]),
            encode("7")[mark:],
            encode(document.text[item.end :])[mark:],
        )
        assert edit_document(document, [Edit(item.start, item.end, "7")]) == before + new + after
    short = [item.key for item in document.assignments if not line_ends(document.first_line(item))]
    if short:
        here = laid_out(folder)
        key = json.dumps(short[0])
        binding = f'[[binding]]\nsetting = "support.pattern"\nkey = {key}\n'
        (here / "map.toml").write_text(f'format = 1\n[text]\nduplicates = "last"\n{binding}', encoding="utf-8")
        (here / "idle.toml").write_text(IDLE, encoding="utf-8")
        ran = program("derive", path.name, "--keymap", "map.toml", "--recipe", "idle.toml", "-o", "out.cfg")
        assert ran.code == 0, ran.err
        assert (here / "out.cfg").read_bytes() == raw, "no rule that moves anything, no change"


# Met by any text, so that it moves nothing.
IDLE = """format = 1
[recipe]
name = "idle"
version = "1.0.0"
[[rule]]
setting = "outer_wall.speed"
raise_to = "1 mm/s"
why = "met by any text"
"""


def bases_of(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir() if path.stem.startswith("base"))


def call(folder: Path, case: dict[str, Any], bases: list[str], out: str) -> list[str]:
    """The words of the command line that a derive case stands for."""
    words = ["derive", *bases, "--keymap", "map.toml", "-o", out, "--full"]
    words += [word for name in case["recipes"] for word in ("--recipe", name)]
    words += [word for path in sorted(folder.glob("facts*.toml")) for word in ("--facts", path.name)]
    words += [word for name, text in case.get("answers", {}).items() for word in ("--answer", f"{name}={text}")]
    return words + case.get("options", [])


@pytest.mark.parametrize("folder", folders("derive"))
def test_derive(folder: Path, laid_out: Callable[[Path], Path], program: Program) -> None:
    case = toml(folder / "case.toml")
    here = laid_out(folder)
    bases = bases_of(here)
    before = {path.name: path.read_bytes() for path in here.iterdir()}
    several = len(bases) > 1
    ran = program(*call(here, case, bases, "out" if several else "out.cfg"))
    assert ran.code == case.get("exit", 0), ran.err
    for word in case.get("says", ()):
        assert word in ran.out + ran.err
    assert {name: (here / name).read_bytes() for name in before} == before
    if ran.code:
        assert {path.name for path in here.iterdir()} == before.keys(), "nothing is written"
        return
    outs = [f"out/{name}" for name in bases] if several else ["out.cfg"]
    ledger = json.loads(Path(outs[0] + ".ledger.json").read_text(encoding="utf-8"))
    check_values(case, bases, outs, ledger)
    check_texts(case, bases, outs, ledger)
    check_ledger(bases, outs, ledger)
    check_derived_again(bases, outs, ledger, program)
    if not any(use["once"] for use in ledger["recipes"]):
        again = program(*call(here, case, outs, "again" if several else "again.cfg"))
        assert again.code == 0, again.err
        second = [f"again/{name}" for name in bases] if several else ["again.cfg"]
        assert [Path(name).read_bytes() for name in second] == [Path(name).read_bytes() for name in outs]


def check_derived_again(bases: list[str], outs: list[str], ledger: dict[str, Any], program: Program) -> None:
    """What was just written is relied on, is current, and re-deriving it onto its base writes it once more."""
    raw = [Path(name).read_bytes() for name in outs]
    checked = program("rederive", "--check", outs[0])
    assert checked.code == 0, checked.out + checked.err
    ran = program("rederive", *outs, *(word for name in bases for word in ("--onto", name)), "--in-place")
    assert ran.code == 0, ran.err
    assert [Path(name).read_bytes() for name in outs] == raw
    again = json.loads(Path(outs[0] + ".ledger.json").read_text(encoding="utf-8"))
    assert {name: part for name, part in again.items() if name != "history"} == ledger


def values(bases: list[str]) -> dict[str, tuple[Value, ...]]:
    return {
        name: entry.values
        for name, entry in read(Request(bases=tuple(bases), key_map="map.toml")).profile.entries.items()
    }


def wanted(name: str, text: str | list[str]) -> tuple[Value, ...]:
    """The values that a case states: one, or a list with one for each tool."""
    found = [read_value(load_vocabulary().settings[name], item) for item in ([text] if isinstance(text, str) else text)]
    assert not any(isinstance(value, Unreadable) for value in found), found
    return tuple(value for value in found if not isinstance(value, Unreadable))


def check_values(case: dict[str, Any], bases: list[str], outs: list[str], ledger: dict[str, Any]) -> None:
    """The written files, read again from the disk, hold what the case expects."""
    old, new = values(bases), values(outs)
    for name, text in case["expect"].items():
        assert new[name] == wanted(name, text), name
    for name in case.get("untouched", ()):
        assert new[name] == old[name], name
    for name, status in case.get("status", {}).items():
        statuses = {row["status"] for row in ledger["rows"] if row["setting"] == name}
        assert status in statuses, (name, statuses)
    changed = {name for name in new if new[name] != old.get(name)}
    named = {row["setting"] for row in ledger["rows"] if row["status"] in ("changed", "added", "follows")}
    assert changed <= named, "every change has a row"


def check_texts(case: dict[str, Any], bases: list[str], outs: list[str], ledger: dict[str, Any]) -> None:
    """Line by line: what differs is a value that a row names, and within its line nothing else differs."""
    moved = [row for row in ledger["rows"] if row["status"] in ("changed", "added", "follows")]
    found_lines: list[str] = []
    for base, out in zip(bases, outs, strict=True):
        old, new = (read_document(Path(name).read_bytes(), name) for name in (base, out))
        assert new.codec == old.codec
        mine = [row for row in moved if row["file"] == base]
        text = new.text
        for row in (row for row in mine if row["status"] == "added"):
            place = re.search(rf"(?:\r\n|\r|\n)[ \t]*{re.escape(row['key'])}\W+{re.escape(row['new_text'])}", text)
            assert place, row
            text = text[: place.start()] + text[place.end() :]
        check_lines(old.text, text, mine)
        found_lines += [line.rstrip("\r\n") for line in LINE.findall(new.text)]
    for line in case.get("lines", ()):
        assert line in found_lines


def check_lines(old: str, new: str, rows: list[dict[str, Any]]) -> None:
    before, after = LINE.findall(old), LINE.findall(new)
    assert len(before) == len(after)
    by_line: dict[int, list[dict[str, Any]]] = {}
    for row in rows:
        if row["old_text"] != row["new_text"] and row["status"] != "added":
            by_line.setdefault(row["line"], []).append(row)
    differing = {number for number, pair in enumerate(zip(before, after, strict=True), 1) if pair[0] != pair[1]}
    assert differing == by_line.keys(), "exactly the lines that rows name differ"
    for number, found in by_line.items():
        one, other, old, new = before[number - 1], after[number - 1], found[0]["old_text"], found[0]["new_text"]
        places = [at.span() for at in re.finditer(re.escape(old), one)]
        if any(row["cause"]["kind"] == "start block" for row in found):  # numbers of machine commands in a start block
            assert re.sub(r"\d+", "#", one) == re.sub(r"\d+", "#", other)
        elif {(row["old_text"], row["new_text"]) for row in found} == {(old, new)}:
            assert other in {one[:start] + new + one[end:] for start, end in places}
        else:  # several settings in one value
            assert any(other.startswith(one[:start]) and other.endswith(one[end:]) for start, end in places)


def check_ledger(bases: list[str], outs: list[str], ledger: dict[str, Any]) -> None:
    jsonschema.validate(ledger, SCHEMA, cls=jsonschema.Draft202012Validator)
    assert jsonpatch.apply_patch(ledger["base"], ledger["patch"]) == ledger["derived"]
    for listed, names in (("files", bases), ("outputs", outs)):
        sums = [hashlib.sha256(Path(name).read_bytes()).hexdigest() for name in names]
        assert [item["sha256"] for item in ledger[listed]] == sums


def make(here: Path, what: dict[str, Any]) -> None:
    """What a folder of case files cannot hold: folders in the place of files, links to nothing, very long files."""
    for name in what.get("folders", ()):
        (here / name).mkdir()
    for name, target in what.get("links", {}).items():
        (here / name).symlink_to(target)
    for name, (head, piece, times, tail) in what.get("long", {}).items():
        (here / name).write_text(head + piece * times + tail, encoding="utf-8")


def state(here: Path) -> dict[str, bytes | bool]:
    return {
        str(path.relative_to(here)): path.read_bytes() if path.is_file() else path.is_dir() for path in here.rglob("*")
    }


@pytest.mark.parametrize("folder", folders("refuse"))
def test_refuse(folder: Path, laid_out: Callable[[Path], Path], program: Program) -> None:
    expect = toml(folder / "expect.toml")
    here = laid_out(folder)
    make(here, expect.get("make", {}))
    command = expect.get("command", default_command(here))
    if command[:1] == ["derive"] and "--recipe" not in command:  # without one nothing else would be looked at
        (here / "idle.toml").write_text(IDLE, encoding="utf-8")
        command = [*command, "--recipe", "idle.toml"]
    before = state(here)
    ran = program(*command)
    assert (ran.code, list(ran.codes)) == (expect["exit"], expect["codes"]), ran.err
    told = ran.err + ran.out  # a conflict stands in the review
    for word in expect["says"]:
        assert word in " ".join(told.split())
    for word in expect.get("never_says", ()):
        assert word not in told
    for problem in ran.problems:
        assert problem.message.endswith((".", "?")), problem
        assert problem.hint.endswith((".", "?")), problem
    assert state(here) == before, "nothing is written, nothing is lost"


def default_command(here: Path) -> list[str]:
    words = ["derive", *(bases_of(here) or ["base.cfg"]), "--keymap", "map.toml", "-o", "out.cfg"]
    words += [word for path in sorted(here.glob("recipe*.toml")) for word in ("--recipe", path.name)]
    return words + [word for path in sorted(here.glob("facts*.toml")) for word in ("--facts", path.name)]


@pytest.mark.parametrize("folder", folders("check_map"))
def test_check_map(folder: Path, laid_out: Callable[[Path], Path], program: Program) -> None:
    expect = toml(folder / "expect.toml")
    here = laid_out(folder)
    ran = program("keymap", "check", "map.toml", *bases_of(here))
    assert ran.code == expect["exit"], ran.err
    assert [word for word in expect["says"] if word not in ran.out] == []
    report = json.loads(program("keymap", "check", "map.toml", *bases_of(here), "--as", "json").out)
    settings = load_vocabulary().settings
    shown = {
        item["setting"]: f"{item['line']} {show(settings[item['setting']].kind, item['value'])}"
        for item in report["read"]
    }
    assert shown == expect["read"]


def show(kind: str, value: Any) -> str:
    if isinstance(value, list):
        return " | ".join(show(kind, item) for item in value)
    if isinstance(value, bool):
        return "on" if value else "off"
    return value if isinstance(value, str) else show_quantity(Fraction(str(value)), kind)
