"""Print time: how many times as long the same path takes. A range; a narrower one when the moves' length is known."""

from profilesmith.checks.amounts import amount, between, size, switch
from profilesmith.checks.beads import Bead
from profilesmith.checks.case import Case, ask
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Finding
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.moves import layer_count_factor, mean_move_time_s, move_time_s, time_factor_bracket
from profilesmith.profile.profile import Profile

CHECK = "print-time"
LONG = 1.5  # own threshold; the caution on long prints has the same
SOURCE = (
    "bounds of the time of moves from rest to rest: own derivation; mean of trapezoidal moves: "
    "Biagiotti and Melchiorri "
    "2008, ch. 3, all of one length, and over lengths of the exponential law"
)
# What changes the path itself and is not counted.
PATHS = (
    "wall.count",
    "infill.density",
    "top.layers",
    "bottom.layers",
    "support.density",
    "support.on",
    "raft.on",
    "bead.width",
    "brim.on",
)


class FeaturePace(NamedTuple):
    """One feature before and after. accelerations: None where neither text nor facts tell one."""

    old: Bead
    new: Bead
    accelerations: tuple[float | None, float | None]


def check(case: Case) -> tuple[Finding, ...]:
    """None where a profile is judged alone, or where the two have no speed in common."""
    compared = paces(case)
    if not compared:
        return ()
    settings = tuple(pace.new.setting for pace in compared if pace.old.speed_mm_s != pace.new.speed_mm_s)
    whole = time_bracket(case)
    if whole is None:
        asked = ask("machine.acceleration")
        return (Finding(CHECK, "not judged", reason="accelerations-of-one-only", ask=asked, settings=settings),)
    mean, wait = mean_bracket(case), case.size("layer.minimum_time")
    return (
        Finding(
            CHECK,
            "note" if whole.high > LONG else "passed",
            reason="time-bracket",
            names=tuple(path_changes(case)),
            amounts=(
                *between("after", whole),
                *between("mean", mean if whole.high > 1 else None),
                *amount("mean-move", case.quantity("part.mean_segment_length"), "mm"),
                *amount("layer-time", wait if not case.before("layer.minimum_time") else None, "s"),
            ),
            source=SOURCE,
            settings=settings,
        ),
    )


def paces(case: Case) -> list[FeaturePace]:
    """The features that both profiles lay."""
    return case.once(_paces)


def _paces(case: Case) -> list[FeaturePace]:
    if case.derived is None:
        return []
    new = {bead.feature: bead for bead in case.laid.of(case.derived)}
    return [
        FeaturePace(old, new[old.feature], _accelerations(case, old.feature))
        for old in case.laid.of(case.base)
        if old.feature in new
    ]


def time_bracket(case: Case) -> Bracket | None:
    """Bounds for every mixture of features, travels and waits, thinner layers counted in.

    Where both were measured, theirs. They hold whether or not the slicing software keeps to the text's own flow
    flow limit. None where nothing can be compared, or where only one side's accelerations are known.
    """
    return case.once(_time_bracket)


def _time_bracket(case: Case) -> Bracket | None:
    before, after = case.measured.before.hours, case.measured.after.hours
    if case.measured.time_ratio is not None:
        return case.measured.time_ratio
    if before is not None and after is not None and before.low > 0:
        return after.over(before)
    factors = []
    for pace in paces(case):
        old, new = pace.accelerations
        if (old is None) != (new is None):
            return None
        for was, now in {(pace.old.speed_mm_s, pace.new.speed_mm_s), _held(case, pace)}:
            factors.append(time_factor_bracket(was, now, old or 1.0, new or 1.0))
    if not factors:
        return None
    return _times(spanning([*factors, *_travel(case), *_waiting(case)]), _layers(case))


def _held(case: Case, pace: FeaturePace) -> tuple[float, float]:
    """Both speeds, slowed to the flow limit of their own text where it has one."""
    limits = [size(side, "filament.maximum_flow") for _, side in case.sides]
    old, new = (
        min(bead.speed_mm_s, bead.speed_at(limit)) if limit else bead.speed_mm_s
        for bead, limit in zip((pace.old, pace.new), limits, strict=True)
    )
    return old, new


def _travel(case: Case) -> list[Bracket]:
    old, new = case.before("travel.speed"), case.size("travel.speed")
    if not old or not new:
        return []
    before, after = (size(side, "travel.acceleration") for _, side in case.sides)
    return [time_factor_bracket(old, new, before or after or 1.0, after or before or 1.0)]


def _waiting(case: Case) -> list[Bracket]:
    """Layers that are held to their least time: ``max(T', m') / max(T, m)`` lies between the ratios of both."""
    old, new = case.before("layer.minimum_time"), case.size("layer.minimum_time")
    return [Bracket(new / old, new / old)] if old and new else []


def mean_bracket(case: Case) -> Bracket | None:
    """From the least to the most slowed feature, for moves of the mean length that the facts tell.

    One end where every move stops at its corners (lengths scattered, or all alike), the other where none slows down
    there (curved parts).
    """
    length = case.quantity("part.mean_segment_length")
    if length is None:
        return None
    compared = paces(case)
    laws = (mean_factor, even_factor)
    factors = [factor for pace in compared for law in laws if (factor := law(pace, length)) is not None]
    passing = [old / new for pace in compared for old, new in (_held(case, pace),)]
    return _times(Bracket(min(*factors, *passing), max(*factors, *passing)), _layers(case)) if factors else None


def mean_factor(pace: FeaturePace, length: float) -> float | None:
    """The time factor of one feature for moves of this mean length [mm]; None without accelerations."""
    old, new = pace.accelerations
    if old is None or new is None:
        return None
    return mean_move_time_s(length, pace.new.speed_mm_s, new) / mean_move_time_s(length, pace.old.speed_mm_s, old)


def even_factor(pace: FeaturePace, length: float) -> float | None:
    """The same for moves that are all of this length."""
    old, new = pace.accelerations
    if old is None or new is None:
        return None
    after, before = move_time_s(length, pace.new.speed_mm_s, new), move_time_s(length, pace.old.speed_mm_s, old)
    return None if isinstance(after, NotValid) or isinstance(before, NotValid) else after / before


def path_changes(case: Case) -> list[str]:
    """The settings whose change changes the path itself."""
    if case.derived is None:
        return []
    unused = _unused(case)
    return [
        name
        for name in PATHS
        if name not in unused
        and name in case.base.entries
        and name in case.derived.entries
        and case.base.values(name) != case.derived.values(name)
    ]


def _unused(case: Case) -> set[str]:
    """Settings of supports that are off on both sides."""
    off = all(switch(side, "support.on") is False for _, side in case.sides)
    return {"support.density"} if off else set()


def _accelerations(case: Case, feature: str) -> tuple[float | None, float | None]:
    machine = case.quantity("machine.acceleration")
    old, new = (_acceleration(side, feature) or machine for _, side in case.sides)
    return old, new


def _acceleration(profile: Profile, feature: str) -> float | None:
    return size(profile, f"{feature}.acceleration") or size(profile, "print.acceleration")


def _layers(case: Case) -> float:
    """How many times as many layers the part has."""
    old, new = case.before("layer.height"), case.size("layer.height")
    return layer_count_factor(old, new) if old and new else 1.0


def _times(between: Bracket, factor: float) -> Bracket:
    return Bracket(between.low * factor, between.high * factor)
