"""Small pairs that a person can check at a glance, and what is distilled of them, in the words of a recipe."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from profilesmith.distil.distil import distil
from profilesmith.distil.finding import Distilled, DistilledRule
from profilesmith.distil.sample import Sample
from profilesmith.facts.facts import Fact, FactValue
from profilesmith.foundation.place import Place
from profilesmith.profile.profile import Entry, Grid, Origin, Profile
from profilesmith.review.distilled.write_recipe import law_text
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Value

VOCABULARY = load_vocabulary()
Numbers = Mapping[str, float | bool | str]


def profile(values: Numbers) -> Profile:
    entries = {}
    for name, number in values.items():
        value: Value = number if isinstance(number, bool | str) else Fraction(str(number))
        setting = VOCABULARY.settings[name]
        grid = Grid(setting.step or Fraction(0), whole=setting.kind == "count")
        entries[name] = Entry(name, (value,), Origin("", 0, "", ""), (grid,))
    return Profile(entries, {}, {})


def pair(
    base: Numbers, tuned: Numbers, machine: str = "one", facts: Mapping[str, FactValue] | None = None, written: str = ""
) -> Sample:
    known = {name: Fact(value, Place()) for name, value in (facts or {}).items()}
    steps = dict.fromkeys(tuned, (Fraction(written),)) if written else {}
    return Sample(machine, machine, profile(base), profile(tuned), known, steps)


def on(setting: str, *changes: tuple[float, float], machines: int = 9) -> list[Sample]:
    """Pairs in which one setting goes from one number to another, each of a machine of its own."""
    return [
        pair({setting: before}, {setting: after}, f"m{number % machines}")
        for number, (before, after) in enumerate(changes)
    ]


def find(samples: list[Sample]) -> Distilled:
    return distil(samples, VOCABULARY)


def laws(found: Distilled) -> list[tuple[str, str]]:
    return [(", ".join(item.named), law_text(item.law, item.settings[0], VOCABULARY)) for item in found.findings]


def only(found: Distilled) -> DistilledRule:
    assert len(found.findings) == 1
    return found.findings[0]
