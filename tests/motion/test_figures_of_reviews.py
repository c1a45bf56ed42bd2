"""A motion file's speed and flow over the layers stand on the page of check, derive and review, as on its own page."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]
TITLES = ("Fastest laying speed of each layer", "Largest flow of each layer")
DERIVE = ("derive", "base.settings", "--keymap", "keymap.toml", "--recipe", "flexible-pla", "--dry-run")


@pytest.fixture(autouse=True)
def heron(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, program: Program) -> None:
    monkeypatch.chdir(tmp_path)
    assert program("demo", "heron", "-q").code == 0
    monkeypatch.chdir(tmp_path / "heron")


@pytest.mark.parametrize(
    ("call", "motion"),
    [(("check", "soft.settings"), "soft"), (DERIVE, "rigid"), (("review", "soft.settings"), "soft")],
    ids=lambda words: words[0],
)
def test_speed_and_flow_are_drawn(call: tuple[str, ...], motion: str, program: Program) -> None:
    plain = program(*call, "--as", "html").out
    told = program(*call, "--motion", f"{motion}.motion", "--words", "words.toml", "--as", "html").out
    for title in TITLES:
        assert title not in plain
        assert title in told
