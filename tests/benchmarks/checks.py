"""``python -m tests.benchmarks.checks``: how long all checks of one profile take, against the 20 ms that they may take.

In this process: the first judgement (which reads the materials and cautions) and later ones. As a process: ``check``
against ``derive`` without recipes on the same text, run in turn; the median of the pairwise ratios travels.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from pathlib import Path

from profilesmith.checks import cautions, materials
from profilesmith.checks.judge import CHECKS, judge
from profilesmith.facts.facts import fact_kinds
from profilesmith.facts.load_facts import load_facts
from profilesmith.workflows.read import read
from profilesmith.workflows.request import Request

RECIPES = Path(__file__).resolve().parents[2] / "recipes"
DEMO = RECIPES / "demo"
FACTS = ("machine.toml", "spool.toml", "part.toml")
PROCESS_RUNS = 7
LIMIT_MS = 20.0


def milliseconds(judgements: int, fresh: bool) -> list[float]:
    """Times of one judgement of a change each; fresh: with nothing read before but the vocabulary and the facts."""
    base = read(Request(bases=(str(DEMO / "base.settings"),), key_map=str(DEMO / "keymap.toml"))).profile
    facts, _ = load_facts([((DEMO / name).read_bytes(), name) for name in FACTS])
    fact_kinds()
    found = []
    for _ in range(judgements):
        if fresh:
            for cached in (materials._data, materials.materials, cautions.known_cautions):
                cached.cache_clear()
        start = time.process_time()  # of this process alone: the machine may be busy with others
        judge(base, base, facts)
        found.append((time.process_time() - start) * 1000)
    return found


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
    print(f"{len(CHECKS)} checks of one change, with cautions and figures; limit {LIMIT_MS:.0f} ms")
    for name, fresh in (("with materials and cautions read anew", True), ("again", False)):
        times = milliseconds(30, fresh)
        print(f"  {name:<40} median {statistics.median(times):6.2f} ms, slowest {max(times):6.2f} ms")
    mine, theirs, ratio = processes()
    print(
        f"  check as a process {mine * 1000:.0f} ms, derive without recipes {theirs * 1000:.0f} ms: "
        f"ratio {ratio:.2f}, at most 1.5"
    )


if __name__ == "__main__":
    main()
