"""Strangers' files beyond what a folder of cases can hold: many mistakes, links and devices in a library, no
network.
"""

from __future__ import annotations

import difflib
import json
import os
import socket
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.foundation.problem import MOST_CHOICES, nearest
from profilesmith.foundation.toml_lines import index_lines
from profilesmith.foundation.toml_mistakes import MOST_PARTS, most_parts
from profilesmith.foundation.toml_table import MOST_MISTAKES
from profilesmith.library.find import find, names
from profilesmith.library.library import load_library
from tests.faults.kills import KEY_MAP, RECIPE

Program = Callable[..., Any]
Reader = Callable[..., Any]


def test_mistakes_are_told_up_to_a_number(read_recipe: Reader, read_map: Reader) -> None:
    keys = "".join(f"odd{number} = 1\n" for number in range(10_000))
    for found, problems in (read_recipe(keys), read_map(keys)):
        assert found is None
        assert len(problems) == MOST_MISTAKES + 1
        assert problems[-1].code == "too-many-mistakes"


def test_a_word_is_compared_with_a_bounded_number_of_others(monkeypatch: pytest.MonkeyPatch) -> None:
    compared: list[int] = []

    def counted(word: str, choices: dict[str, str], **given: object) -> list[str]:
        compared.append(len(choices))
        return difflib_matches(word, choices, **given)  # type: ignore[arg-type]

    difflib_matches = difflib.get_close_matches
    monkeypatch.setattr(difflib, "get_close_matches", counted)
    known = [f"key_{number}" for number in range(50_000)]
    assert nearest("kez_7", known) == "key_7"
    assert nearest("other", known) == ""
    assert compared[0] <= MOST_CHOICES
    assert compared[1] == 0


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("a" + ".a" * 60 + " = 1", 60),
        ("[a . \"b\" . 'c'" + " .d" * 60 + "]", 62),
        ("x = '" + "." * 500 + "'", 0),
        ('x = "' + "a. " * 50 + '"', 0),
        ("x = 1.5\n" * 500, 0),
        ('"' + "a." * 100 + '" = 1', 0),
    ],
)
def test_parts_of_a_key_are_counted(text: str, parts: int) -> None:
    assert most_parts(text) == parts


def test_an_ordinary_file_has_few_parts() -> None:
    folder = Path(__file__).parents[2] / "recipes"
    assert all(most_parts(path.read_text(encoding="utf-8")) < MOST_PARTS / 4 for path in folder.rglob("*.toml"))


@pytest.mark.parametrize(
    ("text", "paths"),
    [
        ('[a]\nx = 1\n[ "b.c" . d ] # [e]\ny = 2\n', {("a",): 1, ("a", "x"): 2, ("b.c", "d"): 3, ("b.c", "d", "y"): 4}),
        (
            "[[a]]\n[[ a ]]\n[a.b]\nx = [\n[1],\n]\n",
            {("a", 0): 1, ("a", 1): 2, ("a", 1, "b"): 3, ("a", 1, "b", "x"): 4},
        ),
        ('  [\t"]"  ]\n', {("]",): 1}),
        ("['#']\r\nx = 1\r\n", {("#",): 1, ("#", "x"): 2}),
    ],
)
def test_headers_are_found(text: str, paths: dict[Any, int]) -> None:
    assert index_lines(text) == paths


@pytest.fixture
def club(tmp_path: Path) -> Path:
    """A library with one recipe of its own, a link to a neighbour inside, a link out, a pipe, and a folder of links."""
    folder, private = tmp_path / "club", tmp_path / "private"
    for made in (folder / "recipes", folder / "keymaps", private):
        made.mkdir(parents=True)
    (private / "secret.toml").write_text("format = 1\n", encoding="utf-8")
    (folder / "recipes" / "own.toml").write_text(RECIPE.format(40), encoding="utf-8")
    (folder / "recipes" / "same.toml").symlink_to("own.toml")
    (folder / "recipes" / "out.toml").symlink_to(private / "secret.toml")
    os.mkfifo(folder / "recipes" / "pipe.toml")
    (folder / "facts").symlink_to(private)
    return folder


