"""How many times as long: the bracket held against ruckig, points against quadrature and a list worked out apart."""

from __future__ import annotations

import pytest
from hypothesis import given

from profilesmith.physics.answer import Bracket
from profilesmith.physics.moves import (
    layer_count_factor,
    time_factor_bracket,
)
from tests.physics import oracles
from tests.physics.ranges import accelerations, law, lengths, speeds

LENGTHS = (0.5, 1, 2, 5, 10, 20, 50)


def test_naive_bracket() -> None:
    assert time_factor_bracket(60, 20) == Bracket(1.0, 3.0)
    assert time_factor_bracket(20, 60) == Bracket(20 / 60, 1.0)
    assert time_factor_bracket(60, 60, 1000, 250) == Bracket(1.0, 2.0)
    assert time_factor_bracket(60, 60) == Bracket(1.0, 1.0)
    assert time_factor_bracket(60, 60, 250, 1000) == Bracket(0.5, 1.0)


@law
@given(lengths, speeds, speeds, accelerations, accelerations)
def test_another_acceleration_lies_in_the_bracket_too(d: float, v: float, w: float, a: float, b: float) -> None:
    bracket = time_factor_bracket(v, w, a, b)
    factor = oracles.move_time(d, w, b) / oracles.move_time(d, v, a)
    assert bracket.low * (1 - 1e-6) <= factor <= bracket.high * (1 + 1e-6)


def test_layers() -> None:
    assert layer_count_factor(0.2, 0.1) == pytest.approx(2.0)
