"""Walls, closing layers, supports, raft, brim, skirt: what the words map's kinds of line tell."""

from collections import Counter
from collections.abc import Callable

from profilesmith.motion.figures import Layer, spot_of
from profilesmith.motion.judging.levels import laid_layers, part_layers, with_kind
from profilesmith.motion.judging.outcome import MotionCase, Outcome, met, not_judged

MOSTLY = 0.6


def laid_or_not(setting: str, kind: str, always: bool) -> Callable[[MotionCase], Outcome]:
    """Judge of a switch. always: what is on is laid under every part; else only where the part asks for it."""

    def judge(case: MotionCase) -> Outcome:
        if not case.figures.kinds_told:
            return not_judged("no-words")
        want, layers = case.switch(setting), with_kind(case.figures, kind)
        if want and not layers and not always:
            return not_judged("none-needed")
        spots = (spot_of(layers[0]),) if layers else ()
        return met(bool(layers) == want, (bool(layers),), "laid", spots)

    return judge


def raft_layers(case: MotionCase) -> Outcome:
    if not case.figures.kinds_told:
        return not_judged("no-words")
    want, layers = case.size("raft.layers"), with_kind(case.figures, "raft")
    if not layers and want and case.switch("raft.on") is False:
        return not_judged("none-laid")
    return met(len(layers) == want, (float(len(layers)),), "count", tuple(map(spot_of, layers[:1])))


def walls(case: MotionCase) -> Outcome:
    """Inner loops to each outer loop, in most layers. Thin places get fewer, so that only the usual number counts."""
    if not case.figures.kinds_told:
        return not_judged("no-words")
    want = case.size("wall.count")
    counted: Counter[int] = Counter()
    for layer in part_layers(case.figures):
        outer, inner = layer.kinds.get("outer_wall"), layer.kinds.get("inner_wall")
        if outer is None or not outer.loops or outer.loops != outer.stretches:
            continue
        if inner is not None and inner.loops != inner.stretches:
            continue
        number, rest = divmod(inner.loops if inner else 0, outer.loops)
        if not rest:
            counted[1 + number] += 1
    if not counted:
        return not_judged("no-closed-walls")
    usual, times = counted.most_common(1)[0]
    if times < MOSTLY * len(part_layers(case.figures)):
        return not_judged("walls-vary", (float(min(counted)), float(max(counted))))
    return met(usual == want, (float(usual),), "count-mostly", layers=counted.total(), times=times)


def closing_below(case: MotionCase) -> Outcome:
    """Whole layers that close the part below: the run at its bottom."""
    return _closing(case, "bottom.layers", "bottom", part_layers(case.figures))


def closing_above(case: MotionCase) -> Outcome:
    return _closing(case, "top.layers", "top", part_layers(case.figures)[::-1])


def _closing(case: MotionCase, setting: str, kind: str, layers: list[Layer]) -> Outcome:
    if not case.figures.kinds_told:
        return not_judged("no-words")
    want = case.size(setting)
    assert want is not None
    kinds = {kind, "closing"}
    run = next((at for at, layer in enumerate(layers) if not kinds & layer.kinds.keys()), len(layers))
    more = sum(kind in layer.kinds for layer in layers[run:])
    if run == len(layers) and layers:
        return not_judged("closed-through", (float(run),))
    if more and run > want:
        return not_judged("closing-runs-on", (float(run),))
    spots = (spot_of(layers[min(run, len(layers) - 1)]),) if layers else ()
    return met(run == want, (float(run),), "count", spots)


def contact_layers(case: MotionCase) -> Outcome:
    """Runs of layers that hold contact lines; their usual length."""
    if not case.figures.kinds_told:
        return not_judged("no-words")
    want, layers = case.size("support.contact_layers"), laid_layers(case.figures)
    runs: list[int] = []
    run = 0
    for layer in layers:
        if "support_contact" in layer.kinds:
            run += 1
        elif run:
            runs.append(run)
            run = 0
    runs += [run] if run else []
    if not runs:
        return not_judged("none-laid")
    if len(set(runs)) > 1:
        return not_judged("runs-vary", (float(min(runs)), float(max(runs))))
    return met(runs[0] == want, (float(runs[0]),), "count")


def skirt(case: MotionCase) -> Outcome:
    if not case.figures.kinds_told:
        return not_judged("no-words")
    want, layers = case.size("skirt.loops"), with_kind(case.figures, "skirt")
    if not layers:
        return met(want == 0, (0.0,), "count")
    held = layers[0].kinds["skirt"]
    if held.loops != held.stretches:
        return not_judged("no-closed-loops", (float(held.loops),))
    return met(held.loops == want, (float(held.loops),), "count", (spot_of(layers[0]),))
