"""Speeds and flow, one-sided: software slows down on its own, so that only "nothing is faster than" can be said."""

from collections.abc import Callable

from profilesmith.motion.figures import PREPARATION, KindSum, Layer, PathSpot
from profilesmith.motion.judging.levels import laid_layers, part_layers, resumed, with_kind
from profilesmith.motion.judging.outcome import MotionCase, Outcome, met, not_judged
from profilesmith.physics.bead import filament_area_mm2

# F without decimals is off by half a unit a minute: 0.0083 mm/s.
SLACK_MM_S = 0.011
# A millimetre of path, by coordinates of three decimals and E of five.
SLACK_FLOW = 0.01


def laying_speed(setting: str, kind: str) -> Callable[[MotionCase], Outcome]:
    """Judge of one kind of line, above the first layer, which has a speed of its own."""

    def judge(case: MotionCase) -> Outcome:
        return _speed(case, setting, kind)

    return judge


def _speed(case: MotionCase, setting: str, kind: str) -> Outcome:
    if not case.figures.kinds_told:
        return not_judged("no-words")
    want = case.size(setting)
    assert want is not None
    layers = laid_layers(case.figures)
    above = layers if kind == "raft" else layers[1:]
    sums = [(layer.kinds[kind], layer) for layer in above if kind in layer.kinds]
    if kind in ("top", "bottom"):
        sums += _closing(layers, kind, above)
    if not sums:
        return not_judged("none-laid")
    return _fastest(sums, want)


def _closing(layers: list[Layer], kind: str, above: list[Layer]) -> list[tuple[KindSum, Layer]]:
    """Closing layers that one remark names above and below: those of the run at that end."""
    order = layers if kind == "bottom" else layers[::-1]
    run = next((at for at, layer in enumerate(order) if "closing" not in layer.kinds), len(order))
    return [(layer.kinds["closing"], layer) for layer in order[:run] if layer in above]


def _fastest(sums: list[tuple[KindSum, Layer]], want: float) -> Outcome:
    held, layer = max(sums, key=lambda item: item[0].top_speed)
    fast = len({layer.z for item, layer in sums if item.top_speed > want + SLACK_MM_S})
    spot = PathSpot(held.top_speed, held.top_line, layer.z)
    return met(
        held.top_speed <= want + SLACK_MM_S, (held.top_speed,), "no-faster", (spot,), layers=len(sums), fast=fast
    )


def first_layer_speed(case: MotionCase) -> Outcome:
    want = case.size("first_layer.speed")
    assert want is not None
    layers = laid_layers(case.figures)
    if not layers or resumed(case.figures):
        return not_judged("resumed" if layers else "nothing-laid")
    if with_kind(case.figures, "raft"):
        return _over_raft(case, layers, want)
    return _fastest(_sums(layers[0]), want) if _sums(layers[0]) else not_judged("nothing-laid")


def _sums(layer: Layer) -> list[tuple[KindSum, Layer]]:
    return [(held, layer) for kind, held in layer.kinds.items() if kind != PREPARATION]


def _over_raft(case: MotionCase, layers: list[Layer], want: float) -> Outcome:
    """Which layer is meant differs: the raft's lowest, or the part's. Kept where neither is faster, broken where
    both are.
    """
    lowest = [layer for layer in part_layers(case.figures) if layer.z > with_kind(case.figures, "raft")[-1].z][:1]
    outcomes = [_fastest(_sums(layer), want) for layer in (layers[0], *lowest) if _sums(layer)]
    if len(outcomes) == 2 and len({outcome.verdict for outcome in outcomes}) == 1:
        return max(outcomes, key=lambda outcome: outcome.seen)
    return not_judged("over-raft", tuple(sorted({outcome.seen[0] for outcome in outcomes})))


def travel_speed(case: MotionCase) -> Outcome:
    want, spot = case.size("travel.speed"), case.figures.travel_speed
    assert want is not None
    if spot is None:
        return not_judged("no-travel")
    return met(spot.value <= want + SLACK_MM_S, (spot.value,), "travel", (spot,))


def flow(case: MotionCase) -> Outcome:
    """The largest mean over 1 mm of path, against what the melt keeps up with."""
    want = case.size("filament.maximum_flow")
    assert want is not None
    area = filament_area_mm2(case.filament_mm)
    worst = [spot._replace(value=spot.value * area) for spot in case.figures.worst_flows if spot.kind != PREPARATION]
    if not worst:
        return not_judged("nothing-laid")
    over = [spot for spot in worst if spot.value > want * (1 + SLACK_FLOW)]
    return met(not over, (worst[0].value,), "flow", tuple(over or worst[:1]))
