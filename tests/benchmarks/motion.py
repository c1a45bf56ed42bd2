"""The table of figures of motion files: ``python -m tests.benchmarks.motion [--speeds] [--megabytes N] [--root
FOLDER]``.

Speeds are processor seconds of one core; the peer in the same run is a plain loop that splits the lines and makes
numbers of their words, keeping nothing. --root: where the rs274 interpreter lies unpacked (see
tests/motion/against_interpreter.py).
"""

from __future__ import annotations

import argparse
import math
import subprocess
import sys
import time
import tomllib
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path

from profilesmith.motion import numpy_columns, plain_columns
from profilesmith.motion.clock import Pace
from profilesmith.motion.judging.judge import JUDGES, judge
from profilesmith.motion.measure import measure
from profilesmith.motion.proposing.propose import propose
from profilesmith.motion.proposing.remarks import read_remarks
from tests.motion import against_interpreter, test_held_out, test_time, test_traps
from tests.motion.generators.bench import Style, lay_part

# The reader alone, as on a machine without numpy; the long file comes in by a pipe.
MEMORY = """
import re, sys
sys.modules["numpy"] = None
from profilesmith.motion.measure import measure
figures = measure(iter(lambda: sys.stdin.buffer.read(1 << 18), b""))
peak = re.search(r"VmHWM:\\s+(\\d+)", open("/proc/self/status").read())  # of this program, not of the one that began it
print(figures.lines, int(peak.group(1)) / 1024)
"""


def repeated(megabytes: float) -> Iterator[bytes]:
    """An invented part, laid again and again, as the portions of a long file."""
    raw = lay_part(style=Style(size=80, corners=300, layers=40)).replace("M84\n", "").encode()
    made = 0
    while made < megabytes * 1e6:
        made += len(raw)
        yield raw


def mb_per_s(run: Callable[[], object], size: int, turns: int = 3) -> float:
    """The best of some turns, in processor seconds."""
    best = math.inf
    for _ in range(turns):
        start = time.process_time()
        run()
        best = min(best, time.process_time() - start)
    return size / 1e6 / best


def peer(raw: bytes) -> None:
    """Split the lines, split their words, make numbers."""
    for line in raw.decode().split("\n"):
        for word in line.split(" ")[1:]:
            if word[0] in "XYZEF":
                float(word[1:])


def tall_part() -> bytes:
    """An invented tube of some 20 MB: rings of short lines, filling, pulls; closed layers in the share of a usual
    part.
    """
    closed = {"top.layers": 60.0, "bottom.layers": 60.0}
    return lay_part(closed, Style(size=80, corners=300, layers=900)).encode()


def speeds() -> Iterator[tuple[str, str, str]]:
    raw = tall_part()
    other = mb_per_s(lambda: peer(raw), len(raw))
    yield f"peer: split lines and words, make numbers, {len(raw) / 1e6:.0f} MB", "", f"{other:.1f} MB/s"
    for name, columns, wanted in (("pure Python", plain_columns, 6), ("with numpy", numpy_columns, 12)):
        got = mb_per_s(lambda columns=columns: measure([raw], columns=columns), len(raw))  # type: ignore[misc]
        yield f"reading, all figures, {name}", f">= {wanted} MB/s", f"{got:.1f} MB/s, {got / other:.2f} times the peer"


