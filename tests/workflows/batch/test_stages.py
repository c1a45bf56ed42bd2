"""The benchmark of a batch's stages names functions of ours: whoever moves one is told here."""

from __future__ import annotations

import pytest

from tests.benchmarks.batch_stages import STAGES, _owner


@pytest.mark.parametrize(("name", "room", "attribute"), STAGES)
def test_a_stage_is_where_the_benchmark_looks_for_it(name: str, room: str, attribute: str) -> None:
    owner, last = _owner(room, attribute)
    assert callable(getattr(owner, last)), name
