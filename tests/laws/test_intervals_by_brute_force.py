"""Outside check: what rules make of one number, against trying every number of a small grid.

The brute force knows no intervals: it walks all numbers that the text can hold, drops those that any rule forbids and
takes the nearest to the target. Whole numbers for a count, tenths for a speed.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from hypothesis import given
from hypothesis import strategies as st

from profilesmith.foundation.problem import Refused
from profilesmith.workflows.derive import derive
from profilesmith.workflows.request import Request
from tests.laws.running import law, put
from tests.laws.strategies import toml

MAP = """format = 1
[keymap]
name = "two numbers"
[[binding]]
setting = "wall.count"
key = "rings"
[[binding]]
setting = "outer_wall.speed"
key = "pace"
unit = "mm/s"
"""


class Case(NamedTuple):
    """A setting on its grid. low, high: what the vocabulary finds plausible."""

    setting: str
    key: str
    unit: str
    step: Fraction
    low: int
    high: int


COUNT = Case("wall.count", "rings", "", Fraction(1), 0, 100)
SPEED = Case("outer_wall.speed", "pace", " mm/s", Fraction(1, 10), 1, 1000)
Ask = tuple[str, tuple[int, ...]]


def asks(aims: bool) -> st.SearchStrategy[Ask]:
    one = st.integers(1, 12)
    kinds = [
        st.tuples(st.sampled_from(("cap", "raise_to", "cap", "raise_to", "set")), st.tuples(one)),
        st.tuples(st.just("window"), st.tuples(one, one).map(lambda ends: tuple(sorted(ends)))),
        st.tuples(st.just("scale"), st.tuples(st.sampled_from((25, 50, 100, 150, 33)))),
        st.tuples(st.just("shift"), st.tuples(st.integers(-6, 6))),
    ]
    return st.one_of(*kinds, *([st.tuples(st.just("aim"), st.tuples(one))] if aims else []))


def brute(case: Case, base: int, rules: Sequence[Ask]) -> set[Fraction]:
    """Every value that would be right: the nearest allowed numbers to the target; none is a conflict."""
    target = Fraction(base)
    for name, (amount, *_) in rules:
        target *= Fraction(amount, 100) if name == "scale" else 1
    target += sum(ends[0] for name, ends in rules if name == "shift")
    aims = [ends[0] for name, ends in rules if name == "aim"]
    target = Fraction(aims[-1]) if aims else target
    highest = min(Fraction(case.high), max(target, Fraction(20)) + 1)
    grid = [case.low + case.step * number for number in range(int((highest - case.low) / case.step) + 1)]
    allowed = [value for value in grid if case.low <= value <= case.high and all(_fits(value, rule) for rule in rules)]
    least = min((abs(value - target) for value in allowed), default=None)
    return {value for value in allowed if abs(value - target) == least}


def _fits(value: Fraction, rule: Ask) -> bool:
    name, ends = rule
    high = value <= ends[-1] if name in ("cap", "set", "window") else True
    low = value >= ends[0] if name in ("raise_to", "set", "window") else True
    return high and low


def engine(case: Case, base: int, recipes: Sequence[Sequence[Ask]]) -> Fraction | None:
    """What the package writes; None for a conflict, in which nothing is written."""
    names = []
    for at, rules in enumerate(recipes):
        parts = [f'format = 1\n[recipe]\nname = "r{at}"\nversion = "1.0.0"\n']
        parts += [
            f'[[rule]]\nsetting = "{case.setting}"\n{name} = {_texts(case, name, ends)}\n' for name, ends in rules
        ]
        names.append(put(f"brute-{at}.toml", "".join(parts)))
    text = f"rings = {base}\npace = {base}\n"
    request = Request(bases=(put("brute.cfg", text),), key_map=put("brute-map.toml", MAP), recipes=tuple(names))
    try:
        derivation = derive(request)
    except Refused as refused:
        raise AssertionError(str(refused)) from refused
    if derivation.problems:
        assert not derivation.outputs
        assert {problem.severity for problem in derivation.problems} == {3}
        return None
    lines = dict(line.split(" = ") for line in derivation.outputs[0].decode().splitlines())
    return Fraction(lines[case.key])


def _texts(case: Case, name: str, ends: tuple[int, ...]) -> str:
    unit = " %" if name == "scale" else case.unit
    texts = [f"{end}{unit}" for end in ends]
    return toml(texts if len(texts) > 1 else texts[0])


@law(300)
@given(
    st.sampled_from((COUNT, SPEED)),
    st.integers(1, 14),
    st.lists(asks(aims=True), min_size=1, max_size=5),
    st.integers(0, 5),
)
def test_every_number_tried(case: Case, base: int, rules: list[Ask], cut: int) -> None:
    recipes = [part for part in (rules[:cut], rules[cut:]) if part]
    found, right = engine(case, base, recipes), brute(case, base, rules)
    assert (found is None) == (not right), f"{found} where {sorted(right)} is right"
    assert found is None or found in right


@law(40)
@given(st.sampled_from((COUNT, SPEED)), st.integers(1, 12), st.integers(1, 8), st.data())
def test_bounds_that_do_not_meet_name_both_sides_and_write_nothing(
    case: Case, low: int, gap: int, data: st.DataObject
) -> None:
    rules = data.draw(st.permutations([("raise_to", (low + gap,)), ("cap", (low,))]))
    names = [
        put(
            f"clash-{at}.toml",
            f'format = 1\n[recipe]\nname = "side-{at}"\nversion = "2.0.{at}"\n'
            f'[[rule]]\nsetting = "{case.setting}"\n{name} = {_texts(case, name, ends)}\n',
        )
        for at, (name, ends) in enumerate(rules)
    ]
    text = f"rings = {low}\npace = {low}\n"
    derivation = derive(
        Request(bases=(put("clash.cfg", text),), key_map=put("clash-map.toml", MAP), recipes=tuple(names))
    )
    assert derivation.outputs == ()
    (problem,) = derivation.problems
    assert problem.code == "conflict"
    assert problem.severity == 3
    for at in range(2):
        assert f"side-{at} 2.0.{at}, rule 1" in problem.message
    assert {row.status for row in derivation.ledger.rows} == {"refused"}


def test_the_brute_force_itself() -> None:
    """Worked by hand: 9 under a cap of 7 and above 4 goes to 7; an aim of 2 goes to 4; a cap of 3 leaves nothing."""
    rules: list[Ask] = [("cap", (7,)), ("raise_to", (4,))]
    assert brute(COUNT, 9, rules) == {7}
    assert brute(COUNT, 9, [*rules, ("aim", (2,))]) == {4}
    assert brute(COUNT, 9, [*rules, ("cap", (3,))]) == set()
    assert brute(COUNT, 5, [("scale", (50,))]) == {2, 3}
