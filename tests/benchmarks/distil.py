"""``python -m tests.benchmarks.distil [CASES [keep|follow]]``: how well hidden recipes are found again, and how fast.

(a) For 1 to 5 pairs of as many machines, a fifth of the cases each: the share in which the distilled recipe has the
same effect as the hidden one (``tests.distil.hidden.same_effect``) on every setting; and the same share counted by
setting, over the settings that hidden rules speak of. Every case is also replayed: the recipe must give every tuned
value. (b) Noise: bases and tuned values rounded to the file's decimals, one setting in twenty changed privately in each
pair. (c) Seconds of a whole process for 6 pairs of 150 keys. With keep or follow: (a) with some speeds as shares of
the outer wall's, which keep what they come to or follow.
"""

from __future__ import annotations

import random
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from profilesmith.distil.bits import grid_of
from profilesmith.distil.distil import distil
from profilesmith.distil.finding import Distilled
from profilesmith.distil.replay import replay
from profilesmith.distil.sample import world_of
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.distilled.as_rule import rule_of, tweak_rule
from tests.distil.hidden import NUMBERS, SWITCHES, VOCABULARY, Case, case, laws_by_setting, recipe_of, same_effect

CASES = 10_000
NOISY_PAIRS = (3, 5, 8)


def recipe_from(found: Distilled, sure: bool = False) -> Recipe:
    """The distilled recipe; sure: without its ambiguous rules."""
    kept = [item for item in found.findings if not (sure and item.doubts)]
    return recipe_of(
        "distilled", tuple(rule_of(item, number, len(found.samples), VOCABULARY) for number, item in enumerate(kept, 1))
    )


def reproduced(hidden: Case, found: Distilled, tweaks: bool) -> bool:
    """Whether the recipe gives every tuned value of every pair. tweaks: with those of each machine over it."""
    seen = [item for items in world_of(hidden.samples, VOCABULARY).seen.values() for item in items]
    recipes = [
        [recipe_from(found), *([tweaks_of(found, sample.machine)] if tweaks else [])] for sample in hidden.samples
    ]
    return replay(hidden.samples, recipes, seen, VOCABULARY).passed


def tweaks_of(found: Distilled, machine: str) -> Recipe:
    mine = [tweak for tweak in found.tweaks if tweak.machine == machine and tweak.fits]
    return recipe_of("tweaks", tuple(tweak_rule(tweak, number, VOCABULARY) for number, tweak in enumerate(mine, 1)))


def shares(cases: int, pairs: int, first: int = 0, way: str = "") -> Counter[str]:
    """Counts over some cases: whole recipes that are equal, settings of hidden rules, those found alike, replays
    passed.
    """
    counts: Counter[str] = Counter()
    for seed in range(first, first + cases):
        hidden = case(seed, pairs, way=way)
        found = distil(hidden.samples, VOCABULARY)
        recipe, sure = recipe_from(found), laws_by_setting(recipe_from(found, sure=True))
        same = {name: same_effect(recipe, hidden.recipe, name) for name in (*NUMBERS, *SWITCHES)}
        ruled = laws_by_setting(hidden.recipe)
        counts["cases"] += 1
        counts["equal"] += all(same.values())
        counts["settings"] += len(ruled)
        counts["found"] += sum(same[name] for name in ruled)
        counts["sure"] += len(sure)
        counts["sure and right"] += sum(same[name] for name in sure)
        counts["replayed"] += reproduced(hidden, found, tweaks=False)
        counts["with tweaks"] += reproduced(hidden, found, tweaks=True)
    return counts


def noisy(cases: int, pairs: int) -> Counter[str]:
    """Precision and recall of rules, setting by setting. shown: hidden rules that changed something in some pair."""
    counts: Counter[str] = Counter()
    for seed in range(cases):
        hidden = case(seed, pairs, noise=True)
        found = distil(hidden.samples, VOCABULARY)
        recipe = recipe_from(found)
        ruled, got = laws_by_setting(hidden.recipe), laws_by_setting(recipe)
        sure = laws_by_setting(recipe_from(found, sure=True))
        clean = case(seed, pairs, noise=False)
        shown = {
            name
            for name in ruled
            if any(sample.base.values(name) != sample.tuned.values(name) for sample in clean.samples)
        }
        right = {name for name in got if name in ruled and same_effect(recipe, hidden.recipe, name)}
        counts["rules"] += len(got)
        counts["right"] += len(right)
        counts["sure"] += len(sure)
        counts["sure and right"] += len(right & set(sure))
        counts["hidden"] += len(ruled)
        counts["shown"] += len(shown)
        counts["shown and right"] += len(right & shown)
    return counts


