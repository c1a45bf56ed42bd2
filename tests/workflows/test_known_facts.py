"""Comparing derived files: facts and answers come from their ledgers, and are told where they differ."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.workflows.demo import run_demo

Program = Callable[..., Any]
DERIVE = ("derive", "base.settings", "--keymap", "keymap.toml", "--recipe", "flexible-pla", "-q")


@pytest.fixture
def heron(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    run_demo(str(tmp_path / "heron"))
    monkeypatch.chdir(tmp_path / "heron")
    return tmp_path / "heron"


def test_two_derived_files_are_judged_with_what_their_ledgers_know(heron: Path, program: Program) -> None:
    assert program(*DERIVE, "--answer", "machine.drive=direct", "-o", "one.settings").code in (0, 1)
    assert program(*DERIVE, "--answer", "machine.drive=remote", "-o", "two.settings").code in (0, 1)
    ran = program("compare", "one.settings", "two.settings", "--full")
    assert ran.code == 0
    assert "1 fact from the ledger beside one.settings" in ran.out
    told = " ".join(ran.out.split())
    assert "machine.drive is direct and remote in these files: what follows is judged with the last." in told
    Path("desk.toml").write_text('format = 1\n[machine]\ndrive = "direct"\n')
    named = " ".join(program("compare", "one.settings", "two.settings", "--full", "--facts", "desk.toml").out.split())
    assert "is judged with the last" not in named


def test_a_base_beside_a_derived_file_is_judged_with_its_facts(heron: Path, program: Program) -> None:
    Path("bare.settings").write_bytes(Path("soft.settings").read_bytes())
    facts = [word for name in ("machine", "spool", "part") for word in ("--facts", f"{name}.toml")]
    named = program("compare", "base.settings", "bare.settings", "--keymap", "keymap.toml", "--as", "json", *facts)
    from_ledger = program("compare", "base.settings", "soft.settings", "--as", "json")
    without = program("compare", "base.settings", "bare.settings", "--keymap", "keymap.toml", "--as", "json")
    findings = [json.loads(ran.out)["findings"] for ran in (named, from_ledger, without)]
    assert findings[0] == findings[1] != findings[2]
