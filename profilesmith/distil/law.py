"""Law: what one rule would say of a setting; what it predicts, and which of the values seen it explains."""

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.distil.allowed import EDGE, allowed
from profilesmith.distil.sample import SampleWorld, Seen
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import decimal_text
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.recipe.combine import combine
from profilesmith.recipe.combine_words import combine_words
from profilesmith.recipe.operations import AIM, BY_NAME, RATIO, Demand, Operation
from profilesmith.recipe.recipe import Action, Clause, Fixed, Operand, SettingRef
from profilesmith.recipe.resolve import NotKnown
from profilesmith.vocabulary.setting import Setting, Value

DECIMALS = 6


class Law(NamedTuple):
    """values: canonical numbers or words (a scale in per cent); or an operand that is worked out for each pair.

    aim: where the value is drawn to inside a bound. spread: tuned values lie anywhere inside a window.
    """

    operation: str
    values: tuple[Value, ...] = ()
    operand: Operand | None = None
    when: tuple[Clause, ...] = ()
    aim: Fraction | SettingRef | None = None
    spread: bool = False

    @property
    def does(self) -> Operation:
        """All that is to be known of its operation."""
        return BY_NAME[self.operation]

    @property
    def leads(self) -> Operation:
        """What it is called by: its aim, where it has one."""
        return self.does if self.aim is None else AIM

    def actions(self, setting: Setting) -> tuple[Action, ...]:
        """The law as a recipe's actions."""
        if self.operand is not None:
            return (Action(self.operation, (self.operand,)),)
        bound = Action(self.operation, tuple(Fixed(text_of(self.does, value, setting)) for value in self.values))
        if self.aim is None:
            return (bound,)
        aim = self.aim if isinstance(self.aim, SettingRef) else Fixed(text_of(AIM, self.aim, setting))
        return (Action(AIM.name, (aim,)), bound)

    def holds(self, value: Value, slack: Fraction) -> bool:
        """Whether a value lies inside its window of values near one another."""
        low, high = self.values if self.spread else (None, None)
        numbers = isinstance(low, Fraction) and isinstance(high, Fraction) and isinstance(value, Fraction)
        return numbers and low - slack <= value <= high + slack  # type: ignore[operator]


def figures(law: Law) -> int:
    """How many figures its longest number is written with, zeros at the ends not counted: fewer are rounder."""
    if isinstance(law.aim, SettingRef):
        return len(law.aim.plus.split()[0].strip("-").replace(".", "").strip("0"))
    numbers = [value for value in (*law.values, law.aim) if isinstance(value, Fraction)]
    return max((len(decimal_text(abs(value), DECIMALS).replace(".", "").strip("0")) for value in numbers), default=0)


def text_of(operation: Operation, value: Value, setting: Setting) -> str:
    """An operand as a recipe writes it: ``40 mm/s``, ``70 %``, ``on``."""
    if not isinstance(value, Fraction):
        return value if isinstance(value, str) else "on" if value else "off"
    unit = "%" if operation.reads == RATIO else CANONICAL.get(setting.kind, "")
    return f"{decimal_text(value, DECIMALS)} {unit}".rstrip()


def demand_of(law: Law, seen: Seen, world: SampleWorld) -> Demand | None:
    """What a law asks of a value; None where its condition is not met or its operand not known."""
    resolver = world.resolvers[seen.pair]
    if law.when and resolver.condition(law.when) is not True:
        return None
    values: Sequence[Value] | NotKnown = law.values
    if law.operand is not None:
        action = Action(law.operation, (law.operand,))
        values = resolver.values(action, seen.setting, seen.tool, world.samples[seen.pair].tuned)
    if isinstance(values, NotKnown):
        return None
    demand = law.does.demand(values)
    return demand if law.aim is None else _with_aim(law.aim, demand, seen, world)


def _with_aim(aim: Fraction | SettingRef, demand: Demand, seen: Seen, world: SampleWorld) -> Demand | None:
    if isinstance(aim, Fraction):
        return demand._replace(aim=aim)
    tuned = world.samples[seen.pair].tuned
    values = world.resolvers[seen.pair].values(Action(AIM.name, (aim,)), seen.setting, seen.tool, tuned)
    return None if isinstance(values, NotKnown) else demand._replace(aim=values[0])


def predict(laws: Sequence[Law], seen: Seen, world: SampleWorld) -> Value | None:
    """The value that a pair would have if these laws held; None where they cannot hold there."""
    demands = [demand for law in laws if (demand := demand_of(law, seen, world)) is not None]
    if not demands:
        return seen.before
    if not isinstance(seen.after, Fraction):
        word = combine_words(seen.before, demands)
        return None if word is None or word.conflict else word.value
    present = seen.before if isinstance(seen.before, Fraction) else None
    number = combine(present, seen.grid, demands, limits=seen.limits)
    return None if number is None or number.conflict else present if number.by_hand else number.value


def explains(law: Law | None, seen: Seen, world: SampleWorld) -> bool:
    """Whether a law gives the tuned value, within the text's rounding. A bound that should not have moved a value must
    not.
    """
    if law is None:
        return not seen.touched
    if law.spread and seen.touched:
        return law.holds(seen.after, seen.slack)
    sure = _at_a_glance(law, seen)
    if sure is not None:
        return sure
    predicted = predict((law,), seen, world)
    if predicted == seen.after:
        return True
    if not isinstance(predicted, Fraction) or not isinstance(seen.after, Fraction):
        return False
    if not law.does.once and (predicted == seen.before or not seen.touched):
        return False
    return abs(predicted - seen.after) <= (seen.slack * EDGE if law.does.is_exact else seen.slack)


def _at_a_glance(law: Law, seen: Seen) -> bool | None:
    """What the numbers alone tell, which saves most of the work; None where the engine must be asked."""
    if (
        not seen.inside
        or law.when
        or law.aim is not None
        or len(law.values) != 1
        or not isinstance(law.values[0], Fraction)
    ):
        return None
    region = allowed(law.does, seen)
    if region is None or not region.holds(law.values[0]):
        return False
    return None if seen.touched or law.does.once else True


def unexplained(law: Law | None, seen: tuple[Seen, ...], world: SampleWorld) -> tuple[Seen, ...]:
    """The values that a law does not give."""
    return tuple(item for item in seen if not explains(law, item, world))
