"""DEVELOPERS.md names files that are there, and its derivation walks through the files that it says it does."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

from profilesmith.workflows.demo import run_demo

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
WALK = PAGE.partition("## One derivation")[2].partition("\nBack:")[0]
STEPS = re.split(r"(?m)^\d+\. ", WALK)[1:]
FILES = re.compile(r"`((?:[a-z_0-9]+/)*[a-z_0-9]+\.(?:py|toml|json|html))`")


def test_every_file_with_a_folder_is_there() -> None:
    """A bare name stands beside the file that was named before it."""
    named = {file for file in FILES.findall(PAGE) if "/" in file}
    places = (ROOT, ROOT / "profilesmith", ROOT / "profilesmith" / "review", ROOT / "profilesmith" / "browser")
    assert len(named) > 100
    assert [file for file in sorted(named) if not any((place / file).is_file() for place in places)] == []


def test_a_derivation_has_at_most_twelve_steps() -> None:
    assert 8 <= len(STEPS) <= 12
    assert all(FILES.search(step) for step in STEPS)


def test_a_derivation_walks_through_every_file_of_its_steps(
    program: Callable[..., Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    run_demo(str(tmp_path / "heron"))
    monkeypatch.chdir(tmp_path / "heron")
    walked: set[str] = set()

    def note(frame: FrameType, event: str, value: object) -> None:
        if event == "call":
            walked.add(frame.f_code.co_filename)

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        ran = program(
            *("derive", "base.settings", "--recipe", "flexible-pla", "--keymap", "keymap.toml"),
            *("--facts", "machine.toml", "--facts", "spool.toml", "-o", "again.settings"),
        )
    finally:
        sys.setprofile(before)
    assert ran.code == 0, ran.err
    # What is a table of data alone runs as it is loaded, which an earlier test may have done.
    named = {file for step in STEPS for file in FILES.findall(step)} - {"recipe/operations/table.py", "ledger/file.py"}
    assert len(named) >= 15
    assert [file for file in sorted(named) if str(ROOT / "profilesmith" / file) not in walked] == []
