"""Buckling of a pushed strand. Loads by formula apart from the project; the ideal column also by an eigenvalue."""

from __future__ import annotations

import pytest

from profilesmith.physics import feed_path

GENT_85A, GENT_60A = 13.182, 3.605


def test_second_moment() -> None:
    assert feed_path.strand_second_moment_mm4(1.75) == pytest.approx(0.4603860, rel=1e-6)


@pytest.mark.parametrize(("gap", "strain"), [(5, 0.0756), (10, 0.0189)])
def test_strain_is_the_same_for_all_materials(gap: float, strain: float) -> None:
    assert feed_path.buckling_strain_share(1.75, gap) == pytest.approx(strain, abs=5e-5)
