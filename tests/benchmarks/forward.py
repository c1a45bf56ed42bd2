"""``python -m tests.benchmarks.forward [COUNT]``: derived profiles with hand edits in a quarter of them, brought
forward in place.

Seeded texts of 150 keys from the batch benchmark, one recipe; then one line of every base changes. What is looked at:
every edit still stands, the review fits one screen of 24 lines, and the clock's and the cores' time of the whole
command.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.benchmarks.batch import lay_out

SCREEN = 24


def program(folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "profilesmith", *words], cwd=folder, text=True, capture_output=True, check=False
    )


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text, (path, old)
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def main(count: int) -> int:
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        lay_out(folder, count, "alike")
        ran = program(folder, "batch", "order.toml", "-q")
        assert ran.returncode == 0, ran.stderr
        derived = sorted((folder / "out").glob("*.settings"))
        edited = derived[:: count // (count // 4) or 1]
        for path in edited:
            change(path, "lid_lamp = 60", "lid_lamp = 45")
        for path in (folder / "bases").glob("*/*"):
            change(path, "knit = 18", "knit = 22")
        start, before = time.perf_counter(), os.times()
        ran = program(folder, "rederive", "out", "--in-place")
        clock, after = time.perf_counter() - start, os.times()
        computing = after.children_user - before.children_user + after.children_system - before.children_system
        lost = sum("lid_lamp = 45" not in path.read_text(encoding="utf-8") for path in edited)
        behind = program(folder, "rederive", "out", "--check").returncode
        lines = ran.stdout.count("\n")
        print(ran.stdout)
        print(
            f"{count} files, {len(edited)} edited: {clock:.2f} s, computing {computing:.2f} s, {lines} "
            f"lines, {lost} lost"
        )
        print(f"exit {ran.returncode}; --check afterwards: {behind}")
        return int(bool(lost or ran.returncode or behind or lines > SCREEN))


if __name__ == "__main__":
    raise SystemExit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 40))
