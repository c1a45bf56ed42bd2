"""``python -m tests.benchmarks.checks``: how long all checks of a change take, and their share of its derivation.

In this process, as processor time, so that other people's work counts little: the demo's change judged by all checks
with cautions and figures, against the standard library's ``configparser`` on the demo's text (the peer, whose ratio
travels), and against the derivation that it belongs to. As a process: ``check`` against ``derive`` without recipes, in
turn.
"""

from __future__ import annotations

import configparser
import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

from profilesmith.checks import cautions, materials
from profilesmith.checks.judge import CHECKS, judge
from profilesmith.engine.derive import Derivation, derive
from profilesmith.engine.read import Source
from profilesmith.facts.load_facts import load_facts

RECIPES = Path(__file__).resolve().parents[2] / "recipes"
DEMO = RECIPES / "demo"
FACTS = ("machine.toml", "spool.toml", "part.toml")
PROCESS_RUNS, ROUNDS = 7, 40
LIMIT_MS = 4.0


def source(path: Path) -> Source:
    return Source(path.name, path.read_bytes())


def derivation() -> Derivation:
    """The demo's main job, over bytes."""
    return derive(
        [source(DEMO / "base.settings")],
        source(DEMO / "keymap.toml"),
        [source(RECIPES / f"{name}.toml") for name in ("flexible-pla", "part-soft")],
        [source(DEMO / name) for name in FACTS],
    )


def judging() -> Callable[[], object]:
    made = derivation()
    facts, _ = load_facts([((DEMO / name).read_bytes(), name) for name in FACTS])
    return lambda: judge(made.translation.profile, made.ledger.derived, facts)


def judging_anew() -> Callable[[], object]:
    """The same, with materials and cautions read from their files each time."""
    judged = judging()

    def run() -> object:
        for cached in (materials._data, materials.materials, cautions.known_cautions):
            cached.cache_clear()
        return judged()

    return run


def peer() -> Callable[[], object]:
    text = (DEMO / "base.settings").read_text(encoding="utf-8")

    def run() -> object:
        parser = configparser.ConfigParser(strict=False, interpolation=None, allow_no_value=True)
        parser.read_string(text)
        return parser

    return run


def milliseconds(jobs: list[Callable[[], object]]) -> list[list[float]]:
    """Processor times of each job, in turn; the first round does not count."""
    times: list[list[float]] = [[] for _ in jobs]
    for _ in range(ROUNDS + 1):
        for job, found in zip(jobs, times, strict=True):
            start = time.process_time()
            job()
            found.append((time.process_time() - start) * 1000)
    return [found[1:] for found in times]


def process_seconds(words: list[str]) -> float:
    start = time.perf_counter()
    subprocess.run([sys.executable, "-m", "profilesmith", *words], capture_output=True, check=False)
    return time.perf_counter() - start


def processes() -> tuple[float, float, float]:
    """Medians of ``check`` and of ``derive`` without recipes, and of their ratio, in turn."""
    common = [str(DEMO / "base.settings"), "--keymap", str(DEMO / "keymap.toml")]
    facts = [word for name in FACTS for word in ("--facts", str(DEMO / name))]
    pairs = [
        (process_seconds(["check", *common, *facts]), process_seconds(["derive", *common, *facts]))
        for _ in range(PROCESS_RUNS + 1)
    ][1:]
    ratio = statistics.median(mine / theirs for mine, theirs in pairs)
    return statistics.median(mine for mine, _ in pairs), statistics.median(theirs for _, theirs in pairs), ratio


def main() -> None:
    load = ", ".join(f"{value:.1f}" for value in os.getloadavg())
    print(f"{len(CHECKS)} checks of the demo's change, with cautions and figures; limit {LIMIT_MS:.0f} ms; load {load}")
    mine, anew, other, whole = milliseconds([judging(), judging_anew(), peer(), derivation])
    for name, times in (("judged", mine), ("judged, materials and cautions read anew", anew)):
        print(f"  {name:<41} median {statistics.median(times):6.2f} ms, slowest {max(times):6.2f} ms")
    ratio = statistics.median(one / two for one, two in zip(mine, other, strict=True))
    print(f"  judged / configparser on the same text    {ratio:.2f}")
    share = statistics.median(one / two for one, two in zip(mine, whole, strict=True))
    print(f"  share of the derivation ({statistics.median(whole):.1f} ms)         {share:.0%}")
    check_s, derive_s, of_processes = processes()
    print(
        f"  check as a process {check_s * 1000:.0f} ms, derive without recipes {derive_s * 1000:.0f} ms: "
        f"ratio {of_processes:.2f}, at most 1.5"
    )


if __name__ == "__main__":
    main()
