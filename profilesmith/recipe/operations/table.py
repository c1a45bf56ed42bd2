"""The operations: a literal table in which each says all of itself. To add one: its demand and its entry here."""

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.recipe.operations.operation import (
    DIFFERENCE,
    EVERY_KIND,
    PRODUCT,
    PRODUCTS,
    RATIO,
    Demand,
    Operation,
    number,
)
from profilesmith.vocabulary.setting import Value


def _exactly(values: Sequence[Value]) -> Demand:
    """For a number a bound from both sides, so that two unequal sets are a conflict."""
    value = values[0]
    return Demand(low=value, high=value) if isinstance(value, Fraction) else Demand(exact=value)


def _aim(values: Sequence[Value]) -> Demand:
    return Demand(aim=values[0])


def _at_most(values: Sequence[Value]) -> Demand:
    return Demand(high=number(values[0]))


def _at_least(values: Sequence[Value]) -> Demand:
    return Demand(low=number(values[0]))


def _inside(values: Sequence[Value]) -> Demand:
    return Demand(low=number(values[0]), high=number(values[1]))


def _times(values: Sequence[Value]) -> Demand:
    return Demand(times=number(values[0]) / 100)


def _plus(values: Sequence[Value]) -> Demand:
    return Demand(plus=number(values[0]))


SET = Operation(
    name="set",
    meaning="Exactly this value.",
    demand=_exactly,
    phrase="exactly {}",
    by_hand=("{}", ""),
    noun="a set",
    kinds=EVERY_KIND,
    gentle=4,
)
AIM = Operation(
    name="aim",
    meaning="This value, inside all bounds. Of several aims the later recipe's counts: it is the more specific.",
    demand=_aim,
    phrase="{} where the bounds allow",
    by_hand=("{}", "as far as the other lines allow"),
    noun="an aim",
    kinds=EVERY_KIND,
)
CAP = Operation(
    name="cap",
    meaning="At most this.",
    demand=_at_most,
    phrase="at most {}",
    by_hand=("at most {}", "lower it if it is above"),
    noun="a cap",
    beside=("aim", "raise_to"),
    gentle=0,
)
RAISE_TO = Operation(
    name="raise_to",
    meaning="At least this.",
    demand=_at_least,
    phrase="at least {}",
    by_hand=("at least {}", "raise it if it is below"),
    noun="a lower bound",
    beside=("aim", "cap"),
    gentle=1,
)
WINDOW = Operation(
    name="window",
    meaning='Between two ends: ["210 °C", "220 °C"], or an input or fact that is a window.',
    demand=_inside,
    phrase="{}",
    on_pages="inside {}",
    by_hand=("{}", "move it to the nearer end if it is outside"),
    noun="a window",
    operands=2,
    beside=("aim",),
    gentle=2,
)
SCALE = Operation(
    name="scale",
    meaning='The base value times a share such as "70 %". Not for temperatures. The recipe is then applied once.',
    demand=_times,
    phrase="times {}",
    by_hand=("times {}", "from the number that stands there, once only"),
    noun="a scale",
    reads=RATIO,
    instead="shift",
    gentle=5,
)
SHIFT = Operation(
    name="shift",
    meaning='The base value plus a step such as "5 °C". The recipe is then applied once.',
    demand=_plus,
    phrase="plus {}",
    below_zero="minus {}",
    by_hand=("plus {}", "from the number that stands there, once only"),
    noun="a shift",
    reads=DIFFERENCE,
    gentle=6,
)
HOLD = Operation(
    name="hold",
    meaning="A product that stays at least what it was.",
    demand=_at_least,
    phrase="hold the {}",
    on_pages="keep the {}",
    by_hand=("{}", "keep it"),
    noun="a hold",
    reads=PRODUCT,
    products=PRODUCTS,
    gentle=3,
)

OPERATIONS: tuple[Operation, ...] = (SET, AIM, CAP, RAISE_TO, WINDOW, SCALE, SHIFT, HOLD)
BY_NAME = {operation.name: operation for operation in OPERATIONS}
_LEARNED = {item.gentle: item for item in OPERATIONS if item.gentle is not None}
LEARNED = tuple(_LEARNED[place] for place in sorted(_LEARNED))
"""Those that before/after pairs can teach, the gentlest first."""
