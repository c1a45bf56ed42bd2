"""What an operation is follows from its demand alone, also of one that the table does not hold yet."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.recipe.operations.operation import Demand, Operation, number
from profilesmith.recipe.operations.table import OPERATIONS
from profilesmith.vocabulary.setting import Value


def near(values: Sequence[Value]) -> Demand:
    value = number(values[0])
    return Demand(low=value * Fraction(9, 10), high=value * Fraction(11, 10))


def test_both_bounds_of_one_operand_are_exact_only_where_they_meet() -> None:
    about = Operation("near", "Near this.", near, "near {}", ("near {}", "move it"), "a nearness")
    assert (about.is_bound, about.is_aim, about.once, about.is_exact) == (True, False, False, False)
    assert [item.name for item in OPERATIONS if item.is_exact] == ["set"]


def test_which_operations_can_move_a_number_up_and_which_down() -> None:
    """Lint doubts only a rule that can raise a heat; distillation tries only what can move the way the pairs moved."""
    one_way = {(item.name, item.raises, item.lowers) for item in OPERATIONS if item.raises != item.lowers}
    assert one_way == {("cap", False, True), ("raise_to", True, False), ("hold", True, False)}
    assert all(item.raises or item.lowers for item in OPERATIONS)
    assert {item.name for item in OPERATIONS if item.once} == {"scale", "shift"}
    assert {item.name for item in OPERATIONS if item.is_aim} == {"aim"}
