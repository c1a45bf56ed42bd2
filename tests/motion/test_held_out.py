"""Files of generators by other hands, who had not seen the reader. What is asked of them is the issue's own table."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from typing import Any, NamedTuple

import pytest

from profilesmith.motion.figures import Figures
from profilesmith.motion.judging.judge import JUDGES, certainties, judge
from profilesmith.motion.measure import measure
from profilesmith.motion.practice import Practice
from profilesmith.physics.bead import filament_area_mm2
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Value
from tests.motion.generators import quay, weir


class Made(NamedTuple):
    """One file, and what was really laid. truth: as ``generators/README.md`` says; open: what the file alone cannot
    tell.
    """

    text: str
    truth: dict[str, Any]
    open: tuple[str, ...] = ()


NAMES = [*(f"quay {name}" for name, _ in quay.JOBS), *(f"weir {name}" for name, _ in weir.JOBS)]


def _made() -> Iterator[tuple[str, Made]]:
    for name, job in quay.JOBS:
        made = quay.make(job)
        yield f"quay {name}", Made(made.text, made.truth)
    for name, other in weir.JOBS:
        text, truth = weir.make(other)
        yield f"weir {name}", Made(text, truth._asdict(), truth.open)


@cache  # not at import, which every process of a run does for every file
def made_files() -> dict[str, Made]:
    return dict(_made())


@cache
def figures(name: str) -> Figures:
    words = made_files()[name].truth["words"]
    return measure([made_files()[name].text.encode()], Practice(lines={says: kind for kind, says in words.items()}))


def promises(name: str) -> dict[str, Value]:
    settings = made_files()[name].truth["settings"]
    return {
        setting: value if isinstance(value, bool | str) else Fraction(str(value)).limit_denominator(10_000)
        for setting, value in settings.items()
    }


@pytest.mark.parametrize("name", NAMES)
def test_a_clean_file_has_no_false_finding(name: str) -> None:
    judged = judge(figures(name), promises(name))
    assert [(item.setting, item.outcome) for item in judged if item.outcome.verdict == "found"] == []


def test_at_least_95_percent_are_judged() -> None:
    """Of what a motion file can tell at all."""
    counted = Counter(
        item.outcome.verdict != "not judged"
        for name, made in made_files().items()
        for item in judge(figures(name), promises(name))
        if item.setting in JUDGES and item.setting not in made.open
    )
    assert counted[True] / counted.total() >= 0.95


@pytest.mark.parametrize("name", NAMES)
def test_an_exact_setting_wrong_by_one_step_is_found(name: str) -> None:
    right = {item.setting: item for item in judge(figures(name), promises(name))}
    vocabulary = load_vocabulary()
    for setting, item in right.items():
        step = vocabulary.settings[setting].step
        value = promises(name)[setting]
        if (
            setting in made_files()[name].open
            or certainties()[setting].name != "exact"
            or item.outcome.verdict == "not judged"
            or step is None
        ):
            continue
        for wrong in (value + step, value - step):  # type: ignore[operator]
            if not isinstance(wrong, Fraction) or wrong <= 0:
                continue
            got = {one.setting: one for one in judge(figures(name), {**promises(name), setting: wrong})}
            outcome = got[setting].outcome
            # Over a raft it is open which first layer is meant, and where pulls are off their length: never passed.
            assert outcome.verdict == "found" or outcome.code in ("over-raft", "no-pull"), f"{setting} {wrong}"


@pytest.mark.parametrize("name", NAMES)
def test_filament_speeds_and_flow(name: str) -> None:
    truth, seen = made_files()[name].truth, figures(name)
    assert seen.fed == pytest.approx(truth["filament_mm"], rel=1e-4)
    for says, fastest in truth["fastest"].items():
        kinds = [kind for kind, told in truth["words"].items() if kind == says or told.endswith(f": {says}")]
        top = max(layer.kinds[kind].top_speed for kind in kinds for layer in seen.layers if kind in layer.kinds)
        assert top >= fastest - 0.01
    diameter = truth["settings"].get("filament.diameter", 1.75)
    flow = max(spot.value for spot in seen.flows.values()) * filament_area_mm2(diameter)
    assert flow == pytest.approx(truth["flow_peak"], rel=0.01)
    assert flow >= truth["flow_peak"] * (1 - 1e-4)  # E of five decimals
