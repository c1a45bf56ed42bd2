"""``python -m tests.benchmarks.batch [COUNT ...]``: derivations by an order file, their time and memory.

Seeded texts of 150 keys, a third of them bound, and two recipes. Each count runs in a process of its own. ``ms each``
is the clock's time of the whole command, start-up and the disk included, times its processes; ``computing`` is what the
cores really spent on it, which other work on the machine hardly changes. Memory is the largest resident set of any
process of the run.
"""

from __future__ import annotations

import os
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import profilesmith
from profilesmith.library.find import shipped
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

COUNTS = (100, 1_000, 5_000)
RECIPES = ("flexible-pla", "long-tube")


def lay_out(folder: Path, count: int) -> None:
    """The demo's text with other numbers, filled up to 150 keys; its map; an order over all of them."""
    chance = random.Random(11)
    demo = shipped() / "demo"
    (folder / "keymap.toml").write_bytes((demo / "keymap.toml").read_bytes())
    key_map, problems = load_key_map((demo / "keymap.toml").read_bytes(), "keymap.toml", load_vocabulary())
    assert key_map is not None, problems
    text = (demo / "base.settings").read_text(encoding="utf-8")
    more = "".join(f"spare_{number} = {number}\n" for number in range(max(0, 150 - text.count(" = "))))
    (folder / "bases").mkdir()
    for number in range(count):
        changed = text.replace("feed = 4500", f"feed = {chance.randrange(2000, 7000, 10)}").replace(
            "share = 15", f"share = {chance.randrange(5, 60)}"
        )
        (folder / "bases" / f"{number:05}.settings").write_text(changed + more, encoding="utf-8")
    names = ", ".join(f'"{name}"' for name in RECIPES)
    order = (
        f'format = 1\n[order]\nname = "benchmark"\nkeymap = "keymap.toml"\nrecipes = [{names}]\n'
        'out = "out"\n[[job]]\nbase = "bases/*.settings"\n'
    )
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


def main() -> None:
    counts = [int(word) for word in sys.argv[1:]] or list(COUNTS)
    print(
        f"{'derivations':>12} {'processes':>10} {'seconds':>9} {'ms each and core':>17} "
        f"{'computing, ms each':>19} {'largest process':>16}"
    )
    for count in counts:
        with tempfile.TemporaryDirectory(prefix="batch-") as name:
            lay_out(Path(name), count)
            for jobs in (1, os.cpu_count() or 1):
                seconds, worked, memory = run(Path(name), jobs)
                each = seconds * jobs / count * 1000
                print(
                    (
                        f"{count:>12,} {jobs:>10} {seconds:>9.2f} {each:>17.2f} {worked / count * 1000:>19.2f} "
                        f"{memory / 1024:>13.1f} MB"
                    ),
                    flush=True,
                )


if __name__ == "__main__":
    main()