def percent(part: int, whole: int) -> str:
    return f"{100 * part / whole:5.1f} %" if whole else "    -"


def settings_file(keys: int, chance: random.Random, tuned: bool) -> tuple[str, str]:
    """A map and a text with the vocabulary's settings and other keys up to ``keys``."""
    bindings, lines = ['format = 1\n[keymap]\nname = "bench"\n[text]\non = "1"\noff = "0"\n'], []
    for number, setting in enumerate(VOCABULARY.settings.values()):
        bindings.append(f'[[binding]]\nsetting = "{setting.id}"\nkey = "k{number}"\n')
        if setting.kind == "choice":
            value = setting.values[0]
        elif setting.kind == "switch":
            value = "1" if tuned else "0"
        else:
            assert setting.low is not None
            assert setting.step
            steps = grid_of(setting) - 1
            drawn = setting.low + setting.step * chance.randint(steps // 20, steps // 4)
            cap = setting.low + setting.step * (steps // 8)
            value = f"{float(min(drawn, cap) if tuned else drawn):.3f}"
            value = value.rstrip("0").rstrip(".")
        lines.append(f"k{number} = {value}\n")
    lines += [f"other{number} = {chance.randint(0, 300)}\n" for number in range(keys - len(lines))]
    return "".join(bindings), "".join(lines)


def process_seconds(pairs: int = 6, keys: int = 150) -> float:
    """One whole run of the program, started anew."""
    with tempfile.TemporaryDirectory() as folder:
        words = []
        for number in range(pairs):
            for tuned in (False, True):
                key_map, text = settings_file(keys, random.Random(number), tuned)
                Path(folder, f"{number}{tuned}.cfg").write_text(text, encoding="utf-8")
                Path(folder, "map.toml").write_text(key_map, encoding="utf-8")
            words += ["--pair", f"{number}False.cfg", f"{number}True.cfg"]
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "profilesmith", "distil", *words, "--keymap", "map.toml", "-o", "r.toml", "-q"],
            cwd=folder,
            check=True,
        )
        return time.perf_counter() - start


def main(cases: int, way: str = "") -> None:
    each = max(1, cases // 5)
    told = f"; two of five speeds are shares: {way}" if way else ""
    print(f"(a) {cases} random cases, {each} for each number of pairs{told}")
    print(
        "pairs  whole recipe equal   hidden rules found   rules that are sure and right   replay passed   with tweaks"
    )
    for pairs in range(1, 6):
        got = shares(each, pairs, way=way)
        print(
            f"{pairs:5}  {percent(got['equal'], got['cases']):>18}   {percent(got['found'], got['settings']):>18}   "
            f"{percent(got['sure and right'], got['sure']):>29}   "
            f"{percent(got['replayed'], got['cases']):>13}   {percent(got['with tweaks'], got['cases']):>11}",
            flush=True,
        )
    if way:
        return
    noisy_cases = max(1, cases // 20)
    print(f"(b) noise, {noisy_cases} cases: rounded to the file's decimals, one setting in twenty changed privately")
    print("pairs  precision   precision of sure rules   recall of rules that were shown   recall of all")
    for pairs in NOISY_PAIRS:
        got = noisy(noisy_cases, pairs)
        print(
            f"{pairs:5}  {percent(got['right'], got['rules']):>9}   "
            f"{percent(got['sure and right'], got['sure']):>23}   "
            f"{percent(got['shown and right'], got['shown']):>31}   {percent(got['right'], got['hidden']):>13}",
            flush=True,
        )
    seconds = sorted(process_seconds() for _ in range(5))
    print(
        f"(c) 6 pairs of 150 keys, a whole process: median {seconds[2]:.2f} s of 5 runs "
        f"({seconds[0]:.2f} to {seconds[-1]:.2f}); wanted: below 2 s"
    )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else CASES, sys.argv[2] if len(sys.argv) > 2 else "")
