"""``python -m tests.mutants [ROOM...]``: how many small wrong changes the tests notice.

Each mutant is one change at one place of one file (``mutations.py``), drawn with a fixed seed. Against it run those of
the room's own tests, the cases and the laws that call the changed function when nothing is changed (``reach.py``):
first those of the changed file, then the quick ones, until one fails. Generated examples are the same in each run.
What survives is named with its place: it is a test that is missing, or a change that changes nothing. A mutant that
does not end in time is noticed, too.
"""

from __future__ import annotations

import argparse
import resource
import shutil
import sys
import tempfile
import time
from pathlib import Path

from tests.mutants.all_of_them import answers
from tests.mutants.mutant import ROOMS, Mutant, drawn


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
    parser.add_argument(
        "rooms", nargs="*", default=list(ROOMS), help="of recipe, translation, profile, ledger, merge, audit"
    )
    parser.add_argument("--number", type=int, default=300, help="how many are drawn")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--file", default="", help="only mutants of files whose name holds this")
    parser.add_argument("--own", action="store_true", help="only the rooms' own tests: quicker, and more survive")
    parser.add_argument("--learned", type=Path, help="a file for what the run without a change has told; read if there")
    asked = parser.parse_args()
    chosen = drawn(asked.rooms, asked.number, asked.seed, asked.file)
    if not chosen:
        print("No file of these rooms is called so.")
        return 2
    start = time.monotonic()
    left: list[Mutant] = []
    with tempfile.TemporaryDirectory(prefix="mutants-") as folder:
        learned = Path(folder, "learned")
        if asked.learned and asked.learned.exists():
            shutil.copy(asked.learned, learned)
        try:
            some = answers(chosen, asked.rooms, asked.jobs, asked.own, Path(folder))
            for count, (mutant, alive) in enumerate(some, 1):
                if alive:
                    left.append(mutant)
                    print(f"survives: {mutant}", flush=True)
                if count % 25 == 0:
                    seconds = time.monotonic() - start
                    print(f"  {count} of {len(chosen)}, {len(left)} survive, {seconds:.0f} s", flush=True)
        except ValueError as wrong:
            print(f"Nothing can be told: without any change there fails {wrong}.")
            return 2
        else:
            if asked.learned:
                shutil.copy(learned, asked.learned)
    for room in asked.rooms:
        mine, living = ([item for item in some if item.room == room] for some in (chosen, left))
        if mine:
            print(f"{room:<12} {len(mine) - len(living):4} of {len(mine):4} killed: {1 - len(living) / len(mine):.0%}")
    killed, used = len(chosen) - len(left), resource.getrusage(resource.RUSAGE_CHILDREN)
    print(f"all          {killed:4} of {len(chosen):4} killed: {killed / len(chosen):.1%}")
    print(f"{time.monotonic() - start:,.0f} s by the clock, {used.ru_utime + used.ru_stime:,.0f} s of processors")
    return 0


if __name__ == "__main__":
    sys.exit(main())
