"""Recipe, Rule, operands and inputs as frozen data."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from profilesmith import ledger
from profilesmith.facts.facts import FactKind, FactValue
from profilesmith.foundation.comparison import Comparison
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.ledger import Asked, Condition
from profilesmith.recipe.cause_words import ANSWER, BEAD_SPEED, COUNT
from profilesmith.recipe.operations import BY_NAME, Operation
from profilesmith.vocabulary.setting import Value


class Fixed(NamedTuple):
    """A quantity or word as the recipe writes it; read in the unit kind of each setting that it meets."""

    text: str

    def __str__(self) -> str:
        return self.text


class InputRef(NamedTuple):
    """The answer to one of the recipe's inputs."""

    name: str

    def __str__(self) -> str:
        return ANSWER.format(self.name)


class FactRef(NamedTuple):
    """A fact."""

    name: str

    def __str__(self) -> str:
        return self.name


class SettingRef(NamedTuple):
    """Another setting's derived value, times and plus something. plus: a quantity text or ""."""

    setting: str
    times: Fraction = Fraction(1)
    plus: str = ""

    def __str__(self) -> str:
        times = "" if self.times == 1 else f"{float(self.times):g} × "
        return f"{times}{self.setting}{f' plus {self.plus}' if self.plus else ''}"


class FlowRef(NamedTuple):
    """The speed at which the feature's bead needs a flow."""

    flow: Fixed | InputRef | FactRef

    def __str__(self) -> str:
        return BEAD_SPEED.format(self.flow)


class CountRef(NamedTuple):
    """How many beads or layers of this very profile make a length, and what is added to it.

    what: ``beads_for`` (walls beside each other) or ``layers_for`` (layers on top of each other).
    """

    what: str
    length: Fixed | InputRef | FactRef
    plus: Fixed | InputRef | FactRef | None = None

    def __str__(self) -> str:
        more = "" if self.plus is None else f" plus {self.plus}"
        return COUNT.format(self.what.removesuffix("_for"), f"{self.length}{more}")


Operand = Fixed | InputRef | FactRef | SettingRef | FlowRef | CountRef


def parts(operand: Operand) -> tuple[Operand, ...]:
    """What an operand is worked out from, where that may be an answer or a fact; else itself."""
    if isinstance(operand, FlowRef):
        return (operand.flow,)
    if isinstance(operand, CountRef):
        return (operand.length,) if operand.plus is None else (operand.length, operand.plus)
    return (operand,)


def operand_data(operand: "Operand") -> ledger.Operand:
    """An operand as a ledger has it."""
    if isinstance(operand, FlowRef):
        return operand_data(operand.flow)._replace(flow=True)
    if isinstance(operand, CountRef):
        plus = "" if operand.plus is None else str(operand.plus)
        return operand_data(operand.length)._replace(plus=plus, counts=operand.what)
    if isinstance(operand, SettingRef):
        return ledger.Operand("setting", operand.setting, operand.times, operand.plus)
    if isinstance(operand, Fixed):
        return ledger.Operand("fixed", operand.text)
    return ledger.Operand("input" if isinstance(operand, InputRef) else "fact", operand.name)


class Action(NamedTuple):
    """An operation of a rule with its operands. A window has two operands, or one that is a window itself."""

    operation: str
    operands: tuple[Operand, ...]

    @property
    def does(self) -> Operation:
        """All that is to be known of its operation."""
        return BY_NAME[self.operation]

    def asked(self, values: Sequence[Value] = ()) -> Asked:
        """As a ledger has it. values: what it came to, where that is known."""
        return Asked(self.operation, tuple(values), tuple(operand_data(operand) for operand in self.operands))

    def __str__(self) -> str:
        return f"{self.operation} {' to '.join(str(operand) for operand in self.operands)}"


class Clause(NamedTuple):
    """One line of ``when``: a fact or an input, and what it must be. against: the answer or fact that it must equal."""

    subject: str
    words: tuple[str, ...] = ()
    comparison: Comparison | None = None
    against: InputRef | FactRef | None = None

    def condition(self) -> Condition:
        """As a ledger has it."""
        if self.against is not None:
            return Condition(self.subject, "is", (str(self.against),))
        if self.comparison is None:
            return Condition(self.subject, "is", self.words)
        return Condition(self.subject, self.comparison.sign, (self.comparison.operand,))

    def __str__(self) -> str:
        if self.against is not None:
            return f"{self.subject} is {self.against}"
        return (
            f"{self.subject} {self.comparison}" if self.comparison else f"{self.subject} is {' or '.join(self.words)}"
        )


class Rule(NamedTuple):
    """number counts from 1. settings: expanded, without exceptions; named: as the recipe writes them."""

    number: int
    named: tuple[str, ...]
    settings: tuple[str, ...]
    actions: tuple[Action, ...]
    when: tuple[Clause, ...] = ()
    why: str = ""
    source: str = ""
    place: Place = Place()

    def demand(self) -> str:
        """What the rule asks, in a few words."""
        return ", ".join(str(action) for action in self.actions)


class Input(NamedTuple):
    """A question. kind: its FactKind; fact: the fact that answers it; default: a value, or None."""

    name: str
    kind: FactKind
    fact: str = ""
    default: FactValue | None = None
    ask: str = ""


class Example(NamedTuple):
    """A recipe's own test: texts by setting, fact and input name."""

    given: Mapping[str, str]
    facts: Mapping[str, object]
    answers: Mapping[str, str]
    expect: Mapping[str, str]
    place: Place = Place()


class Recipe(NamedTuple):
    """A whole recipe file. goes_with: names of recipes that it claims to go together with. raw: the file's bytes."""

    name: str
    version: str
    title: str
    rules: tuple[Rule, ...]
    inputs: Mapping[str, Input]
    source_material: str = ""
    target_material: str = ""
    licence: str = ""
    authors: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    examples: tuple[Example, ...] = ()
    goes_with: tuple[str, ...] = ()
    file: str = ""
    raw: bytes = b""

    @property
    def once(self) -> bool:
        """Whether it is to be applied once: a scale or shift does its work again each time."""
        return any(action.does.once for rule in self.rules for action in rule.actions)