def test_a_library_leads_nowhere_else(club: Path) -> None:
    mine = {name for name, path in names("recipe", club) if path.is_relative_to(club)}
    assert mine == {"own", "same"}
    assert "secret" not in dict(names("facts", club))
    for name, kind in (("out", "recipe"), ("pipe", "recipe"), ("secret", "facts")):
        path, problem = find(name, kind, club)
        assert path is None
        assert problem is not None
        assert problem.code == "outside"
    assert find("own", "recipe", club)[0] == club / "recipes" / "own.toml"


@pytest.mark.parametrize("text", ["../private/secret.toml", "/etc/hostname", "facts/secret.toml", "recipes/out.toml"])
def test_nor_do_its_profiles(text: str, club: Path) -> None:
    (club / "library.toml").write_text(
        (
            'format = 1\n[library]\nname = "x"\nlicence = "CC0-1.0"\n[[profile]]\nname = "p"\n'
            f'text = "{text}"\nkeymap = "m"\n'
        ),
        encoding="utf-8",
    )
    library, problems = load_library(club)
    assert library is None
    assert "outside" in [problem.code for problem in problems]


def test_nothing_asks_the_network(program: Program, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    asked: list[object] = []

    def refuse(*given: object, **named: object) -> object:
        asked.append(given)
        raise OSError("no network here")

    for name in ("create_connection", "getaddrinfo", "gethostbyname"):
        monkeypatch.setattr(socket, name, refuse)
    monkeypatch.setattr(socket.socket, "__init__", refuse)
    Path("base.cfg").write_text(
        "rim = 80\nlayer_height = 0.2\nprint_speed = 60\nhttp://example.invalid = 1\n", encoding="utf-8"
    )
    Path("map.toml").write_text(KEY_MAP, encoding="utf-8")
    Path("r.toml").write_text(
        RECIPE.format(40).replace('why = "test"', 'why = "see https://example.invalid/x"'), encoding="utf-8"
    )
    words = ["base.cfg", "--keymap", "map.toml", "--recipe", "r.toml"]
    calls = [
        ["derive", *words, "-o", "out.cfg", "--report", "r.html"],
        *(["derive", *words, "--as", form] for form in ("markdown", "page", "json", "checklist")),
        ["review", "out.cfg"],
        ["explain", "outer_wall.speed", *words],
        ["compare", "base.cfg", "out.cfg", "--keymap", "map.toml"],
        ["check", "base.cfg", "--keymap", "map.toml"],
        ["demo", "there"],
        ["keymap", "suggest", "there/base.settings"],
        ["keymap", "check", "map.toml", "base.cfg"],
        ["recipe", "show", "r.toml"],
        ["recipe", "check", "r.toml"],
        ["recipe", "list"],
        ["vocabulary", "speed"],
        ["materials"],
    ]
    told = [(call, ran.code, ran.err[:300]) for call in calls for ran in [program(*call)]]
    assert asked == []
    assert [item for item in told if item[1] not in (0, 1)] == []


@pytest.mark.parametrize("map_file", ["/dev/zero", "../pipe", "none", "\x00", "/etc/hostname"])
def test_the_map_that_a_ledger_names(
    map_file: str, program: Program, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An edited file is told as edited, whatever map its ledger names; no pipe is waited for, nothing of it is
    shown.
    """
    here = tmp_path / "here"
    here.mkdir()
    monkeypatch.chdir(here)
    os.mkfifo(tmp_path / "pipe")
    Path("base.cfg").write_text("rim = 80\n", encoding="utf-8")
    Path("map.toml").write_text(KEY_MAP, encoding="utf-8")
    Path("r.toml").write_text(RECIPE.format(40), encoding="utf-8")
    assert program("derive", "base.cfg", "--keymap", "map.toml", "--recipe", "r.toml", "-o", "out.cfg").code == 0
    ledger = json.loads(Path("out.cfg.ledger.json").read_text(encoding="utf-8"))
    Path("out.cfg.ledger.json").write_text(json.dumps({**ledger, "key_map_file": map_file}), encoding="utf-8")
    Path("out.cfg").write_text("rim = 41\n", encoding="utf-8")
    ran = program("review", "out.cfg", "--exit-code")
    assert ran.code == 1
    assert "edited since: out.cfg; where is not known, as its key map cannot be read" in ran.err
