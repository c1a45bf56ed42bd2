"""What a motion file says only by the way, or not at all."""

from collections.abc import Callable

from profilesmith.motion.figures import PathSpot
from profilesmith.motion.judging.levels import laid_layers, quickest_layer, step_above_raft
from profilesmith.motion.judging.outcome import MotionCase, Outcome, met, not_judged


def silent(case: MotionCase) -> Outcome:
    """The software keeps it to itself."""
    return not_judged("not-in-file")


def acceleration(setting: str, kind: str) -> Callable[[MotionCase], Outcome]:
    """A hint: whether the file orders this acceleration at all."""

    def judge(case: MotionCase) -> Outcome:
        want, orders = case.size(setting), case.figures.accelerations.get(kind, ())
        assert want is not None
        if not orders:
            return not_judged("no-order")
        if any(abs(order - want) <= 0.005 * want for order in orders):
            return met(True, tuple(orders[:4]), "ordered")
        return not_judged("other-orders", tuple(orders[:4]))

    return judge


def least_layer_time(case: MotionCase) -> Outcome:
    """A hint: the quickest whole layer, as a bracket."""
    want, layers = case.size("layer.minimum_time"), laid_layers(case.figures)[1:]
    assert want is not None
    if not layers:
        return not_judged("one-layer")
    quickest = quickest_layer(layers)
    seen = (quickest.fast, quickest.slow)
    spots = (PathSpot(quickest.slow, quickest.line, quickest.z),)
    if quickest.fast >= want:
        return met(True, seen, "layer-time", spots)
    return not_judged("layer-time-open", seen)


def raft_gap(case: MotionCase) -> Outcome:
    """The step from the raft to the part is gap and first layer together."""
    if not case.figures.kinds_told:
        return not_judged("no-words")
    want, step = case.size("raft.gap"), step_above_raft(case.figures)
    assert want is not None
    if step is None:
        return not_judged("none-laid")
    heights = [case.size(name) for name in ("layer.height", "first_layer.height")]
    expected = [want + height for height in heights if height is not None]
    if any(abs(step - height) <= 0.0011 for height in expected):
        return met(True, (step,), "raft-step")
    return not_judged("raft-step-open", (step,))
