"""All demands on one number, for one tool: bounds are intersected, the target goes to the nearest point inside.

Pure, and free of order except for aims. Comes in: the present value, what can be written, the demands with who
makes them. Goes out: the value, and for each demand a verdict.
"""

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import less
from profilesmith.ledger import NoteCode, Status
from profilesmith.profile.profile import Grid
from profilesmith.recipe.operations import Demand

FINER = 10**6
"""How much finer than its own habit a text may be written where one exact value is asked: six more decimals."""


class Verdict(NamedTuple):
    """What became of one demand. by: the index of the demand that decided instead, None for none."""

    status: Status
    by: int | None = None
    note: NoteCode | None = None


KEPT = Verdict("kept")


class Combined(NamedTuple):
    """value: the result. conflict: the indices of a lower and an upper bound that do not meet, or ().

    by: the index of the bound that the target was drawn inside of, None for none.
    by_hand: no number that the text can hold lies inside the bounds; ``value`` is what is wanted, and is not written.
    """

    value: Fraction
    verdicts: tuple[Verdict, ...]
    conflict: tuple[int, ...] = ()
    by: int | None = None
    by_hand: bool = False


class _Bounds(NamedTuple):
    low: Fraction | None
    low_by: int | None
    high: Fraction | None
    high_by: int | None

    def holds(self, value: Fraction) -> bool:
        return not (self.low is not None and less(value, self.low)) and not (
            self.high is not None and less(self.high, value)
        )

    def is_low(self, value: Fraction) -> bool:
        """Whether one of the lower bounds is the one that counts."""
        return self.low is not None and not less(value, self.low)

    def is_high(self, value: Fraction) -> bool:
        """The same of an upper one."""
        return self.high is not None and not less(self.high, value)

    def clamp(self, value: Fraction) -> tuple[Fraction, int | None]:
        """The nearest point inside, and whose bound that is."""
        if self.low is not None and less(value, self.low):
            return self.low, self.low_by
        return (self.high, self.high_by) if self.high is not None and less(self.high, value) else (value, None)


def _intersect(demands: Sequence[Demand]) -> _Bounds:
    low = high = low_by = high_by = None
    for index, demand in enumerate(demands):
        if demand.low is not None and (low is None or less(low, demand.low)):
            low, low_by = demand.low, index
        if demand.high is not None and (high is None or less(demand.high, high)):
            high, high_by = demand.high, index
    return _Bounds(low, low_by, high, high_by)


def combine(
    present: Fraction | None, grid: Grid, asked: Sequence[Demand], anew: bool = False, limits: Sequence[Demand] = ()
) -> Combined | None:
    """Combine demands in the order of recipes. None: there is no target (no present value and no aim).

    anew: the present value has to be written once more, on a grid that may not hold it.
    limits: those of the vocabulary and the machine, bounds like any other; nobody is told what became of them.
    """
    demands = (*asked, *limits)
    bounds = _intersect(demands)
    if bounds.low is not None and bounds.high is not None and less(bounds.high, bounds.low):
        return _not_together(bounds.low, bounds, demands)
    target, aim_by = _target(present, demands, bounds)
    if target is None:
        return None
    value, by = bounds.clamp(target)
    moves = present is None or (value is not present and value != present)
    if moves or anew:
        written = _written(value, grid, bounds, demands)
        if written is None and grid.whole:  # no whole number lies between them
            return _not_together(value, bounds, demands)
        if written is None:
            return Combined(value, (Verdict("by hand"),) * len(demands), by_hand=True)
        value, moves = written, present is None or written != present
    verdicts = tuple([_verdict(index, demands, present, value, moves, bounds, aim_by) for index in range(len(asked))])
    return Combined(value, verdicts, by=by)


def _not_together(wanted: Fraction, bounds: _Bounds, demands: Sequence[Demand]) -> Combined:
    """The conflict of the lowest and the highest bound. wanted: a number that would meet one of them at least."""
    clashing = tuple(index for index in (bounds.low_by, bounds.high_by) if index is not None)
    verdicts = tuple(Verdict("refused" if index in clashing else "kept") for index in range(len(demands)))
    return Combined(wanted, verdicts, clashing)


def _target(present: Fraction | None, demands: Sequence[Demand], bounds: _Bounds) -> tuple[Fraction | None, int | None]:
    """Where the value is drawn to: the last aim, else base times and plus; and which aim that is."""
    aims = [index for index, demand in enumerate(demands) if demand.aim is not None]
    if aims:
        aim = demands[aims[-1]].aim
        return (aim if isinstance(aim, Fraction) else None), aims[-1]
    if present is None:
        exact = bounds.low is not None and bounds.low == bounds.high
        return (bounds.low if exact else None), None
    target, steps = present, [demand.plus for demand in demands if demand.plus is not None]
    for demand in demands:
        if demand.times is not None:
            target *= demand.times
    return target + sum(steps) if steps else target, None


def _written(value: Fraction, grid: Grid, bounds: _Bounds, demands: Sequence[Demand]) -> Fraction | None:
    """The number that the text can hold: inside the bounds, or the nearest when one exact value is asked.

    Such a nearest number may miss the exact one, but passes no bound of another rule. None: there is none inside.
    """
    if bounds.low is not None and bounds.low == bounds.high:
        fine = grid if grid.whole else Grid(grid.step / FINER, grid.zero)
        if fine.nearest(value) == value:
            return value
        others = _intersect([demand for demand in demands if demand.low is None or demand.low != demand.high])
        return grid.inside(value, others.low, others.high)
    return grid.inside(value, bounds.low, bounds.high)


def _is_met(demand: Demand, present: Fraction) -> bool:
    """Whether a value lies inside the bounds of one demand."""
    too_low = demand.low is not None and less(present, demand.low)
    return not too_low and not (demand.high is not None and less(demand.high, present))


def _verdict(
    index: int,
    demands: Sequence[Demand],
    present: Fraction | None,
    value: Fraction,
    moves: bool,
    bounds: _Bounds,
    aim_by: int | None,
) -> Verdict:
    """moves: whether the value becomes another one."""
    demand = demands[index]
    if demand.aim is not None and aim_by is not None:
        return _aim_verdict(index, demands, moves, bounds, aim_by)
    if demand.times is not None or demand.plus is not None:
        if aim_by is not None:
            return Verdict("overruled", aim_by, "aim instead")
        return Verdict("changed" if moves else "kept")
    if present is not None and _is_met(demand, present):
        return KEPT
    if not moves:  # an exact value that the text cannot hold any closer
        return Verdict("kept", note="nearest held")
    if demand.low is not None and bounds.is_low(demand.low) and (present is None or less(present, demand.low)):
        return Verdict("changed")
    if demand.high is not None and bounds.is_high(demand.high) and (present is None or less(demand.high, present)):
        return Verdict("changed")
    raised = present is not None and less(present, value)
    by = aim_by if aim_by is not None else bounds.low_by if raised else bounds.high_by
    return Verdict("overruled", by, "stricter")


def _aim_verdict(index: int, demands: Sequence[Demand], moves: bool, bounds: _Bounds, aim_by: int) -> Verdict:
    aim = demands[index].aim
    if aim != demands[aim_by].aim:
        return Verdict("overruled", aim_by, "later aim")
    assert isinstance(aim, Fraction)
    if bounds.holds(aim):
        return Verdict("changed") if moves else KEPT
    by = bounds.low_by if bounds.low is not None and aim < bounds.low else bounds.high_by
    if moves:
        return Verdict("changed", by, "held inside")
    return KEPT if by == index else Verdict("overruled", by, "held inside")
