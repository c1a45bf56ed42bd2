"""All demands on one number. Outside check: brute force, every writable number inside all bounds is looked at."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations, product

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from profilesmith.profile.profile import Grid
from profilesmith.recipe.combine import combine
from profilesmith.recipe.combine_words import combine_words
from profilesmith.recipe.operations import Demand
from tests.laws.running import law

F = Fraction
BOUNDS = [
    Demand(high=F(3)),
    Demand(low=F(2)),
    Demand(low=F(1), high=F(4)),
    Demand(high=F(5, 2)),
    Demand(low=F(5)),
    Demand(low=F(2), high=F(2)),
]
DRAWS = [
    Demand(aim=F(7, 2)),
    Demand(aim=F(1)),
    Demand(plus=F(1)),
    Demand(plus=F(-3, 2)),
    Demand(low=F(1), high=F(3), aim=F(6)),
]
PRESENT = [F(0), F(2), F(9, 4), F(6)]
GRIDS = [Grid(F(1)), Grid(F(1, 2)), Grid(F(1, 3), F(1, 7))]


def expected(present: Fraction, grid: Grid, demands: tuple[Demand, ...]) -> set[Fraction] | None:
    """The values that are right; None for a conflict."""
    low = max((demand.low for demand in demands if demand.low is not None), default=F(-99))
    high = min((demand.high for demand in demands if demand.high is not None), default=F(99))
    if low > high:
        return None
    aims = [demand.aim for demand in demands if demand.aim is not None]
    factor, step = F(1), F(0)
    for demand in demands:
        factor *= demand.times if demand.times is not None else 1
        step += demand.plus or 0
    target = F(aims[-1]) if aims else present * factor + step  # type: ignore[arg-type]
    nearest = min(max(target, low), high)
    if nearest == present:
        return {present}  # not touched, not even spelled anew
    if low == high:
        return {low}
    writable = [grid.zero + grid.step * count for count in range(-60, 60)]
    inside = [value for value in writable if low <= value <= high]
    if not inside:
        return set()
    best = min(abs(value - nearest) for value in inside)
    return {value for value in inside if abs(value - nearest) == best}


def agree(present: Fraction, grid: Grid, demands: tuple[Demand, ...]) -> None:
    found = combine(present, grid, demands)
    assert found is not None
    right = expected(present, grid, demands)
    if right is None:
        low, high = (demands[index] for index in found.conflict)
        assert low.low is not None
        assert high.high is not None
        assert low.low > high.high, "the two that are named do not meet"
        return
    assert found.conflict == ()
    if right:
        assert found.value in right, (present, grid, demands)
    for demand in demands:
        assert demand.low is None or found.value >= demand.low
        assert demand.high is None or found.value <= demand.high


@pytest.mark.parametrize("grid", GRIDS, ids=["ones", "halves", "thirds"])
@pytest.mark.parametrize("present", PRESENT, ids=str)
def test_bounds_and_aims_against_brute_force(present: Fraction, grid: Grid) -> None:
    for demands in product([*BOUNDS, *DRAWS], repeat=2):
        if Demand(low=F(2), high=F(2)) not in demands or grid.nearest(F(2)) == 2:
            agree(present, grid, demands)
    for triple in product(BOUNDS[:4], BOUNDS[:4], DRAWS):
        agree(present, grid, triple)


@pytest.mark.parametrize("present", PRESENT, ids=str)
def test_bounds_are_free_of_order(present: Fraction) -> None:
    for demands in product(BOUNDS, BOUNDS, [*BOUNDS, Demand(plus=F(1))]):
        results = [combine(present, Grid(F(1, 2)), order) for order in permutations(demands)]
        values = {None if result is None else result.value if not result.conflict else "conflict" for result in results}
        assert len(values) == 1


@pytest.mark.parametrize("present", PRESENT, ids=str)
def test_a_second_time_changes_nothing(present: Fraction) -> None:
    for demands in product(BOUNDS, [*BOUNDS, Demand(aim=F(7, 2))]):
        first = combine(present, Grid(F(1, 2)), demands)
        if first is not None and not first.conflict:
            second = combine(first.value, Grid(F(1, 2)), demands)
            assert second is not None
            assert second.value == first.value


@pytest.mark.parametrize(
    "demands",
    [
        pytest.param((Demand(times=F(1, 2)),), id="alone"),
        pytest.param((Demand(times=F(1, 2)), Demand(times=F(1, 2))), id="twice"),
        pytest.param((Demand(low=F(1)), Demand(times=F(1, 2))), id="behind a bound"),
        pytest.param((Demand(times=F(1, 2)), Demand(low=F(1))), id="before a bound"),
        pytest.param((Demand(times=F(1, 2)), Demand(plus=F(1))), id="before a step"),
        pytest.param((Demand(times=F(1, 2)), Demand(low=F(0), high=F(99))), id="before limits"),
    ],
)
def test_scaling_against_brute_force(demands: tuple[Demand, ...]) -> None:
    agree(F(6), Grid(F(1, 2)), demands)


@pytest.mark.parametrize(
    ("demand", "value"),
    [
        (Demand(low=F(2), high=F(2)), 2),
        (Demand(aim=F(3)), 3),
        (Demand(high=F(3)), None),
        (Demand(low=F(3)), None),
        (Demand(plus=F(3)), None),
    ],
)
def test_without_a_present_value_only_an_aim_or_an_exact_value_says_one(demand: Demand, value: int | None) -> None:
    found = combine(None, Grid(F(1)), [demand])
    assert (None if found is None else found.value) == value


@pytest.mark.parametrize(
    ("present", "demands", "statuses"),
    [
        (F(5), [Demand(high=F(3))], ["changed"]),
        (F(2), [Demand(high=F(3))], ["kept"]),
        (F(5), [Demand(high=F(3)), Demand(high=F(4))], ["changed", "overruled"]),
        (F(5), [Demand(high=F(3)), Demand(high=F(3))], ["changed", "changed"]),
        (F(5), [Demand(aim=F(1)), Demand(aim=F(2))], ["overruled", "changed"]),
        (F(2), [Demand(aim=F(1)), Demand(aim=F(2))], ["overruled", "kept"]),
        (F(5), [Demand(low=F(6)), Demand(high=F(3))], ["refused", "refused"]),
        (F(5), [Demand(plus=F(1))], ["changed"]),
        (F(5), [Demand(plus=F(1)), Demand(aim=F(2))], ["overruled", "changed"]),
        (F(5), [Demand(low=F(1), high=F(4), aim=F(9))], ["changed"]),
    ],
)
def test_what_becomes_of_each_demand(present: Fraction, demands: list[Demand], statuses: list[str]) -> None:
    found = combine(present, Grid(F(1)), demands)
    assert found is not None
    assert [verdict.status for verdict in found.verdicts] == statuses


WORDS = [Demand(exact=True), Demand(exact=False), Demand(aim=True), Demand(aim=False)]


@pytest.mark.parametrize("present", [None, True, False])
def test_switches_against_all_combinations(present: bool | None) -> None:
    for count in range(1, 4):
        for demands in product(WORDS, repeat=count):
            found = combine_words(present, demands)
            assert found is not None
            sets = {demand.exact for demand in demands if demand.exact is not None}
            if len(sets) == 2:
                first, second = found.conflict
                assert demands[first].exact is not demands[second].exact
                continue
            aims = [demand.aim for demand in demands if demand.aim is not None]
            right = next(iter(sets)) if sets else aims[-1]
            assert (found.value, found.conflict) == (right, ())
            for demand, verdict in zip(demands, found.verdicts, strict=True):
                asks = demand.exact if demand.exact is not None else demand.aim
                assert verdict.status == ("overruled" if asks != right else "kept" if right == present else "changed")


def test_nothing_is_asked_and_nothing_is_there() -> None:
    assert combine_words(None, []) is None
    assert combine_words("grid", []) == ("grid", (), ())


INCH = F(254, 10)
UNSPELLABLE = st.sampled_from(
    [Grid(INCH / 1000), Grid(F(1, 60)), Grid(F(100, 255), whole=True), Grid(F(1), whole=True)]
)
ENDS = st.sampled_from([F(0), F(1), F(2), F(7, 3), F(8), F(25, 10), F(254, 100), F(100)])


@st.composite
def bounds(draw: st.DrawFn) -> Demand:
    low, high = sorted((draw(ENDS), draw(ENDS)))
    return draw(st.sampled_from([Demand(low=low), Demand(high=high), Demand(low=low, high=high), Demand(aim=low)]))


@law(400)
@given(ENDS, UNSPELLABLE, st.lists(bounds(), min_size=1, max_size=4))
@example(INCH / 10, Grid(INCH / 1000), [Demand(low=F(8)), Demand(low=F(1, 10), high=F(8))])
@example(F(0), Grid(F(1), whole=True), [Demand(low=F(5, 2)), Demand(high=F(5, 2))])
def test_what_is_written_passes_no_bound(present: Fraction, grid: Grid, demands: list[Demand]) -> None:
    """A demand of one exact value may be missed by what the text cannot hold; a bound is never passed.

    Outside check: the number is what a decimal text of the grid's unit holds, at most six decimals finer than the grid.
    """
    found = combine(present, grid, demands)
    assert found is not None
    if found.conflict or found.by_hand or found.value == present:
        return
    assert ((found.value - grid.zero) / abs(grid.step) * (1 if grid.whole else 10**6)).denominator == 1
    for demand in demands:
        if demand.low != demand.high:
            assert demand.low is None or found.value >= demand.low
            assert demand.high is None or found.value <= demand.high


def test_bounds_that_meet_where_no_text_can_stand_are_for_the_hand() -> None:
    """8 mm are no finite decimal of an inch: 0.315 in would be 8.001 mm."""
    found = combine(INCH / 10, Grid(INCH / 1000), [Demand(low=F(8)), Demand(low=F(1, 10), high=F(8))])
    assert found is not None
    assert (found.by_hand, found.value, found.conflict) == (True, 8, ())
    assert combine(INCH / 10, Grid(INCH / 1000), [Demand(low=F("2.54")), Demand(high=F("2.54"))]) is not None


def test_an_aim_that_a_bound_of_another_holds_back_is_named_though_nothing_moves() -> None:
    """It once read as met: four layers stood there, three were wanted, and a hold kept four."""
    result = combine(F(4), Grid(F(1)), [Demand(aim=F(3)), Demand(low=F(4))])
    assert result is not None
    assert (result.value, result.verdicts[0].status, result.verdicts[0].note) == (F(4), "overruled", "held inside")
    own = combine(F(4), Grid(F(1)), [Demand(aim=F(3), low=F(4))])
    assert own is not None
    assert own.verdicts[0].status == "kept"


@pytest.mark.parametrize(
    ("present", "demands", "by"),
    [
        (F(5), [Demand(high=F(4)), Demand(high=F(3))], 1),
        (F(5), [Demand(low=F(6)), Demand(low=F(7))], 1),
        (F(5), [Demand(low=F(6)), Demand(high=F(9)), Demand(low=F(7))], 2),
        (F(5), [Demand(high=F(4)), Demand(high=F(3)), Demand(aim=F(2))], 2),  # the aim went further than both
        (F(5), [Demand(aim=F(2)), Demand(high=F(4)), Demand(high=F(3))], None),
    ],
)
def test_who_decided_instead_is_named(present: Fraction, demands: list[Demand], by: int | None) -> None:
    """A person who looks for the rule to loosen must be sent to the one that holds."""
    result = combine(present, Grid(F(1)), demands)
    assert result is not None
    first = result.verdicts[0]
    assert (first.status, first.by) == (("changed", None) if by is None else ("overruled", by))


def test_an_aim_is_held_inside_by_the_bound_on_its_own_side() -> None:
    for aim, by in ((F(1), 1), (F(9), 2)):
        result = combine(F(5), Grid(F(1)), [Demand(aim=aim), Demand(low=F(3)), Demand(high=F(7))])
        assert result is not None
        assert (result.verdicts[0].note, result.verdicts[0].by, result.by) == ("held inside", by, by)
