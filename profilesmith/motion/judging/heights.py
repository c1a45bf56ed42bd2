"""Layer heights: from the levels at which something was laid."""

from collections import Counter
from itertools import pairwise

from profilesmith.motion.figures import Layer, Spot
from profilesmith.motion.judging.levels import laid_layers, part_layers, resumed, spiral, with_kind
from profilesmith.motion.judging.outcome import Case, Outcome, met, not_judged

SLACK_MM = 0.0006  # coordinates of three decimals


def first_layer_height(case: Case) -> Outcome:
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
    if with_kind(figures, "raft") or (case.switch("raft.on") and not figures.kinds_told):
        # Which first layer the setting means differs: the raft's own is a promise kept all the same.
        kept = figures.kinds_told and abs(layers[0].z - want) <= SLACK_MM
        return met(True, (layers[0].z,), "first-height") if kept else not_judged("over-raft", (layers[0].z,))
    if layers[0].sloped and spiral(figures) and len(layers) > 1 and layers[0].z == 0:
        return not_judged("spiral")
    return met(abs(layers[0].z - want) <= SLACK_MM, (layers[0].z,), "first-height", (_spot(layers[0]),))


def layer_height(case: Case) -> Outcome:
    layers = part_layers(case.figures)
    want = case.size("layer.height")
    assert want is not None
    if spiral(case.figures):
        return not_judged("spiral")
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
        return met(right, (usual,), code, tuple(map(_spot, odd[:3])), layers=len(layers), odd=len(odd), times=times)
    return not_judged("height-varies", (min(steps), max(steps)), layers=len(layers))


def _spot(layer: Layer) -> Spot:
    return Spot(layer.z, layer.line, layer.z)
