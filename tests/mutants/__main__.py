"""``python -m tests.mutants [ROOM...]``: how many small wrong changes the tests notice.

Each mutant is one change at one place of one file (``mutations.py``), drawn with a fixed seed. Against it run the
room's own tests, first those of the changed file, then the cases and the laws, until one fails. What survives is named
with its place: it is a test that is missing, or a change that changes nothing. A mutant that does not end in time is
noticed, too.
"""

from __future__ import annotations

import argparse
import importlib.abc
import importlib.machinery
import importlib.util
import os
import random
import resource
import signal
import sys
import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from itertools import repeat
from pathlib import Path
from typing import NamedTuple

from tests.mutants.mutations import Mutation, mutations

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "profilesmith"
ROOMS: dict[str, tuple[str, ...]] = {
    "recipe": ("tests/recipe",),
    "translation": ("tests/translation",),
    "profile": ("tests/profile",),
    "ledger": ("tests/ledger",),
    "merge": ("tests/merge",),
    "audit": ("tests/test_audit.py",),
}
THEN = ("tests/test_cases.py", "tests/laws", "tests/workflows/rederive")
"""What runs after a room's own tests."""
NOT_HERE = ("test_files_of_this_machine.py", "test_process.py")
LONGEST_S = 400
ASLEEP = 10
"""So many times LONGEST_S by the clock, a mutant that computes nothing is given up."""


class Mutant(NamedTuple):
    """A mutation of a file of a room."""

    room: str
    path: Path
    mutation: Mutation

    def __str__(self) -> str:
        return f"{self.path.relative_to(PACKAGE)}:{self.mutation.line} {self.mutation.what}"


class _Instead(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module another source."""

    def __init__(self, mutant: Mutant) -> None:
        parts = mutant.path.relative_to(ROOT).with_suffix("").parts
        self.name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
        self.mutant = mutant

    def find_spec(self, name: str, path: object = None, target: object = None) -> importlib.machinery.ModuleSpec | None:
        if name != self.name:
            return None
        package = self.mutant.path.name == "__init__.py"
        spec = importlib.util.spec_from_file_location(name, self.mutant.path, loader=self)
        if spec is not None and package:
            spec.submodule_search_locations = [str(self.mutant.path.parent)]
        return spec

    def exec_module(self, module: object) -> None:
        code = compile(self.mutant.mutation.source, str(self.mutant.path), "exec")
        exec(code, module.__dict__)


def all_mutants(room: str) -> list[Mutant]:
    """Every mutant of a room, in a fixed order."""
    place = PACKAGE / room
    files = sorted(place.rglob("*.py")) if place.is_dir() else [place.with_suffix(".py")]
    return [Mutant(room, path, item) for path in files for item in mutations(path.read_text(encoding="utf-8"))]


def nearest_first(mutant: Mutant) -> list[str]:
    """The test files of a mutant's room: that of its own file, those that import it, the others."""
    module = ".".join(mutant.path.relative_to(ROOT).with_suffix("").parts)
    files: list[Path] = []
    for name in ROOMS[mutant.room]:
        place = ROOT / name
        files += sorted(place.rglob("test_*.py")) if place.is_dir() else [place]

    def distance(path: Path) -> tuple[bool, bool]:
        return path.stem != f"test_{mutant.path.stem}", f"{module} import" not in path.read_text(encoding="utf-8")

    return [str(path.relative_to(ROOT)) for path in sorted(files, key=distance)]


def survives(mutant: Mutant, then: Sequence[str] = THEN) -> bool:
    """Whether no test notices it. In a process of its own, which ends with the answer. then: what runs after the
    room's own tests.
    """
    child = os.fork()
    if not child:
        os.setpgid(0, 0)
        # Seconds of computing, not of the clock: what ends in time does so on a busy machine too.
        resource.setrlimit(resource.RLIMIT_CPU, (LONGEST_S, LONGEST_S + 10))
        os._exit(_run(mutant, (*nearest_first(mutant), *then)))
    until = time.monotonic() + LONGEST_S * ASLEEP
    while time.monotonic() < until:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status) == 0
        time.sleep(0.05)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return False


