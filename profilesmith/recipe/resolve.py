"""Operands and conditions to values: what is known from facts, answers and the profiles, and what is not."""

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache

from profilesmith.facts.facts import FactKind, Facts, FactValue, fact_kinds
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import read_quantity
from profilesmith.ledger import Answer, Question
from profilesmith.physics.bead import bead_area_mm2
from profilesmith.profile.profile import Profile
from profilesmith.recipe.operations import DIFFERENCE, PRODUCT, RATIO, VALUE
from profilesmith.recipe.operations.operation import Product
from profilesmith.recipe.recipe import (
    Action,
    Clause,
    CountRef,
    FactRef,
    Fixed,
    FlowRef,
    InputRef,
    Operand,
    Recipe,
    SettingRef,
    parts,
)
from profilesmith.vocabulary.setting import Unreadable, Value, Vocabulary, read_value


class NotKnown(NamedTuple):
    """Something that only the maker can tell. what: the name of what is missing."""

    what: str
    question: Question


Answers = Mapping[str, Answer]
"""By "recipe.input"."""


def settle_inputs(recipe: Recipe, answers: Facts, facts: Facts) -> dict[str, Answer]:
    """The inputs of a recipe that are known: the maker's answer, else the fact, else the default."""
    settled: dict[str, Answer] = {}
    for name, item in recipe.inputs.items():
        kind = item.kind.unit_kind
        answer = answers.get(f"{recipe.name}.{name}", answers.get(name))
        if answer is not None:
            settled[name] = Answer(answer.value, "answer", answer.said, kind)
        elif item.fact in facts:
            settled[name] = Answer(facts[item.fact].value, "fact", facts[item.fact].said, kind)
        elif item.default is not None:
            settled[name] = Answer(item.default, "default", unit_kind=kind)
    return settled


