"""With numpy or without: the same figures, to eleven digits."""

from __future__ import annotations

import pytest

from profilesmith.engine import judge_motion
from profilesmith.library.find import shipped
from profilesmith.motion import numpy_columns, plain_columns
from profilesmith.motion.columns import best_columns
from profilesmith.motion.figures import Figures
from profilesmith.motion.measure import measure
from profilesmith.physics.answer import Bracket
from profilesmith.review.render import render
from profilesmith.workflows.motion.check import MotionOrder, check
from tests.motion.generators.bench import Style, lay_part
from tests.motion.test_time import HEAD, walked


def numbers(figures: Figures) -> dict[object, float]:
    """All sums and times of a file, by what they are of."""
    found: dict[object, float] = {"fed": figures.fed}
    for name, bracket in figures.times._asdict().items():
        if isinstance(bracket, Bracket):
            found |= {(name, "low"): bracket.low, (name, "high"): bracket.high}
    for layer in figures.layers:
        for kind, held in layer.kinds.items():
            sums = (held.length, held.strand, held.fast, held.slow, held.top_speed, held.stretches, held.loops)
            found |= {(layer.z, kind, at): float(value) for at, value in enumerate(sums)}
    found |= {("flow", spot.kind, spot.z): spot.value for spot in figures.worst_flows}
    return found | {("pulls", length): float(times) for length, times in figures.pulls.lengths.items()}


WALK = HEAD + "".join(f"G1 X{x} Y{y} E0.1 F{v * 60:g}\n" for x, y, v in walked(5, 4000))


@pytest.mark.parametrize("text", [lay_part(style=Style(corners=40, wipe_mm=1.0)), WALK], ids=["part", "walk"])
def test_both_arithmetics_give_the_same(text: str) -> None:
    raw = text.encode()
    quick, plain = (numbers(measure([raw], columns=columns)) for columns in (numpy_columns, plain_columns))
    assert quick == pytest.approx(plain, rel=1e-11, abs=1e-12)


def test_numpy_is_taken_where_it_is() -> None:
    assert best_columns() is numpy_columns


def test_both_arithmetics_name_the_same_layer(monkeypatch: pytest.MonkeyPatch) -> None:
    """Many layers of the demo take the same time but for the last digits: a page without numpy names no other one."""
    demo = shipped() / "demo"
    pages = []
    for columns in (numpy_columns, plain_columns):
        monkeypatch.setattr(judge_motion, "best_columns", lambda found=columns: found)
        review = check(str(demo / "soft.motion"), MotionOrder("", str(demo / "words.toml")))
        pages.append(render(review, "page"))
    assert pages[0] == pages[1]
