"""``python -m tests.benchmarks.library``: a library's check at several sizes, in ms for each derivation and core.

A derivation: a recipe on a profile that was read already, edits made, the new text read back and audited. Wanted: at
most 5 ms, and the same at every size. ``python -m tests.benchmarks.library 1000x100 --jobs 2`` checks one size. The
libraries are made up at random from a seed. "whole" has the lint of every file and the start of the processes in it, as
a user waits for them; "alone" has not.
"""

from __future__ import annotations

import argparse
import os
import random
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from profilesmith.foundation.number import decimal_text
from profilesmith.library.library import load_library
from profilesmith.lint.lint_library import lint_library
from profilesmith.lint.names import library_names
from profilesmith.recipe.tool import BORE
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting
from profilesmith.workflows.library.check import check_library
from profilesmith.workflows.library.checked import LibraryChecked
from profilesmith.workflows.library.trials import TrialSetup, begin
from profilesmith.workflows.parallel import cores

SEED = 11
SIZES = ("50x10", "100x20", "200x50")
DIALECTS = 5
OTHER_KEYS = 100  # keys of a text that its map does not name
RULES = 8
PAIR_SHARE = 0.1


def numeric() -> list[Setting]:
    return [
        item
        for item in load_vocabulary().settings.values()
        if item.is_number and item.kind not in ("temperature", "count")
    ]


def within(chance: random.Random, setting: Setting, low: float, high: float) -> str:
    """A number of the setting's plausible range, between two shares of it, on its step."""
    start, end, step = setting.low, setting.high, setting.step
    assert start is not None
    assert end is not None
    assert step is not None
    wanted = float(start) + (float(end) - float(start)) * chance.uniform(low, high)
    return decimal_text(max(start, round(wanted / float(step)) * step), 4)


def key_map(number: int) -> str:
    chance = random.Random(SEED + number)
    lines = [
        f'format = 1\n[keymap]\nname = "sheet-{number}"\n[text]\ncomments = [";"]\ndelimiter = "="\ndecimal = "."\n'
    ]
    for at, setting in enumerate(numeric()):
        if chance.random() < 0.75:
            unit = f'unit = "{setting.unit}"\n' if setting.unit else ""
            lines.append(f'[[binding]]\nsetting = "{setting.id}"\nkey = "key{at}"\n{unit}')
    return "".join(lines)


def profile(number: int) -> str:
    chance = random.Random(SEED * 1000 + number)
    lines = [f"key{at}={within(chance, setting, 0.1, 0.6)}" for at, setting in enumerate(numeric())]
    lines += [f"other{at}={chance.randint(0, 999)}" for at in range(OTHER_KEYS)]
    chance.shuffle(lines)
    return "; made up\n" + "\n".join(lines) + "\n"


def recipe(number: int, count: int) -> str:
    """A recipe of bounds, with an example that shows every rule at work."""
    chance = random.Random(SEED * 100_000 + number)
    friend = f'goes_with = ["recipe-{chance.randrange(count)}"]\n' if chance.random() < PAIR_SHARE else ""
    lines = [
        (
            f'format = 1\n[recipe]\nname = "recipe-{number}"\nversion = "1.0.0"\ntitle = "Made up"\n'
            f'licence = "CC0-1.0"\ncautions = ["Ventilate."]\n{friend}'
        )
    ]
    given, expected = [], []
    for setting in chance.sample([item for item in numeric() if item.id != BORE], RULES):  # no recipe sets that
        word, low, high, far = chance.choice((("cap", 0.5, 0.9, 1.0), ("raise_to", 0.05, 0.3, 0.0)))
        bound, beyond = within(chance, setting, low, high), within(chance, setting, far, far)
        when = 'when = { "machine.drive" = "direct" }\n' if chance.random() < 0.2 else ""
        lines.append(
            f'[[rule]]\nsetting = "{setting.id}"\n{word} = "{bound} {setting.unit}"\n'
            f'{when}why = "Made up to take time."\nsource = "common practice"\n'
        )
        given.append(f'"{setting.id}" = "{beyond} {setting.unit}"')
        expected.append(f'"{setting.id}" = "{bound} {setting.unit}"')
    example = (
        f'[[example]]\ngiven = {{ {", ".join(given)} }}\nfacts = {{ "machine.drive" = "direct" }}\n'
        f"expect = {{ {', '.join(expected)} }}\n"
    )
    return "".join([*lines, example])


