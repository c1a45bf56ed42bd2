"""Files as seen from a ledger's folder: looked up once a folder, and the same as each by itself."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from profilesmith.foundation.read_file import seen_from
from profilesmith.workflows.request import View

NAMES = [
    "a.cfg",
    "./a.cfg",
    "sub/a.cfg",
    "sub/../b.cfg",
    "../a.cfg",
    "..",
    ".",
    "sub/",
    "sub/..",
    "/a.cfg",
    "/sub/b.cfg",
]


@pytest.mark.parametrize("folder", [".", "sub", "sub/deep", "..", "/", "/elsewhere"])
def test_each_file_is_seen_as_by_itself(folder: str) -> None:
    view = View(Path(folder))
    assert [view.path(name) for name in NAMES * 2] == [seen_from(name, folder) for name in NAMES] * 2


def test_a_file_can_be_told_from_a_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("plain").write_text("", encoding="utf-8")
    view = View(Path())
    assert (view.file("soft"), view.file("a.cfg"), view.file("sub/soft")) == ("./soft", "a.cfg", "sub/soft")
    assert (view.word("soft"), view.word("plain"), view.word("a.toml")) == ("soft", "./plain", "a.toml")
    assert View(Path("sub")).file("plain") == os.path.join("..", "plain").replace(os.sep, "/")
