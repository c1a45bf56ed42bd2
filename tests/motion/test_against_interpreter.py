"""A few random programs against the rs274 interpreter, where it is there already; ``against_interpreter`` runs more."""

from __future__ import annotations

import pytest

from tests.motion.against_interpreter import NEEDED_MM, program, root_folder, worst_difference

ROOT = root_folder()


@pytest.mark.skipif(ROOT is None, reason="no rs274 interpreter here; see tests/motion/against_interpreter.py")
@pytest.mark.parametrize("seed", range(4))
def test_random_programs(seed: int) -> None:
    assert ROOT is not None
    assert worst_difference(program(seed), ROOT) <= NEEDED_MM
