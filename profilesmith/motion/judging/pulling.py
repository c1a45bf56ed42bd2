"""Pulls: on, length, speed, lift, and the travels without one."""

from collections import Counter

from profilesmith.motion.figures import PathSpot
from profilesmith.motion.judging.outcome import MotionCase, Outcome, met, not_judged

SLACK_MM = 0.0021
SLACK_MM_S = 0.011  # F without decimals
MOSTLY = 0.8


def pulls_on(case: MotionCase) -> Outcome:
    pulls, want = case.figures.pulls, case.switch("retraction.on")
    on = pulls.count > 0 or bool(case.figures.notes.get("G10"))
    if want and not on:
        bare = _missing(case)
        return met(False, (False,), "pulls-on", (bare,)) if bare else not_judged("no-long-travel")
    lines = [line for (what, _), line in pulls.first_line.items() if what == "length"]
    spots = (PathSpot(0.0, min(lines), 0.0),) if lines else ()
    return met(on == want, (on,), "pulls-on", spots, times=pulls.count)


def _missing(case: MotionCase) -> PathSpot | None:
    """A travel that should have had a pull, and the file has none at all."""
    bare, least = case.figures.pulls.longest_bare, case.size("retraction.minimum_travel") or 0.0
    on = case.figures.pulls.count or case.figures.notes.get("G10")
    return bare if bare is not None and bare.value > least and not on else None


def pull_length(case: MotionCase) -> Outcome:
    return _mostly(case, "retraction.distance", "length", case.figures.pulls.lengths, SLACK_MM)


def pull_speed(case: MotionCase) -> Outcome:
    if case.figures.pulls.count and not case.figures.pulls.speeds:
        return not_judged("all-wiped")
    return _mostly(case, "retraction.speed", "speed", case.figures.pulls.speeds, SLACK_MM_S)


def lift(case: MotionCase) -> Outcome:
    lifts, want = case.figures.pulls.lifts, case.size("retraction.lift")
    lifted: Counter[float] = Counter({height: times for height, times in lifts.items() if height > SLACK_MM})
    assert want is not None
    if not lifts:
        return met(True, (0.0,), "lift") if want <= SLACK_MM and not case.figures.pulls.count else not_judged("no-pull")
    if want <= SLACK_MM or not lifted:
        seen = lifted.most_common(1)[0][0] if lifted else 0.0
        return met(abs(seen - want) <= SLACK_MM, (seen,), "lift", _where(case, "lift", seen), times=lifts.total())
    return _mostly(case, "retraction.lift", "lift", lifted, SLACK_MM)


def _mostly(case: MotionCase, setting: str, what: str, counted: Counter[float], slack: float) -> Outcome:
    """All alike: exact. Most alike: by those, and the others are named. No such majority: not judged."""
    want = case.size(setting)
    assert want is not None
    if not counted and setting == "retraction.distance" and not want and not case.figures.notes.get("G10"):
        return met(True, (0.0,), "pull")
    if not counted and setting == "retraction.distance" and case.switch("retraction.on") and _missing(case):
        return met(False, (0.0,), "pull")
    if not counted:
        return not_judged("pulls-not-measured" if case.figures.notes.get("G10") else "no-pull")
    total = counted.total()
    usual, _ = counted.most_common(1)[0]
    near = sum(times for value, times in counted.items() if abs(value - usual) <= slack)
    if near < MOSTLY * total:
        return not_judged("pull-varies", (min(counted), max(counted)), times=total)
    right = abs(usual - want) <= slack
    if what == "lift":
        return met(right, (usual,), "lift", _where(case, what, usual), times=total, others=total - near)
    return met(right, (usual,), "pull", _where(case, what, usual), times=total, others=total - near)


def _where(case: MotionCase, what: str, value: float) -> tuple[PathSpot, ...]:
    line = case.figures.pulls.first_line.get((what, value))
    return (PathSpot(value, line, 0.0),) if line else ()


def least_travel(case: MotionCase) -> Outcome:
    """No travel longer than this is made without a pull. Inside the part software may leave pulls out on purpose."""
    want, pulls = case.size("retraction.minimum_travel"), case.figures.pulls
    assert want is not None
    if not pulls.count:
        return not_judged("no-pull")
    bare, pulled = pulls.longest_bare, pulls.shortest_pulled
    if pulled is not None and pulled.value < want - 0.01:
        return met(False, (pulled.value,), "pulled-short", (pulled,))
    if bare is not None and bare.value > want + 0.01:
        return not_judged("bare-travel", (bare.value,), line=bare.line)
    return met(True, (pulled.value if pulled else 0.0,), "pulled-short")