def memory(megabytes: float) -> tuple[str, str, str]:
    call = [sys.executable, "-c", MEMORY]
    with subprocess.Popen(call, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as child:
        assert child.stdin is not None
        assert child.stdout is not None
        for raw in repeated(megabytes):
            child.stdin.write(raw)
        child.stdin.close()
        lines, used = child.stdout.read().split()
    return f"memory for {megabytes:g} MB ({int(lines):,} lines)", "<= 60 MB", f"{float(used):.0f} MB"


def traps() -> tuple[str, str, str]:
    wrong = 0
    for folder in test_traps.TRAPS:
        told = tomllib.loads((folder / "expect.toml").read_text(encoding="utf-8"))
        figures = test_traps.read(folder)
        verdicts = {item.setting: item.outcome.verdict for item in judge(figures, test_traps.PROMISES)}
        wrong += sum(verdicts[name] != want and verdicts[name] != "not judged" for name, want in told["judged"].items())
        doubted = any("strand" in doubt.subjects for doubt in figures.doubts)
        right = told["filament_mm"] != "open" and math.isclose(figures.fed, told["filament_mm"], rel_tol=1e-4)
        wrong += not doubted and not right
    return f"silent wrong figures over {len(test_traps.TRAPS)} traps", "0", str(wrong)


def look_ahead() -> tuple[str, str, str]:
    worst = 0.0
    for seed in range(20):
        walk = test_time.walked(seed, 60)
        text = test_time.HEAD + "".join(f"G1 X{x} Y{y} E0.1 F{v * 60:g}\n" for x, y, v in walk)
        got = measure([text.encode()], pace=Pace.of(900.0, None, 8.0)).times.moving.low
        want = test_time.integrated(walk, 900.0, 8.0, 0.0005)
        worst = max(worst, abs(got / want - 1))
    return "look-ahead against fine integration, 20 walks", "1e-5", f"{worst:.1e}"


def one_move() -> tuple[str, str, str]:
    worst = max(abs(test_time.by_ruckig(*move) / test_time.ours(*move) - 1) for move in test_time.MOVES)
    return f"time of a move against ruckig, {len(test_time.MOVES)} moves", "1e-9", f"{worst:.1e}"


def held_out() -> Iterator[tuple[str, str, str]]:
    counted: Counter[str] = Counter()
    for name in test_held_out.MADE:
        judged = judge(test_held_out.figures(name), test_held_out.promises(name))
        known = [
            item for item in judged if item.setting in JUDGES and item.setting not in test_held_out.MADE[name].open
        ]
        counted.update(item.outcome.verdict for item in known)
    total = counted.total()
    share = (total - counted["not judged"]) / total
    files = len(test_held_out.MADE)
    yield f"held out, {files} files, {total} settings: judged", ">= 95 %", f"{share:.1%}"
    yield "held out: false findings", "0", str(counted["found"])
    fed = max(
        abs(test_held_out.figures(name).fed / made.truth["filament_mm"] - 1)
        for name, made in test_held_out.MADE.items()
    )
    yield "held out: filament", "0.01 %", f"{fed:.4%}"


def proposals() -> tuple[str, str, str]:
    """Kinds proposed from shape alone, against what the generators of others say."""
    right = total = 0
    for made in test_held_out.MADE.values():
        figures, traces = read_remarks([made.text.encode()])
        wanted = {says: kind for kind, says in made.truth["words"].items()}
        for proposal in propose(traces, len(figures.layers)):
            want = wanted.get(proposal.trace.remark, "")
            if want:
                total += 1
                right += proposal.is_kind == want or (want == "closing" and proposal.is_kind in ("top", "bottom"))
    return f"held out: kinds proposed right, of {total}", "", f"{right / total:.0%}"


def interpreter(root: Path | None) -> tuple[str, str, str]:
    name = "60 random programs against rs274"
    if root is None:
        return name, "<= 0.002 mm", "not run: there is no interpreter here"
    worst = max(against_interpreter.worst_difference(against_interpreter.program(seed), root) for seed in range(60))
    return name, "<= 0.002 mm", f"{worst:.4f} mm"


def table(megabytes: float, root: Path | None) -> Iterator[tuple[str, str, str]]:
    yield traps()
    yield interpreter(root)
    yield one_move()
    yield look_ahead()
    yield from held_out()
    yield proposals()
    yield from speeds()
    yield memory(megabytes)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--megabytes", type=float, default=20)
    parser.add_argument("--speeds", action="store_true", help="the speeds alone")
    parser.add_argument("--root", type=Path, default=against_interpreter.root_folder())
    told = parser.parse_args()
    for what, wanted, got in speeds() if told.speeds else table(told.megabytes, told.root):
        print(f"{what:<62} {wanted:<14} {got}")


if __name__ == "__main__":
    main()