def _run(mutant: Mutant, tests: Sequence[str]) -> int:
    import pytest

    quiet = os.open(os.environ.get("MUTANTS_LOG", os.devnull), os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o644)
    os.dup2(quiet, 1)
    os.dup2(quiet, 2)
    os.chdir(ROOT)
    sys.meta_path.insert(0, _Instead(mutant))
    sys.dont_write_bytecode = True
    wanted = [path for path in tests if (ROOT / path).exists()]
    left_out = [f"--ignore-glob=*{name}" for name in NOT_HERE]
    try:
        return int(
            pytest.main(
                [
                    "-x",
                    "-q",
                    "-p",
                    "no:cacheprovider",
                    "-p",
                    "no:xdist",
                    "-W",
                    "ignore::pytest.PytestAssertRewriteWarning",
                    "-o",
                    "addopts=",
                    "--import-mode=importlib",
                    *left_out,
                    *wanted,
                ]
            )
        )
    except BaseException:
        import traceback

        traceback.print_exc()
        return 1


def drawn(rooms: Sequence[str], number: int, seed: int) -> list[Mutant]:
    """As many of each room as its share of all mutants, none without some."""
    every = {room: all_mutants(room) for room in rooms}
    total = sum(map(len, every.values()))
    chance = random.Random(seed)
    chosen = []
    for mutants in every.values():
        count = min(len(mutants), max(5, round(number * len(mutants) / total)))
        chosen += chance.sample(mutants, count)
    print(f"{total:,} mutants in {', '.join(rooms)}; {len(chosen)} of them drawn with seed {seed}", flush=True)
    return chosen


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__)
    parser.add_argument(
        "rooms", nargs="*", default=list(ROOMS), help="of recipe, translation, profile, ledger, merge, audit"
    )
    parser.add_argument("--number", type=int, default=300, help="how many are drawn")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--file", default="", help="only mutants of files whose name holds this")
    parser.add_argument("--own", action="store_true", help="only the room's own tests: quicker, and more survive")
    told = parser.parse_args()
    import hypothesis  # noqa: F401  # loaded once for all
    import jsonschema  # noqa: F401
    import pytest  # noqa: F401

    chosen = [item for item in drawn(told.rooms, told.number, told.seed) if told.file in str(item.path)]
    if not chosen:
        print("No file of these rooms is called so.")
        return 2
    then = () if told.own else THEN
    everywhere = tuple(wanted for room in told.rooms for wanted in ROOMS[room])
    path = chosen[0].path
    same = Mutation(0, "nothing", path.read_text(encoding="utf-8"))
    if not survives(Mutant(chosen[0].room, path, same), (*everywhere, *then)):
        print("Some of these tests fail, or do not end in time, without any change: nothing can be told.")
        return 2
    start, left = time.monotonic(), []
    with ThreadPoolExecutor(told.jobs) as pool:
        for count, (mutant, alive) in enumerate(zip(chosen, pool.map(survives, chosen, repeat(then)), strict=True), 1):
            if alive:
                left.append(mutant)
                print(f"survives: {mutant}", flush=True)
            if count % 25 == 0:
                print(f"  {count} of {len(chosen)}, {len(left)} survive, {time.monotonic() - start:.0f} s", flush=True)
    for room in told.rooms:
        mine, alive = ([item for item in some if item.room == room] for some in (chosen, left))
        if mine:
            print(f"{room:<12} {len(mine) - len(alive):4} of {len(mine):4} killed: {1 - len(alive) / len(mine):.0%}")
    print(f"all          {len(chosen) - len(left):4} of {len(chosen):4} killed: {1 - len(left) / len(chosen):.1%}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