def make(folder: Path, recipes: int, profiles: int) -> None:
    """Write a library of a size."""
    for part in ("recipes", "keymaps", "facts", "profiles"):
        (folder / part).mkdir()
    for number in range(DIALECTS):
        (folder / "keymaps" / f"sheet-{number}.toml").write_text(key_map(number))
    for drive in ("direct", "remote"):
        (folder / "facts" / f"{drive}.toml").write_text(
            f'format = 1\n[machine]\nname = "{drive}"\ndrive = "{drive}"\nacceleration = "1000 mm/s2"\n'
        )
    tables = ['format = 1\n[library]\nname = "made-up"\nlicence = "CC0-1.0"\n']
    for number in range(profiles):
        (folder / "profiles" / f"{number}.settings").write_text(profile(number))
        drive = ("direct", "remote")[number % 2]
        tables.append(
            f'[[profile]]\nname = "p{number}"\ntext = "profiles/{number}.settings"\n'
            f'keymap = "sheet-{number % DIALECTS}"\nfacts = ["{drive}"]\n'
        )
    (folder / "library.toml").write_text("".join(tables))
    for number in range(recipes):
        (folder / "recipes" / f"recipe-{number}.toml").write_text(recipe(number, recipes))


class Figures(NamedTuple):
    """waited: seconds on the clock for the whole check. Seconds of cores: whole, its start (profiles read), the lint
    alone.
    """

    report: LibraryChecked
    waited: float
    whole: float
    start: float
    lint: float


def measure(folder: Path, jobs: int) -> Figures:
    library, _ = load_library(folder)
    assert library is not None
    names = library_names(folder)
    start = core_seconds(lambda: begin(TrialSetup(str(folder), names)))
    lint = core_seconds(lambda: lint_library(library, False))
    reports: list[LibraryChecked] = []
    clock = time.perf_counter()
    whole = core_seconds(lambda: reports.append(check_library(folder, False, jobs, lambda done, total: None)))
    return Figures(reports[0], time.perf_counter() - clock, whole, start, lint)


def core_seconds(work: Callable[[], object]) -> float:
    """What this process and those that it started worked: other work on the machine is not counted."""
    before = sum(os.times()[:4])
    work()
    return sum(os.times()[:4]) - before


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.library")
    parser.add_argument("sizes", nargs="*", default=SIZES, help="such as 1000x100: recipes x profiles")
    parser.add_argument(
        "--jobs", type=int, default=1, help="processes; with one alone the figures show whether time is linear"
    )
    wanted = parser.parse_args()
    print(f"{'':<10} {'':>11} {'':>7} {'waited':>8} {'cores':>8} {'start':>7} {'lint':>7}  ms a derivation")
    print(
        f"{'size':<10} {'derivations':>11} {'errors':>7} {'s':>8} {'s':>8} {'s':>7} {'s':>7}  {'whole':>7} {'alone':>7}"
    )
    alone = []
    for size in wanted.sizes:
        recipes, profiles = map(int, size.split("x"))
        with tempfile.TemporaryDirectory() as name:
            make(Path(name), recipes, profiles)
            found = measure(Path(name), wanted.jobs)
        made = found.report.derivations
        alone.append((found.whole - found.lint - found.start * wanted.jobs) / made * 1000)
        line = (
            f"{size:<10} {made:>11,} {found.report.errors:>7} {found.waited:>8.1f} {found.whole:>8.1f} "
            f"{found.start:>7.2f} {found.lint:>7.1f}"
        )
        print(f"{line}  {found.whole / made * 1000:>7.2f} {alone[-1]:>7.2f}", flush=True)
    print(
        f"{wanted.jobs} processes on {cores()} cores. Linear when 'alone' is alike: largest / "
        f"smallest {max(alone) / min(alone):.2f}."
    )


if __name__ == "__main__":
    main()
