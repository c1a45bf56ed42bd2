"""Our reading of random programs against the ``rs274`` interpreter of Debian's linuxcnc-uspace, run as a process.

    python -m tests.motion.against_interpreter [--programs N] [--root FOLDER] [--fetch FOLDER]

FOLDER holds the unpacked packages linuxcnc-uspace and libboost-python; ``--fetch`` downloads them with apt-get and
unpacks them with dpkg-deb. PROFILESMITH_RS274 names such a folder for the suite. Nothing is installed.
"""

from __future__ import annotations

import argparse
import math
import os
import random
import re
import shutil
import subprocess
import tempfile
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

from profilesmith.motion.read_motion import read_motion

PACKAGES = ("linuxcnc-uspace", "libboost-python1.74.0")
CALL = re.compile(r"^\s*\d+\s+N\S*\s+(\w+)\((.*)\)")
NEEDED_MM = 0.002
COARSE_MM = 0.02  # of an arc that was printed in inches
INCH = 25.4
PLANES = {"G17": ("XY", "IJ", "Z"), "G18": ("ZX", "KI", "Y"), "G19": ("YZ", "JK", "X")}


class Move(NamedTuple):
    """Where a move ends, mm in the machine's frame, how fast, mm/min; arc: centre and signed turns, or None. inch: it
    was printed in inches, with four decimals: centre and ends to 0.0013 mm each."""

    end: tuple[float, float, float]
    feed: float
    arc: tuple[float, float, int, str] | None = None
    inch: bool = False


def root_folder() -> Path | None:
    """Where the interpreter lies; None where it is not there."""
    told = os.environ.get("PROFILESMITH_RS274")
    if told and (Path(told) / "usr/bin/rs274").exists():
        return Path(told)
    return Path("/") if shutil.which("rs274") else None


def interpreted(text: str, root: Path) -> list[Move]:
    """The interpreter's own moves."""
    libraries = [root / "usr/lib", *(root / "usr/lib").glob("*-linux-gnu")]
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        (place / "p.ngc").write_text(text, encoding="ascii")
        (place / "t.tbl").write_text("", encoding="ascii")
        (place / "v.var").write_text("", encoding="ascii")
        env = {**os.environ, "LD_LIBRARY_PATH": ":".join(map(str, libraries))}
        call = [str(root / "usr/bin/rs274"), "-g", "-t", "t.tbl", "-v", "v.var", "p.ngc"]
        ran = subprocess.run(call, cwd=place, env=env, capture_output=True, text=True, timeout=60, check=False)
    assert ran.returncode == 0, f"{ran.stderr}\n{text}"
    return _moves(ran.stdout)


def _moves(output: str) -> list[Move]:
    found: list[Move] = []
    scale, feed, plane = 1.0, 0.0, "G17"
    origins = {"SET_G5X_OFFSET": [0.0] * 3, "SET_G92_OFFSET": [0.0] * 3}
    at = [0.0, 0.0, 0.0]
    for line in output.splitlines():
        call = CALL.match(line)
        if not call:
            continue
        name, given = call.group(1), [part.strip() for part in call.group(2).split(",")]
        if name == "USE_LENGTH_UNITS":
            scale = 1.0 if given[0].endswith("MM") else INCH
        elif name == "SET_FEED_RATE":
            feed = float(given[0]) * scale
        elif name == "SELECT_PLANE":
            plane = {"XY": "G17", "XZ": "G18", "YZ": "G19"}[given[0][-2:]]
        elif name in origins:
            numbers = [float(part) * scale for part in given[-6:]]
            origins[name] = numbers[:3]
        elif name in ("STRAIGHT_FEED", "STRAIGHT_TRAVERSE"):
            at = [float(part) * scale for part in given[:3]]
            found.append(Move(_true(at, origins), feed))
        elif name == "ARC_FEED":
            at, arc = _arc(given, scale, plane, at, origins)
            found.append(Move(_true(at, origins), feed, arc, scale != 1.0))
    return found


