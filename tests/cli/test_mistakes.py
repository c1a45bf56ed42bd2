"""Mistakes that people make, each with the words that name it and the fix; where the fix is a call, it is pasted and
works.
"""

from __future__ import annotations

import re
import shlex
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest

Program = Callable[..., Any]
HEAD = 'format = 1\n[recipe]\nname = "x"\nversion = "1.0.0"\n'
FILES = {
    "noquote.toml": "format = 1\n[keymap]\nname = mine\n",
    "open.toml": 'format = 1\n[keymap]\nname = "mine\n',
    "misspelled.toml": HEAD + '[[rule]]\nsetting = "support.density"\nrais_to = "30 %"\nwhy = "x"\n',
    "thin.toml": HEAD.replace('"x"', '"thin"') + '[[rule]]\nsetting = "support.density"\ncap = "10 %"\nwhy = "x"\n',
    "picture.settings": "\x89PNG",
}


class Mistake(NamedTuple):
    """says: words that must come, in order of their lines. never: words that only confuse."""

    call: str
    says: tuple[str, ...]
    never: tuple[str, ...] = ()


DERIVE = "derive base.settings --keymap keymap.toml --recipe flexible-pla"
MISTAKES = {
    "text-without-quotes": Mistake(
        "keymap check noquote.toml base.settings", ("noquote.toml:3", "'name = mine'", 'name = "mine"')
    ),
    "open-quote": Mistake("keymap check open.toml base.settings", ("open.toml:3", "close it")),
    "misspelled-operation": Mistake(
        "recipe check misspelled.toml",
        ("misspelled.toml:7", "'rais_to' is not an operation", "'raise_to'"),
        ("no operation",),
    ),
    "recipe-given-as-map": Mistake(
        "derive base.settings --keymap thin.toml --recipe thin.toml",
        ("thin.toml: This is a recipe, not a key map", "--recipe"),
        ("binding",),
    ),
    "map-given-as-recipe": Mistake(
        "derive base.settings --keymap keymap.toml --recipe keymap.toml",
        ("keymap.toml: This is a key map, not a recipe", "--keymap"),
        ("'version' is missing",),
    ),
    "facts-given-as-recipe": Mistake(
        "derive base.settings --keymap keymap.toml --recipe spool.toml", ("This is a facts file", "--facts")
    ),
    "settings-given-as-map": Mistake(
        "derive base.settings --keymap base.settings --recipe flexible-pla",
        ("base.settings:", "not a key map", "format = 1"),
    ),
    "a-picture": Mistake("derive picture.settings --keymap keymap.toml --recipe flexible-pla", ("a picture (PNG)",)),
    "no-such-outcome": Mistake(
        "evidence add flexible-pla --outcome good", ("'good'", "worked, partly, failed"), ("needs a library",)
    ),
    "no-such-grade": Mistake(
        "evidence add flexible-pla --outcome worked --stringing bad", ("--stringing", "'bad'", "good, fair, poor")
    ),
    "no-map": Mistake("derive base.settings --recipe flexible-pla", ("No key map is named", "keymap suggest")),
    "no-map-to-explain": Mistake("explain support.density base.settings", ("No key map is named", "keymap suggest")),
    "misspelled-file": Mistake(
        "derive base.setings --keymap keymap.toml --recipe flexible-pla", ("base.setings", "'base.settings'")
    ),
    "misspelled-folder": Mistake(
        "derive nowhere/base.settings --keymap keymap.toml --recipe flexible-pla", ("'nowhere' is not there",)
    ),
    "misspelled-map": Mistake(
        "derive base.settings --keymap keymp.toml --recipe flexible-pla", ("keymp.toml", "'keymap.toml'")
    ),
    "misspelled-recipe": Mistake(
        "derive base.settings --keymap keymap.toml --recipe flexible-pl", ("'flexible-pl'", "'flexible-pla'")
    ),
    "misspelled-facts": Mistake(f"{DERIVE} --facts machin.toml", ("machin.toml", "'machine.toml'")),
    "misspelled-setting": Mistake(
        "explain support.densty base.settings --keymap keymap.toml", ("'support.densty'", "'support.density'")
    ),
    "an-answer-without-a-name": Mistake(f"{DERIVE} --answer foo", ("'foo' is not an answer", "NAME=VALUE")),
    "an-answer-that-is-no-choice": Mistake(f"{DERIVE} --answer machine.drive=maybe", ("'maybe'", "direct, remote")),
    "an-output-that-is-there": Mistake(f"{DERIVE} -o soft.settings", ("soft.settings", "--overwrite")),
    "review-of-what-nobody-derived": Mistake("review base.settings", ("no ledger", "derive")),
    "misspelled-form": Mistake(f"{DERIVE} --as htm", ("'htm'", "'html'")),
    "misspelled-page": Mistake("guide recipee", ("'recipee'", "'recipe'")),
    "misspelled-schema": Mistake("schema keymaps", ("'keymaps'", "'keymap'")),
}


@pytest.fixture(autouse=True)
def heron(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, program: Program) -> Path:
    monkeypatch.chdir(tmp_path)
    assert program("demo", "heron", "-q").code == 0
    folder = tmp_path / "heron"
    for name, text in FILES.items():
        (folder / name).write_bytes(text.encode("latin-1"))
    monkeypatch.chdir(folder)
    return folder


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_is_named_with_its_fix(name: str, program: Program) -> None:
    mistake = MISTAKES[name]
    ran = program(*shlex.split(mistake.call))
    assert ran.code == 2
    told = ran.err + ran.out
    for words in mistake.says:
        assert words in told
    for words in mistake.never:
        assert words not in told


def test_the_call_that_proposes_a_map_works_as_printed(heron: Path, program: Program) -> None:
    told = program("derive", "base.settings", "--recipe", "flexible-pla").err
    (call,) = re.findall(r"'(profilesmith [^']*)' proposes one", told)
    assert program(*shlex.split(call)[1:]).code == 0
    assert (heron / "my-bench.toml").is_file()


def test_map_and_text_may_stand_in_either_order(program: Program) -> None:
    right = program("keymap", "check", "keymap.toml", "base.settings")
    turned = program("keymap", "check", "base.settings", "keymap.toml")
    assert (turned.code, turned.out) == (right.code, right.out)
    assert right.out
