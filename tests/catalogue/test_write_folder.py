"""A folder of pages is whole or absent, and only a catalogue is ever replaced."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from profilesmith.catalogue import write_folder as module
from profilesmith.catalogue.write_folder import LISTED, write_folder

PAGES = {"index.html": "one", "slow.html": "two\u202e"}
WRITER = """
import sys
from pathlib import Path
from profilesmith.catalogue.write_folder import write_folder
print("ready", flush=True)
for number in range(500):
    assert write_folder(Path(sys.argv[1]), {f"{page}.html": str(number) for page in range(20)}, True) == []
"""


def held(folder: Path) -> dict[str, str]:
    return {path.name: path.read_text(encoding="utf-8") for path in sorted(folder.iterdir())}


def test_a_new_folder_holds_the_pages_and_their_list(tmp_path: Path) -> None:
    target = tmp_path / "pages"
    assert write_folder(target, PAGES, overwrite=False) == []
    found = held(target)
    assert '"slow.html"' in found.pop(LISTED)
    assert found == PAGES
    assert [path.name for path in tmp_path.iterdir()] == ["pages"]
    assert target.stat().st_mode & 0o700 == 0o700


def test_an_existing_folder_stays_without_overwrite(tmp_path: Path) -> None:
    target = tmp_path / "pages"
    write_folder(target, PAGES, overwrite=False)
    before = held(target)
    assert [problem.code for problem in write_folder(target, {"index.html": "new"}, overwrite=False)] == ["exists"]
    assert held(target) == before


def test_overwriting_replaces_all_pages(tmp_path: Path) -> None:
    target = tmp_path / "pages"
    write_folder(target, PAGES, overwrite=False)
    assert write_folder(target, {"index.html": "new"}, overwrite=True) == []
    assert set(held(target)) == {"index.html", LISTED}
    assert [path.name for path in tmp_path.iterdir()] == ["pages"]


@pytest.mark.parametrize("strange", ["thesis.txt", ".git", "sub"])
def test_a_folder_with_anything_else_is_never_replaced(tmp_path: Path, strange: str) -> None:
    target = tmp_path / "pages"
    write_folder(target, PAGES, overwrite=False)
    (target / strange).mkdir() if strange != "thesis.txt" else (target / strange).write_text("years of work")
    assert [problem.code for problem in write_folder(target, PAGES, overwrite=True)] == ["not-ours"]
    assert (target / strange).exists()


@pytest.mark.parametrize(
    "listed",
    [
        "",
        "[]",
        '{"kind": "other", "files": ["a.txt"]}',
        '{"kind": "profilesmith catalogue", "files": 7}',
        "[" * 100_000,
    ],
)
def test_a_list_that_is_none_protects_the_folder(tmp_path: Path, listed: str) -> None:
    (tmp_path / "pages").mkdir()
    (tmp_path / "pages" / "a.txt").write_text("mine")
    (tmp_path / "pages" / LISTED).write_text(listed)
    assert [problem.code for problem in write_folder(tmp_path / "pages", PAGES, overwrite=True)] == ["not-ours"]


def test_a_page_that_became_a_link_or_folder_protects_it_too(tmp_path: Path) -> None:
    target = tmp_path / "pages"
    write_folder(target, PAGES, overwrite=False)
    (target / "slow.html").unlink()
    (target / "slow.html").symlink_to(tmp_path)
    assert [problem.code for problem in write_folder(target, PAGES, overwrite=True)] == ["not-ours"]


def test_files_links_and_missing_parents_are_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    (tmp_path / "link").symlink_to(tmp_path / "nowhere")
    for name, code in (("file", "exists"), ("link", "exists"), ("none/pages", "no-folder")):
        assert [problem.code for problem in write_folder(tmp_path / name, PAGES, overwrite=True)] == [code]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["file", "link"]


def test_a_full_disk_leaves_the_old_pages(tmp_path: Path) -> None:
    target = tmp_path / "pages"
    write_folder(target, PAGES, overwrite=False)
    before = held(target)
    limit = (
        "import resource, signal; signal.signal(signal.SIGXFSZ, signal.SIG_IGN); "
        "resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))\n"
    )
    write = (
        "from profilesmith.catalogue.write_folder import write_folder\nfrom pathlib import Path\n"
        f'print(write_folder(Path({str(target)!r}), {{"a.html": "x", "b.html": "y" * 2000}}, True))'
    )
    run = subprocess.run([sys.executable, "-B", "-c", limit + write], capture_output=True, text=True, check=True)
    assert "cannot-write" in run.stdout
    assert held(target) == before
    assert [path.name for path in tmp_path.iterdir()] == ["pages"]


def test_a_move_that_fails_puts_the_old_pages_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "pages"
    write_folder(target, PAGES, overwrite=False)
    before, rename = held(target), Path.rename

    def failing(self: Path, other: Path) -> Path:
        if self.suffix == ".part":
            raise OSError(28, "No space left on device")
        return rename(self, other)

    monkeypatch.setattr(module.Path, "rename", failing)
    assert [problem.code for problem in write_folder(target, {"index.html": "new"}, overwrite=True)] == ["cannot-write"]
    assert held(target) == before


def test_killed_at_any_moment_the_pages_are_whole(tmp_path: Path) -> None:
    """The old folder, the new one, or for an instant none; never half of one."""
    target = tmp_path / "pages"
    chance = random.Random(3)
    write_folder(target, {f"{page}.html": "0" for page in range(20)}, overwrite=False)
    seen = 0
    for _ in range(10):
        writer = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(target)], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
        )
        assert writer.stdout is not None
        writer.stdout.readline()
        time.sleep(chance.uniform(0, 0.06))
        os.kill(writer.pid, signal.SIGKILL)
        writer.communicate(timeout=300)
        if target.exists():
            pages = held(target)
            assert LISTED in pages
            assert len(pages) == 21
            assert len({text for name, text in pages.items() if name != LISTED}) == 1
            seen += 1
    assert seen > 0
