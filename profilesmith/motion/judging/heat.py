"""Temperatures and fan: as ordered while each layer was laid."""

from collections.abc import Callable

from profilesmith.motion.figures import Extremes, Layer, PathSpot
from profilesmith.motion.judging.levels import laid_layers, resumed
from profilesmith.motion.judging.outcome import MotionCase, Outcome, met, not_judged

SLACK_C = 0.05
# A duty byte has 255 steps: half of one is 0.2 %.
SLACK_FAN = 0.25

Pick = Callable[[Layer], Extremes]


def nozzle(case: MotionCase) -> Outcome:
    return _later(case, "nozzle.temperature", lambda layer: layer.nozzle)


def bed(case: MotionCase) -> Outcome:
    return _later(case, "bed.temperature", lambda layer: layer.bed)


def first_nozzle(case: MotionCase) -> Outcome:
    return _first(case, "first_layer.nozzle_temperature", lambda layer: layer.nozzle)


def first_bed(case: MotionCase) -> Outcome:
    return _first(case, "first_layer.bed_temperature", lambda layer: layer.bed)


def _first(case: MotionCase, setting: str, pick: Pick) -> Outcome:
    layers = laid_layers(case.figures)
    if not layers or resumed(case.figures):
        return not_judged("resumed" if layers else "nothing-laid")
    return _held(case, setting, layers[:1], pick)


def _later(case: MotionCase, setting: str, pick: Pick) -> Outcome:
    layers = laid_layers(case.figures)
    if len(layers) < 2:
        return not_judged("one-layer" if layers else "nothing-laid")
    return _held(case, setting, layers[1:], pick)


def _held(case: MotionCase, setting: str, layers: list[Layer], pick: Pick) -> Outcome:
    """All of these layers at one temperature; where they differ, the promised one must be the only one after a
    change.
    """
    want = case.size(setting)
    assert want is not None
    known = [layer for layer in layers if pick(layer).low is not None]
    if not known:
        return not_judged("no-heat-word")
    wrong = [layer for layer in known if _off(pick(layer), want) > SLACK_C]
    lows, highs = [pick(layer).low or 0.0 for layer in known], [pick(layer).high or 0.0 for layer in known]
    seen = (min(lows),) if min(lows) == max(highs) else (min(lows), max(highs))
    spots = tuple(PathSpot(pick(layer).high or 0.0, layer.line, layer.z) for layer in wrong[:3])
    return met(not wrong, seen, "heat", spots, layers=len(known), wrong=len(wrong))


def _off(held: Extremes, want: float) -> float:
    return max(abs((held.low or 0.0) - want), abs((held.high or 0.0) - want))


def chamber(case: MotionCase) -> Outcome:
    want, layers = case.size("chamber.temperature"), laid_layers(case.figures)
    highs = [layer.chamber.high for layer in layers if layer.chamber.high is not None]
    assert want is not None
    if not highs:
        return not_judged("no-heat-word")
    return met(max(highs) <= want + SLACK_C, (max(highs),), "at-most")


def fan_off(case: MotionCase) -> Outcome:
    """How many layers at the bottom were laid without any fan."""
    want, layers = case.size("fan.off_layers"), laid_layers(case.figures)
    assert want is not None
    if not layers or resumed(case.figures):
        return not_judged("resumed" if layers else "nothing-laid")
    off = next((at for at, layer in enumerate(layers) if layer.fan.high), None)
    if off is None:
        silent = case.size("fan.power") == 0 or want >= len(layers)
        return not_judged("fan-never-on", (0.0,)) if silent else met(False, (float(len(layers)),), "fan-off")
    return met(off == want, (float(off),), "fan-off", (PathSpot(float(off), layers[off].line, layers[off].z),))


def fan(case: MotionCase) -> Outcome:
    """Exact where it never changes after the first layers; else a bound."""
    want, layers = case.size("fan.power"), _cooled(case)
    assert want is not None
    if not layers:
        return not_judged("no-cooled-layer")
    highs = [layer.fan.high or 0.0 for layer in layers]
    most = max(highs)
    place = layers[highs.index(most)]
    spots = (PathSpot(most, place.line, place.z),)
    steady = most - min(layer.fan.low or 0.0 for layer in layers) <= SLACK_FAN
    if steady:
        least = case.size("fan.minimum_power")
        if abs(most - want) > SLACK_FAN and least is not None and abs(most - least) <= SLACK_FAN:
            return not_judged("fan-at-least", (most,))
        return met(abs(most - want) <= SLACK_FAN, (most,), "fan", spots, layers=len(layers))
    bridges = case.size("bridge.fan")
    limit = max(want, bridges) if bridges is not None else want
    return met(most <= limit + SLACK_FAN, (min(highs), most), "fan-at-most", spots, layers=len(layers))


def fan_least(case: MotionCase) -> Outcome:
    """No layer above the first ones is cooled with less."""
    want, layers = case.size("fan.minimum_power"), _cooled(case)
    assert want is not None
    if not layers:
        return not_judged("no-cooled-layer")
    highs = [layer.fan.high or 0.0 for layer in layers]
    least = min(highs)
    place = layers[highs.index(least)]
    return met(least >= want - SLACK_FAN, (least,), "fan-at-least", (PathSpot(least, place.line, place.z),))


def _cooled(case: MotionCase) -> list[Layer]:
    """Layers above those without fan, and above the one in which it starts."""
    layers = laid_layers(case.figures)
    off = next((at for at, layer in enumerate(layers) if layer.fan.high), len(layers))
    if off == len(layers):
        return layers[int(case.size("fan.off_layers") or 0) :]
    started = layers[off].fan
    return layers[off + 1 :] if started.low != started.high else layers[off:]