def _true(at: list[float], origins: dict[str, list[float]]) -> tuple[float, float, float]:
    x, y, z = (value + sum(origin[axis] for origin in origins.values()) for axis, value in enumerate(at))
    return x, y, z


def _arc(
    given: list[str], scale: float, plane: str, at: list[float], origins: dict[str, list[float]]
) -> tuple[list[float], tuple[float, float, int, str]]:
    first, second, centre_one, centre_two = (float(part) * scale for part in given[:4])
    axes = ["XYZ".index(letter) for letter in (*PLANES[plane][0], PLANES[plane][2])]
    end = list(at)
    end[axes[0]], end[axes[1]], end[axes[2]] = first, second, float(given[5]) * scale
    shift = _true([0.0, 0.0, 0.0], origins)
    return end, (centre_one + shift[axes[0]], centre_two + shift[axes[1]], int(given[4]), plane)


def program(seed: int, lines: int = 60) -> str:
    """A random program that the interpreter takes: moves, arcs, helices, inch, steps, offsets, other origins."""
    chance = random.Random(seed)
    text = ["G21 G90 G17 G40 G49 G80 G54", "G92.1", "G0 X0 Y0 Z0 F600"]
    writer = _Chance(chance)
    for _ in range(lines):
        text.append(writer.line())
    return "\n".join([*text, "M2"]) + "\n"


class _Chance:
    """Keeps what is needed to write arcs that close: where the nozzle is, in the file's numbers and unit."""

    def __init__(self, chance: random.Random) -> None:
        self.chance = chance
        self.absolute, self.plane, self.inch = True, "G17", False

    def number(self, low: float, high: float) -> str:
        value = self.chance.uniform(low, high) / (INCH if self.inch else 1.0)
        return f"{value:.4f}"

    def line(self) -> str:
        pick = self.chance.random()
        if pick < 0.45:
            return self._straight()
        if pick < 0.7:
            return self._turn()
        if pick < 0.78:
            self.absolute = not self.absolute
            return "g90" if self.absolute else "G 91"
        if pick < 0.84:
            self.inch = not self.inch
            return "G20" if self.inch else "G21"
        if pick < 0.9:
            self.plane = self.chance.choice(list(PLANES))
            return f"{self.plane} (another plane)"
        # In inches the interpreter prints offsets to 0.0013 mm only.
        return self._straight() if self.inch else self._offset()

    def _straight(self) -> str:
        letters = self.chance.sample("XYZ", self.chance.randint(1, 3))
        words = [f"{letter}{self.number(-40, 40)}" for letter in letters]
        head = self.chance.choice(["G1", "g01", "G0", "N7 G1"])
        feed = self.chance.choice(["", f" F{self.number(100, 3000)}"])
        return f"{head} {' '.join(words)}{feed}"

    def _turn(self) -> str:
        """A full turn, or a step by I J K along a circle whose end is told as a step."""
        axes, centre, third = PLANES[self.plane]
        a, b = float(self.number(-15, 15)), float(self.number(-15, 15))
        word = self.chance.choice(["G2", "G3"])
        rise = f" {third}{self.number(-5, 5)}" if self.chance.random() < 0.4 else ""
        if math.hypot(a, b) * (INCH if self.inch else 1.0) < 1:
            return "G91" if not self.absolute else "G90"
        if self.chance.random() < 0.3:
            return f"{word} {centre[0]}{a:.4f} {centre[1]}{b:.4f}{rise}"
        turn = self.chance.uniform(0.3, 5.9)
        da = a - (a * math.cos(turn) - b * math.sin(turn))
        db = b - (a * math.sin(turn) + b * math.cos(turn))
        arc = f"{word} {axes[0]}{da:.5f} {axes[1]}{db:.5f} {centre[0]}{a:.5f} {centre[1]}{b:.5f}{rise}"
        if self.chance.random() < 0.3:
            radius = math.hypot(a, b)
            short = (turn if word == "G3" else math.tau - turn) <= math.pi
            arc = f"{word} {axes[0]}{da:.5f} {axes[1]}{db:.5f} R{radius if short else -radius:.5f}{rise}"
        return arc if not self.absolute else f"G91\n{arc}\nG90"

    def _offset(self) -> str:
        pick = self.chance.random()
        if pick < 0.5:
            return f"G92 {self.chance.choice('XYZ')}{self.number(-20, 20)}"
        if pick < 0.6:
            return self.chance.choice(["G92.1", "G92.2\nG92.3"])
        origin = self.chance.randint(1, 6)
        return f"G10 L2 P{origin} X{self.number(-9, 9)} Y{self.number(-9, 9)} Z{self.number(-9, 9)}\nG{53 + origin}"


