"""With numpy or without: the same figures, to the last digit."""

from __future__ import annotations

import pytest

from profilesmith.motion import numpy_columns, plain_columns
from profilesmith.motion.columns import best_columns
from profilesmith.motion.figures import Figures
from profilesmith.motion.measure import measure
from tests.motion.generators.bench import Style, lay_part
from tests.motion.test_time import HEAD, walked


def told(figures: Figures) -> tuple[object, ...]:
    layers = [
        (layer.z, kind, held.length, held.strand, held.fast, held.slow, held.top_speed, held.stretches, held.loops)
        for layer in figures.layers
        for kind, held in layer.kinds.items()
    ]
    return (layers, figures.times, figures.flows, figures.worst_flows, figures.fed, figures.pulls.lengths)


WALK = HEAD + "".join(f"G1 X{x} Y{y} E0.1 F{v * 60:g}\n" for x, y, v in walked(5, 4000))


@pytest.mark.parametrize("text", [lay_part(style=Style(corners=40, wipe_mm=1.0)), WALK], ids=["part", "walk"])
def test_both_arithmetics_give_the_same(text: str) -> None:
    raw = text.encode()
    assert told(measure([raw], columns=numpy_columns)) == told(measure([raw], columns=plain_columns))


def test_numpy_is_taken_where_it_is() -> None:
    assert best_columns() is numpy_columns
