"""Kill -9 at random moments of writing, and look at what lies there afterwards.

A worker process has everything imported and derives two profiles in turn over the same output, ledger and report. It
is killed after a random delay; then every output must be whole, old or new, and the inputs untouched.
"""

from __future__ import annotations

import json
import os
import random
import signal
import time
from collections import Counter
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from profilesmith.engine.derive import Derivation
from profilesmith.left_over import PART, unfinished
from profilesmith.review.reading_notes import broken_off
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.derived_file import left_beside
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import review_again

OUT, LEDGER, REPORT = "out.cfg", "out.cfg.ledger.json", "report.md"
KEY_MAP = 'format = 1\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\nunit = "mm/s"\n'
RECIPE = (
    'format = 1\n[recipe]\nname = "r{0}"\nversion = "1.0.0"\n[[rule]]\n'
    'setting = "outer_wall.speed"\ncap = "{0} mm/s"\nwhy = "test"\n'
)
SPEEDS = (40, 50)


class Kept(NamedTuple):
    """What may lie there: the outputs and reports that whole runs write, and the inputs as they were."""

    outputs: dict[bytes, int]
    reports: set[bytes]
    inputs: dict[str, bytes]


def lay_out(folder: Path, lines: int = 400) -> None:
    """Inputs whose outputs are large enough to take a moment to write."""
    filler = "".join(f"key_{number} = {number}\n" for number in range(lines))
    (folder / "base.cfg").write_text(f"rim = 80\n{filler}", encoding="utf-8")
    (folder / "map.toml").write_text(KEY_MAP, encoding="utf-8")
    for speed in SPEEDS:
        (folder / f"r{speed}.toml").write_text(RECIPE.format(speed), encoding="utf-8")


def derivations(folder: Path) -> list[Derivation]:
    return [
        derive(
            Request(
                bases=(str(folder / "base.cfg"),),
                key_map=str(folder / "map.toml"),
                recipes=(str(folder / f"r{speed}.toml"),),
            )
        )
        for speed in SPEEDS
    ]


def write_both(made: list[Derivation], folder: Path, number: int) -> None:
    write(made[number % 2], str(folder / OUT), overwrite=True, reports=[(str(folder / REPORT), "markdown")])


def prepare(folder: Path) -> Kept:
    """Write both once, to know what whole files look like."""
    lay_out(folder)
    made = derivations(folder)
    outputs, reports = {}, set()
    for number, speed in enumerate(SPEEDS):
        write_both(made, folder, number)
        outputs[(folder / OUT).read_bytes()] = speed
        reports.add((folder / REPORT).read_bytes())
    inputs = {path.name: path.read_bytes() for path in folder.iterdir() if path.name not in (OUT, LEDGER, REPORT)}
    return Kept(outputs, reports, inputs)


def kill_once(folder: Path, made: list[Derivation], chance: random.Random) -> None:
    """A forked child writes in a loop until it is killed."""
    ready, tell = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(ready)
        try:
            os.write(tell, b"x")
            number = chance.randrange(2)
            while True:
                write_both(made, folder, number)
                number += 1
        finally:
            os._exit(1)  # only reached when writing failed
    os.close(tell)
    os.read(ready, 1)
    os.close(ready)
    time.sleep(chance.uniform(0, 0.12))
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status), "the worker was writing until it was killed"


def look(folder: Path, kept: Kept) -> str:
    """Check the folder; says what was found. Raises AssertionError when anything was lost."""
    inputs = {name: (folder / name).read_bytes() for name in kept.inputs}
    assert inputs == kept.inputs, "the inputs are untouched"
    out = (folder / OUT).read_bytes()
    assert out in kept.outputs, "the output is whole"
    assert (folder / REPORT).read_bytes() in kept.reports, "the report is whole"
    ledger = json.loads((folder / LEDGER).read_text(encoding="utf-8"))
    written = next(
        speed for text, speed in kept.outputs.items() if sha256(text).hexdigest() == ledger["outputs"][0]["sha256"]
    )
    others = {path.name for path in folder.iterdir()} - {*kept.inputs, OUT, LEDGER, REPORT}
    assert all(name.startswith(".") and name.endswith(PART) for name in others), "what is left is named for what it is"
    edited = review_again(str(folder / OUT)).edited
    if written == kept.outputs[out]:
        assert edited == (), "the pair belongs together, and the review says so"
        return "left a part" if others else "clean"
    parts = unfinished(folder / LEDGER)  # the new ledger, and a moment before it moves a second name of the old one
    assert 1 <= len(parts) <= 2
    assert edited == (broken_off(left_beside(folder / OUT)),), (
        "the pair does not belong together, and the review says so"
    )
    assert left_beside(folder / OUT) in {part.name for part in parts}
    return "between two files"


def kill_many(folder: Path, kills: int, seed: int) -> Counter[str]:
    """Kill so often, looking each time. At the end a run to its end leaves a whole pair."""
    kept = prepare(folder)
    made = derivations(folder)
    chance = random.Random(seed)
    found: Counter[str] = Counter()
    for _ in range(kills):
        kill_once(folder, made, chance)
        left = look(folder, kept)
        found[left] += 1
        if left == "between two files":  # what a later kill leaves is not to be taken for what this one left
            write_both(made, folder, 0)
        for part in folder.glob(f".*{PART}"):
            part.unlink()
    write_both(made, folder, 0)
    assert review_again(str(folder / OUT)).edited == (), "the next run is not disturbed"
    return found
