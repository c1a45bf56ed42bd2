"""``python -m tests.benchmarks.batch [COUNT ...]``: derivations by an order file, their time and memory.

Seeded texts of 150 keys, a third of them bound, of two sorts. ``varied`` is what a club has: every bound number of each
text is its own, and the order's jobs take turns at recipes and facts. ``alike``: two recipes without facts, two numbers
of each text differ, so that much is met again. Each count runs in a process of its own. ``clock`` is the time of the
whole command, start-up and the disk included, times its processes; ``computing`` is what the cores really spent on it
(user and system), which other work on the machine hardly changes. The peer is the standard library's ``configparser``
reading the same texts in this process: its ratio to ``computing`` travels. Memory is the largest resident set of any
process of the run. Each run writes into a folder of its own, and all are removed at the end: some file systems look
for a while past every file that was just deleted when they make a new one.
"""

from __future__ import annotations

import configparser
import os
import random
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import ExitStack
from itertools import product
from pathlib import Path

import profilesmith
from profilesmith.library.find import shipped

COUNTS = (100, 1_000, 5_000)
SORTS = ("alike", "varied")
RECIPES = (("flexible-pla",), ("flexible-pla", "part-soft"), ("flexible-pla", "long-tube"), ("tpu-95a",))
FACTS = ((), ("machine.toml", "spool.toml"), ("machine.toml", "spool.toml", "part.toml"))
KEEP = frozenset(("bore_mm", "strand_mm", "weave", "kind", "pad_slabs", "blow"))
"""Choices, switches, and what a workshop has only one of."""

NUMBER = re.compile(r"^(\w+) = (\d+)(\.\d+)?(/\d+)?$", re.MULTILINE)


def alike(chance: random.Random, text: str) -> str:
    """Another outer wall, another infill."""
    return text.replace("feed = 4500", f"feed = {chance.randrange(2000, 7000, 10)}").replace(
        "share = 15", f"share = {chance.randrange(5, 60)}"
    )


def varied(chance: random.Random, text: str) -> str:
    """Every number that can be another, up to a sixth more or less, with the decimals that it has."""

    def another(number: re.Match[str]) -> str:
        key, whole, part, second = number.groups()
        if key in KEEP:
            return number[0]
        if second:
            return f"{key} = {chance.randrange(195, 215)}/{chance.randrange(50, 70)}"
        decimals = len(part or ".") - 1
        return f"{key} = {float(whole + (part or '')) * chance.uniform(0.84, 1.16):.{decimals}f}"

    return NUMBER.sub(another, text)


def jobs_of(sort: str) -> list[tuple[tuple[str, ...], tuple[str, ...]]]:
    """Recipes and facts of each job of an order."""
    if sort == "alike":
        return [(("flexible-pla", "long-tube"), ())]
    return [(recipes, facts) for recipes in RECIPES for facts in FACTS]


def lay_out(folder: Path, count: int, sort: str) -> None:
    """The demo's text with other numbers, filled up to 150 keys; its map; an order over all of them."""
    chance, another = random.Random(11), {"alike": alike, "varied": varied}[sort]
    demo = shipped() / "demo"
    for name in ("keymap.toml", "machine.toml", "spool.toml", "part.toml"):
        (folder / name).write_bytes((demo / name).read_bytes())
    text = (demo / "base.settings").read_text(encoding="utf-8")
    more = "".join(f"spare_{number} = {number}\n" for number in range(max(0, 150 - text.count(" = "))))
    order = 'format = 1\n[order]\nname = "benchmark"\nkeymap = "keymap.toml"\nout = "out"\n'
    jobs = jobs_of(sort)
    for at, (recipes, facts) in enumerate(jobs):
        (folder / "bases" / str(at)).mkdir(parents=True)
        order += f'[[job]]\nbase = "bases/{at}/*.settings"\nrecipes = {list(recipes)}\nfacts = {list(facts)}\n'
    for number in range(count):
        place = folder / "bases" / str(number % len(jobs)) / f"{number:05}.settings"
        place.write_text(another(chance, text) + more, encoding="utf-8")
    (folder / "order.toml").write_text(order, encoding="utf-8")


def run(folder: Path, jobs: int) -> tuple[float, float, int]:
    """Seconds on the clock, seconds that the cores worked, and the largest resident set in kB."""
    start = time.perf_counter()
    command = [
        sys.executable,
        "-m",
        "profilesmith",
        "batch",
        str(folder / "order.toml"),
        "--jobs",
        str(jobs),
        "--overwrite",
        "--report",
        str(folder / "sum.json"),
    ]
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL, cwd=Path(profilesmith.__file__).parent.parent)
    _, status, usage = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    assert child.returncode == 0, child.returncode
    return time.perf_counter() - start, usage.ru_utime + usage.ru_stime, usage.ru_maxrss


def computing(job: Callable[[], object]) -> float:
    start = time.process_time()
    job()
    return time.process_time() - start


def peer(folder: Path) -> float:
    """Seconds that configparser takes for the same texts."""
    texts = [path.read_text(encoding="utf-8") for path in sorted((folder / "bases").glob("*/*"))]

    def read() -> None:
        for text in texts:
            configparser.ConfigParser(strict=False, interpolation=None, allow_no_value=True).read_string(text)

    return computing(read)


def main() -> None:
    counts = [int(word) for word in sys.argv[1:]] or list(COUNTS)
    load = ", ".join(f"{value:.1f}" for value in os.getloadavg())
    print(f"Wanted: at most 8 ms each and core, aim 5. Load {load}.")
    print(
        f"{'sort':<7} {'derivations':>11} {'processes':>9} {'clock, ms each':>15} {'computing, ms each':>19} "
        f"{'/ configparser':>15} {'largest process':>16}"
    )
    with ExitStack() as kept:
        for count, sort, jobs in product(counts, SORTS, (1, os.cpu_count() or 1)):
            folder = Path(kept.enter_context(tempfile.TemporaryDirectory(prefix="batch-")))
            lay_out(folder, count, sort)
            seconds, worked, memory = run(folder, jobs)
            print(
                f"{sort:<7} {count:>11,} {jobs:>9} {seconds * jobs / count * 1000:>15.2f} "
                f"{worked / count * 1000:>19.2f} {worked / peer(folder):>15.2f} {memory / 1024:>13.1f} MB",
                flush=True,
            )


if __name__ == "__main__":
    main()
