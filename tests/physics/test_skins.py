"""Layers in whole numbers. Check values by counting in hundredths of a millimetre; also counted by decimal."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.skins import layers_for_same_thickness, layers_for_thickness, skin_thickness
from tests.physics import oracles
from tests.physics.ranges import law

F = Fraction
exact_heights = st.integers(1, 1000).map(lambda microns: F(microns, 1000))
counts = st.integers(0, 60)


@pytest.mark.parametrize(
    ("layers", "old", "new", "expected"),
    [(4, "0.20", "0.12", 7), (4, "0.2", "0.1", 8), (3, "0.28", "0.12", 7), (5, "0.2", "0.15", 7), (3, "0.2", "0.2", 3)],
)
def test_same_thickness(layers: int, old: str, new: str, expected: int) -> None:
    assert layers_for_same_thickness(layers, F(old), F(new)) == expected
    assert oracles.counted_layers(layers, old, new) == expected


def test_seven_thin_layers_are_thicker_than_four_were() -> None:
    assert skin_thickness(7, F("0.12")) == F("0.84")
    assert skin_thickness(4, F("0.12")) == F("0.48")


def test_first_layer_of_its_own_height() -> None:
    assert layers_for_thickness(F("0.8"), F("0.12"), F("0.24")) == 6
    assert skin_thickness(6, F("0.12"), F("0.24")) == F("0.84")
    assert layers_for_thickness(F("1.0"), F("0.12")) == 9  # 0.8 to be left and 0.2 to be sanded
    assert layers_for_thickness(F("0.1"), F("0.12"), F("0.24")) == 1
    assert layers_for_thickness(F(0), F("0.12")) == 0
    assert skin_thickness(0, F("0.12"), F("0.24")) == 0


def test_the_trap_of_floats() -> None:
    """Of 12 x 9 x 7 = 756 plain cases floats (IEEE 754) get 59 wrong; we get none wrong."""
    olds = ("0.06", "0.08", "0.1", "0.12", "0.15", "0.2", "0.24", "0.28", "0.3")
    cases = list(product(range(1, 13), olds, ("0.05", "0.06", "0.1", "0.12", "0.15", "0.2", "0.3")))
    expected = [oracles.counted_layers(*case) for case in cases]
    ours = [layers_for_same_thickness(n, F(old), F(new)) for n, old, new in cases]
    floats = [math.ceil(n * float(old) / float(new)) for n, old, new in cases]
    assert math.ceil(3 * 0.2 / 0.2) == 4
    assert ours == expected
    assert sum(a != b for a, b in zip(floats, expected, strict=True)) == 59


@law
@given(counts, exact_heights, exact_heights)
def test_as_thick_as_before_but_not_one_layer_more(layers: int, old: F, new: F) -> None:
    wanted = layers * old
    count = layers_for_same_thickness(layers, old, new)
    assert count * new >= wanted
    assert count == 0 or (count - 1) * new < wanted
    assert count == layers_for_thickness(wanted, new)
    assert layers_for_same_thickness(layers, old, old) == layers


@law
@given(exact_heights, exact_heights, st.integers(1, 5000).map(lambda microns: F(microns, 1000)))
def test_with_a_first_layer_too(height: F, first: F, thickness: F) -> None:
    count = layers_for_thickness(thickness, height, first)
    assert skin_thickness(count, height, first) >= thickness
    assert skin_thickness(count - 1, height, first) < thickness


@pytest.mark.parametrize("value", [0.2, "0.2", None])
def test_floats_are_refused(value: Any) -> None:
    with pytest.raises(TypeError, match="old_height must be a Fraction"):
        layers_for_same_thickness(3, value, F("0.2"))
    with pytest.raises(TypeError, match="thickness must be a Fraction"):
        layers_for_thickness(value, F("0.2"))
    with pytest.raises(TypeError, match="whole numbers"):
        layers_for_same_thickness(value, F("0.2"), F("0.2"))


def test_what_is_no_layer_is_refused() -> None:
    with pytest.raises(ValueError, match="-1 layers"):
        layers_for_same_thickness(-1, F("0.2"), F("0.2"))
    with pytest.raises(ValueError, match="new_height must be above zero"):
        layers_for_same_thickness(1, F("0.2"), F(0))
    with pytest.raises(ValueError, match="must not be below zero"):
        layers_for_thickness(F(-1), F("0.2"))
