"""Description lengths against a worked example.

The form is that of J. Rissanen, "Modeling by shortest data description", Automatica 14 (1978) 465 (cited from memory):
log2(kinds) + parameters * log2(grid) + exceptions * (log2 n + log2 grid). The numbers were worked out by hand from it.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilesmith.distil.bits import grid_of, list_bits, rule_bits
from profilesmith.vocabulary.setting import Vocabulary

FIVE_KINDS, STEPS, PAIRS = 5, 200, 6


@pytest.mark.parametrize(
    ("parameters", "exceptions", "bits"),
    [
        (1, 0, 9.965784),  # cap at 20: explains 60 -> 20, 40 -> 20 and 15 -> 15
        (1, 2, 30.42342),  # set to 20, with two pairs that were left below it
    ],
)
def test_rule(parameters: int, exceptions: int, bits: float) -> None:
    assert rule_bits(FIVE_KINDS, STEPS, PAIRS, parameters, exceptions) == pytest.approx(bits, abs=5e-6)


def test_plain_list() -> None:
    """Six values of 200 steps each, and no kind: 6 log2 200."""
    assert list_bits(STEPS, PAIRS) == pytest.approx(45.86314, abs=5e-6)


def test_grid_is_the_plausible_range_in_its_steps(vocabulary: Vocabulary) -> None:
    speed = vocabulary.settings["outer_wall.speed"]
    assert speed.low is not None
    assert speed.high is not None
    assert speed.step == Fraction(1, 10)
    assert grid_of(speed) == (speed.high - speed.low) * 10 + 1
    assert grid_of(vocabulary.settings["raft.on"]) == 2
    assert grid_of(vocabulary.settings["infill.pattern"]) == len(vocabulary.settings["infill.pattern"].values)
