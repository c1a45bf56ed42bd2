"""Layer heights: from the levels at which something was laid."""

from collections import Counter
from itertools import pairwise

from profilesmith.motion.figures import Layer, spot_of
from profilesmith.motion.judging.levels import laid_layers, part_layers, resumed, spiral, step_above_raft, with_kind
from profilesmith.motion.judging.outcome import MotionCase, Outcome, met, not_judged

SLACK_MM = 0.0006  # coordinates of three decimals
SLACK_STEP_MM = 0.0011  # of a step between two of them


def first_layer_height(case: MotionCase) -> Outcome:
    figures = case.figures
    layers = laid_layers(figures)
    if not layers:
        return not_judged("nothing-laid")
    if resumed(figures):
        return not_judged("resumed", (layers[0].z,))
    if any(axis == "Z" for axis, _ in figures.origins):
        return not_judged("origin-moved", (layers[0].z,))
    want = case.size("first_layer.height")
    assert want is not None
    if case.switch("raft.on") and not figures.kinds_told:
        return not_judged("over-raft", (layers[0].z,))
    if with_kind(figures, "raft"):
        return _over_raft(case, layers[0], want)
    if layers[0].sloped and spiral(figures) and len(layers) > 1 and layers[0].z == 0:
        return not_judged("spiral")
    return met(abs(layers[0].z - want) <= SLACK_MM, (layers[0].z,), "first-height", (spot_of(layers[0]),))


def _over_raft(case: MotionCase, lowest: Layer, want: float) -> Outcome:
    """Which layer is meant differs: the raft's lowest, or the part's above the gap. Either keeps the promise; where
    neither does and the part begins with a layer like all others, the setting may rest over rafts.
    """
    if abs(lowest.z - want) <= SLACK_MM:
        return met(True, (lowest.z,), "first-height")
    step, gap, height = step_above_raft(case.figures), case.size("raft.gap"), case.size("layer.height")
    if step is None or gap is None:
        return not_judged("over-raft", (lowest.z,))
    own = round(step - gap, 3)
    if abs(own - want) <= SLACK_STEP_MM:
        return met(True, (lowest.z,), "first-over-raft", above=own)
    if height is None or abs(own - height) <= SLACK_STEP_MM:
        return not_judged("over-raft", (lowest.z,))
    return met(False, (lowest.z,), "first-over-raft", (spot_of(lowest),), above=own)


def layer_height(case: MotionCase) -> Outcome:
    layers = part_layers(case.figures)
    want = case.size("layer.height")
    assert want is not None
    if spiral(case.figures):
        return _under_spiral(layers, want)
    steps = [round(b.z - a.z, 3) for a, b in pairwise(layers)]
    if not steps:
        return not_judged("one-layer" if layers else "nothing-laid")
    counted = Counter(steps)
    usual, times = counted.most_common(1)[0]
    odd = [layers[at + 1] for at, step in enumerate(steps) if abs(step - want) > SLACK_MM]
    share = times / len(steps)
    if len(counted) == 1 or share > 0.5:
        right = abs(usual - want) <= SLACK_MM
        code = "height" if len(counted) == 1 else "height-mostly"
        return met(right, (usual,), code, tuple(map(spot_of, odd[:3])), layers=len(layers), odd=len(odd), times=times)
    return not_judged("height-varies", (min(steps), max(steps)), layers=len(layers))


def _under_spiral(layers: list[Layer], want: float) -> Outcome:
    """Only the flat layers below a spiral lie a height apart; they may break the promise, but do not keep it for the
    rest.
    """
    flat = [layer for layer in layers if not layer.sloped]
    steps = [round(b.z - a.z, 3) for a, b in pairwise(flat)]
    wrong = [layer for step, layer in zip(steps, flat[1:], strict=True) if abs(step - want) > SLACK_MM]
    if not steps:
        return not_judged("spiral")
    if len(wrong) == len(steps) and len(set(steps)) == 1:
        return met(False, (steps[0],), "height-below-spiral", (spot_of(wrong[0]),), layers=len(flat))
    return not_judged("spiral-above", (min(steps), max(steps)) if len(set(steps)) > 1 else (steps[0],))
