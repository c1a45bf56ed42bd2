"""The section of laid beads. Its width follows only once the bead's shape is known: stadium or rectangle, both are
usual.
"""

from collections.abc import Callable, Iterable
from itertools import pairwise

from profilesmith.motion.figures import PREPARATION, KindSum
from profilesmith.motion.judging.levels import laid_layers, part_layers, with_kind
from profilesmith.motion.judging.outcome import MotionCase, Outcome, met, not_judged
from profilesmith.physics.bead import bead_area_mm2, filament_area_mm2

SLACK_MM = 0.0011  # of a step between layers
SLACK = 0.03  # rounding of E, corners, the start and end of lines


def section_of(setting: str, kinds: Iterable[str]) -> Callable[[MotionCase], Outcome]:
    """Judge of a bead's width in the layers above the first."""
    wanted = frozenset(kinds)

    def judge(case: MotionCase) -> Outcome:
        if not case.figures.kinds_told:
            return not_judged("no-words")
        layers, height = part_layers(case.figures), case.size("layer.height")
        steps = [after.z - before.z for before, after in pairwise(layers)]
        if height is not None and any(abs(step - height) > SLACK_MM for step in steps):
            return not_judged("height-varies", (min(steps), max(steps)))
        sums = [held for layer in layers[1:] for kind, held in layer.kinds.items() if kind in wanted]
        return _section(case, setting, sums, case.size("layer.height"))

    return judge


def first_layer_section(case: MotionCase) -> Outcome:
    if not case.figures.kinds_told:
        return not_judged("no-words")
    layers = laid_layers(case.figures)
    if with_kind(case.figures, "raft"):
        return not_judged("over-raft")
    kinds = layers[0].kinds.items() if layers else ()
    sums = [held for kind, held in kinds if kind not in (PREPARATION, "skirt", "brim")]
    return _section(case, "first_layer.bead_width", sums, case.size("first_layer.height"))


def _section(case: MotionCase, setting: str, sums: list[KindSum], height: float | None) -> Outcome:
    """The mean over all of them, against both shapes of the promised bead."""
    width, share = case.size(setting), (case.size("bead.flow") or 100.0) / 100.0
    length = sum(held.length for held in sums)
    assert width is not None
    if not length:
        return not_judged("none-laid")
    seen = sum(held.strand for held in sums) / length * filament_area_mm2(case.filament_mm)
    if height is None or width < height:
        return not_judged("no-height", (seen,))
    low, high = bead_area_mm2(width, height) * share, width * height * share
    right = low * (1 - SLACK) <= seen <= high * (1 + SLACK)
    return met(right, (seen,), "section", low=low, high=high)
