"""``python -m tests.benchmarks.remembered [300x30] [--jobs N]``: a library's check anew, with one changed recipe, with
one changed facts file.

Each line is a process of its own, as a commit's check is: the clock, what the cores worked, and whether its findings
are those of a check that remembers nothing. Every profile of the library has a machine of its own; the secret lies in a
folder of the run.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.benchmarks.library import make


def checked(folder: Path, jobs: str, *words: str) -> tuple[float, float, dict[str, object]]:
    """Seconds on the clock, seconds of cores, the report."""
    start, before = time.perf_counter(), os.times()
    call = [
        sys.executable,
        "-m",
        "profilesmith",
        "library",
        "check",
        str(folder),
        "--as",
        "json",
        "--jobs",
        jobs,
        *words,
    ]
    ran = subprocess.run(call, capture_output=True, text=True, check=False)
    after = os.times()
    assert ran.returncode in (0, 1), ran.stderr
    worked = after.children_user - before.children_user + after.children_system - before.children_system
    return time.perf_counter() - start, worked, json.loads(ran.stdout)


def own_machines(folder: Path) -> Path:
    """A facts file for each profile; the first of them."""
    text, parts = (folder / "library.toml").read_text(encoding="utf-8"), []
    for number, part in enumerate(text.split('facts = ["')):
        drive, mark, rest = part.partition('"]')
        if number:
            source = (folder / "facts" / f"{drive}.toml").read_text(encoding="utf-8")
            (folder / "facts" / f"m{number}.toml").write_text(source, encoding="utf-8")
            parts.append(f"m{number}{mark}{rest}")
        else:
            parts.append(part)
    (folder / "library.toml").write_text('facts = ["'.join(parts), encoding="utf-8")
    return folder / "facts" / "m1.toml"


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.remembered")
    parser.add_argument("size", nargs="?", default="300x30")
    parser.add_argument("--jobs", default="0")
    wanted = parser.parse_args()
    recipes, profiles = map(int, wanted.size.split("x"))
    differing = 0
    with tempfile.TemporaryDirectory() as place, tempfile.TemporaryDirectory() as home:
        os.environ["XDG_CACHE_HOME"] = home
        folder = Path(place)
        make(folder, recipes, profiles)
        facts, one = own_machines(folder), folder / "recipes" / "recipe-0.toml"
        print(f"{'':<28} {'clock s':>8} {'cores s':>8}  findings")

        def show(title: str, *words: str) -> dict[str, object]:
            clock, worked, report = checked(folder, wanted.jobs, *words)
            print(f"{title:<28} {clock:>8.2f} {worked:>8.2f}  {len(report['findings'])}", flush=True)  # type: ignore[arg-type]
            return report

        first = show("anew, nothing remembered", "--anew")
        reports = [(first, show("the first run")), (first, show("nothing changed"))]
        one.write_text(one.read_text(encoding="utf-8").replace("Made up", "Made up anew", 1), encoding="utf-8")
        changed = show("one recipe changed")
        facts.write_text(f"{facts.read_text(encoding='utf-8')}# looked at again\n", encoding="utf-8")
        machine = show("one facts file changed")
        whole = show("the same anew", "--anew")
        reports += [(whole, machine), (whole, changed)]
        differing = sum(before["findings"] != after["findings"] for before, after in reports)
        print(f"findings that differ: {differing}")
    return int(bool(differing))


if __name__ == "__main__":
    raise SystemExit(main())
