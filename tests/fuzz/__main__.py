"""``python -m tests.fuzz``: random texts, maps, recipes, facts and ledgers, until something is raised that should not
be.

Findings are written to ``tests/cases/fuzz/<target>/``, where the suite runs them again: mend the fault, keep the file.
"""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path

from tests.fuzz.engine import Run
from tests.fuzz.jobs import runs
from tests.fuzz.targets.all_targets import TARGETS

FINDINGS = Path(__file__).parents[1] / "cases" / "fuzz"


def arguments(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument(
        "--target", action="append", choices=list(TARGETS), help="only this one; may be given several times"
    )
    parser.add_argument("--minutes", type=float, help="in all, shared by the targets in time (1 when nothing is said)")
    parser.add_argument("--executions", type=int, help="in all, shared by the targets in time")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=1, help="processes, each with a seed of its own")
    parser.add_argument(
        "--engine",
        choices=("own", "atheris"),
        default="own",
        help="atheris: guided by coverage, one target, when it is installed",
    )
    parser.add_argument("--keep", type=Path, default=FINDINGS, help="where findings are written")
    return parser.parse_args(words)


def main(words: list[str]) -> int:
    options = arguments(words)
    names = options.target or list(TARGETS)
    if options.engine == "atheris":
        from tests.fuzz.atheris_engine import run_atheris

        return run_atheris(TARGETS[names[0]], options)
    minutes = options.minutes if options.minutes is not None or options.executions is not None else 1.0
    seconds = None if minutes is None else minutes * 60
    begun = time.monotonic()
    made = runs(names, options.seed, options.jobs, options.executions, seconds, options.keep)
    for name in names:
        told(name, [run[name] for run in made])
    found = {finding.mark for run in made for one in run.values() for finding in one.findings}
    count = sum(one.executions for run in made for one in run.values())
    took = time.monotonic() - begun
    print(f"{'in all':<10} {count:>9,} executions in {took / 60:.1f} minutes, {len(found)} findings")
    return 1 if found else 0


def told(name: str, made: list[Run]) -> None:
    count, seconds = sum(run.executions for run in made), sum(run.seconds for run in made)
    findings = {finding.mark for run in made for finding in run.findings}
    print(
        f"{name:<10} {count:>9,} executions, {seconds:>7,.0f} s in all, {count / max(seconds, 1e-9):>6,.0f} a second,"
        f" {max(run.kept for run in made):>5} kinds of behaviour, {len(findings)} findings",
        flush=True,
    )


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