def worst_difference(text: str, root: Path) -> float:
    """The largest difference on an axis between our moves and the interpreter's, mm; arcs by their whole way. Raises
    AssertionError.
    """
    moves = interpreted(text, root)
    state = list(read_motion([text.encode()], short_cut=False))[-1]
    rows = state.rows
    by_line: list[list[int]] = []
    for at, line in enumerate(rows.line):
        if not by_line or rows.line[by_line[-1][0]] != line:
            by_line.append([])
        by_line[-1].append(at)
    assert len(by_line) == len(moves), f"{len(by_line)} moves, not {len(moves)}\n{text}"
    worst = 0.0
    for group, move in zip(by_line, moves, strict=True):
        last = group[-1]
        ours = (rows.x[last], rows.y[last], rows.z[last])
        worst = max(worst, *(abs(one - other) for one, other in zip(ours, move.end, strict=True)))
        if move.arc is not None:
            off = _off_the_arc(rows, group, move.arc)
            assert off < COARSE_MM, f"{off} mm off the arc of line {rows.line[last]}\n{text}"
            worst = worst if move.inch else max(worst, off)
    return worst


def _off_the_arc(rows: object, group: list[int], arc: tuple[float, float, int, str]) -> float:
    """How far our chords' ends lie from the circle; and, as a length, how far our turn is from the interpreter's."""
    one, two, turns, plane = arc
    columns = [getattr(rows, letter.lower()) for letter in PLANES[plane][0]]
    before = group[0] - 1
    spots = [(columns[0][at] - one, columns[1][at] - two) for at in (before, *group)]
    radius = math.hypot(*spots[0])
    off = max(abs(math.hypot(*spot) - radius) for spot in spots)
    angles = [math.atan2(b, a) for a, b in spots]
    turned = sum((after - now + math.pi) % math.tau - math.pi for now, after in pairwise(angles))
    want = (angles[-1] - angles[0]) % math.tau
    want = (want or math.tau) if turns > 0 else (want or math.tau) - math.tau or -math.tau
    if abs(want) < 1e-4:
        want = math.copysign(math.tau, turns)
    return max(off, abs(turned - want) * radius)


def fetch(folder: Path) -> None:
    """Download the two packages and unpack them into ``folder``."""
    folder.mkdir(parents=True, exist_ok=True)
    subprocess.run(["apt-get", "download", *PACKAGES], cwd=folder, check=True)
    for package in folder.glob("*.deb"):
        subprocess.run(["dpkg-deb", "-x", str(package), str(folder)], check=True)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--programs", type=int, default=60)
    parser.add_argument("--root", type=Path, default=None)
    parser.add_argument("--fetch", type=Path, default=None)
    told = parser.parse_args()
    if told.fetch:
        fetch(told.fetch)
    root = told.root or told.fetch or root_folder()
    assert root is not None, "no interpreter: use --fetch FOLDER, or set PROFILESMITH_RS274"
    worst = max(worst_difference(program(seed), root) for seed in range(told.programs))
    print(f"{told.programs} programs: at most {worst:.5f} mm from the interpreter (wanted: {NEEDED_MM} mm)")


if __name__ == "__main__":
    main()