class Resolver(NamedTuple):
    """The knowledge that one recipe's operands are resolved with."""

    recipe: Recipe
    inputs: Mapping[str, Answer]
    facts: Facts
    base: Profile
    vocabulary: Vocabulary

    def subject(self, name: str) -> tuple[FactValue | None, FactKind]:
        """A fact's or input's value (None when not known) and its kind."""
        if name.startswith("input."):
            item = self.recipe.inputs[name.removeprefix("input.")]
            known = self.inputs.get(item.name)
            return (known.value if known else None), item.kind
        fact = self.facts.get(name)
        return (fact.value if fact else None), fact_kinds()[name]

    def question(self, name: str) -> Question:
        """What is asked after a fact or an input."""
        if name.startswith("input."):
            item = self.recipe.inputs[name.removeprefix("input.")]
            return question_of(item.kind, item.ask)._replace(about="input", name=item.name, recipe=self.recipe.name)
        kind = fact_kinds()[name]
        return question_of(kind, kind.ask)

    def condition(self, clauses: tuple[Clause, ...]) -> bool | NotKnown:
        """Yes, no or not known. One clear no is a no, whatever else is unknown."""
        unknown: NotKnown | None = None
        for clause in clauses:
            value, kind = self.subject(clause.subject)
            if value is None:
                unknown = unknown or NotKnown(clause.subject, self.question(clause.subject))
            elif clause.against is not None:
                other = self.fact(clause.against)
                if isinstance(other, NotKnown):
                    unknown = unknown or other
                elif other != value:
                    return False
            elif not _holds(clause, value, kind):
                return False
        return unknown or True

    def fact(self, operand: InputRef | FactRef) -> FactValue | NotKnown:
        name = f"input.{operand.name}" if isinstance(operand, InputRef) else operand.name
        value, _ = self.subject(name)
        return NotKnown(operand.name, self.question(name)) if value is None else value

    def values(self, action: Action, setting: str, tool: int, derived: Profile) -> list[Value] | NotKnown:
        """The operands of an action for one setting and tool, as canonical values."""
        values: list[Value] = []
        for operand in action.operands:
            value = self.operand(action, operand, setting, tool, derived)
            if isinstance(value, NotKnown):
                return value
            values += value
        return values

    def operand(
        self, action: Action, operand: Operand, name: str, tool: int, derived: Profile
    ) -> list[Value] | NotKnown:
        if isinstance(operand, Fixed):
            return self.fixed(action, operand.text, name, tool, derived)
        if isinstance(operand, InputRef | FactRef):
            value = self.fact(operand)
            if isinstance(value, NotKnown):
                return value
            is_window = isinstance(value, tuple) and len(value) == 2 and not isinstance(value[1], str)
            return list(value) if is_window else [value]  # type: ignore[list-item, arg-type]
        if isinstance(operand, SettingRef):
            other = derived.number(operand.setting, tool)
            if other is None:
                return _missing(operand.setting)
            kind = self.vocabulary.settings[operand.setting].kind
            plus = read_quantity(operand.plus, kind, difference=True) if operand.plus else None
            return [other * operand.times + (plus if isinstance(plus, Fraction) else 0)]
        if isinstance(operand, CountRef):
            return self.counted(action, operand, name, tool, derived)
        return self.speed(operand, name, tool, derived)

    def counted(
        self, action: Action, operand: CountRef, name: str, tool: int, derived: Profile
    ) -> list[Value] | NotKnown:
        """As many beads or layers as make a length, rounded to the inside of the bound."""
        from profilesmith.recipe.count import count_for, whole  # few recipes count

        length = Fraction(0)
        for part in parts(operand):
            assert isinstance(part, Fixed | InputRef | FactRef)
            value = read_quantity(part.text, "length") if isinstance(part, Fixed) else self.fact(part)
            if not isinstance(value, Fraction):
                return value if isinstance(value, NotKnown) else _missing(str(part))
            length += value
        if length <= 0:
            return [Fraction(0)]
        count = count_for(operand.what, name, length, derived, tool)
        return _missing(count) if isinstance(count, str) else [whole(count, action.does)]

    def fixed(self, action: Action, text: str, name: str, tool: int, derived: Profile) -> list[Value] | NotKnown:
        reads, setting = action.does.reads, self.vocabulary.settings[name]
        if reads == PRODUCT:
            return self.held(action.does.products[text], name, tool, derived)
        if reads == VALUE:
            value = read_value(setting, text)
            assert not isinstance(value, Unreadable)  # the loader has read it already
            return [value]
        quantity = read_quantity(text, "ratio" if reads == RATIO else setting.kind, difference=reads == DIFFERENCE)
        assert isinstance(quantity, Fraction)
        return [quantity]

    def held(self, product: Product, name: str, tool: int, derived: Profile) -> list[Value] | NotKnown:
        partner = product.partner
        before, after = self.base.number(partner, tool), derived.number(partner, tool)
        own = self.base.number(name, tool)
        if before is None or after is None or own is None or own < 0 or before <= 0 or after <= 0:
            return _missing(partner if own is not None else name)
        held = product.lowest(own, before, after)
        most = self.vocabulary.settings[name].high
        return [held if most is None else min(held, most)]

    def speed(self, operand: FlowRef, name: str, tool: int, derived: Profile) -> list[Value] | NotKnown:
        """The highest speed at which a feature's bead needs no more than a flow, its share of material counted."""
        flow = read_quantity(operand.flow.text, "flow") if isinstance(operand.flow, Fixed) else self.fact(operand.flow)
        if not isinstance(flow, Fraction):
            return flow if isinstance(flow, NotKnown) else _missing(str(operand.flow))
        width_name, height_name = bead_settings(name)
        width = derived.number(width_name, tool) or derived.number("bead.width", tool)
        height = derived.number(height_name, tool) or derived.number("layer.height", tool)
        if width is None or height is None:
            return _missing("bead.width" if width is None else "layer.height")
        if height > width or height <= 0:
            return NotKnown("bead", Question("beads", name))
        share = derived.number("bead.flow", tool) or Fraction(100)
        return [_speed_of_flow(*(number.as_integer_ratio() for number in (flow, width, height, share)))]


@lru_cache(maxsize=4096)  # the features of a profile mostly lay the same bead
def _speed_of_flow(*numbers: tuple[int, int]) -> Fraction:
    """The speed at which a bead needs a flow. numbers: flow, width, height, and the share of the computed amount in
    per cent, as pairs of whole numbers, whose hash takes a tenth of a fraction's.
    """
    flow, width, height, share = (Fraction(top, bottom) for top, bottom in numbers)
    return flow / Fraction(bead_area_mm2(float(width), float(height))) * 100 / share


def question_of(kind: FactKind, text: str) -> Question:
    """The question after a fact. text: as fact or recipe have it."""
    return Question("fact", kind.name, "", kind.kind, kind.unit_kind, kind.values, text)


def bead_settings(speed: str) -> tuple[str, str]:
    """The width and height settings of the bead that is laid at a speed."""
    feature = speed.rpartition(".")[0]
    return f"{feature}.bead_width", f"{feature}.height"


def _missing(setting: str) -> NotKnown:
    return NotKnown(setting, Question("setting", setting))


def _holds(clause: Clause, value: FactValue, kind: FactKind) -> bool:
    if clause.comparison is None:
        return str(value) in clause.words
    limit = read_quantity(clause.comparison.operand, kind.unit_kind)
    number = value if isinstance(value, Fraction) else None
    return number is not None and isinstance(limit, Fraction) and clause.comparison.holds(number, limit)
