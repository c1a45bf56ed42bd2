"""Why a row is as it is, as data: who asks, what is asked, what stood in the way, what is not known. No words for
people.
"""

from fractions import Fraction
from typing import Literal, Self

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.exact import NUMBER, VALUE
from profilesmith.ledger.form import LEFT_OUT, MET_AGAIN, ONLY_HERE, Annotated
from profilesmith.profile.profile import AbsentCode
from profilesmith.vocabulary.setting import Value

CauseKind = Literal[
    "rule",
    "plausible range",
    "machine limit",
    "share",
    "held share",
    "stuck share",
    "same key",
    "one key",
    "added key",
    "reads as on",
    "start block",
    "hand edit",
    "share of hand edit",
]
"""``share``: written as a share of ``subject``, as are ``held share`` (rewritten to keep the asked values) and ``stuck
share`` (which cannot be rewritten so); ``same key``: one key holds it and the switch ``subject``; ``one key``: one that
holds it or the switch ``subject``;
``added key``: its key was added for another switch;
``reads as on``: enough for that switch; ``start block``: a machine command that repeats ``subject``."""


class Operand(NamedTuple):
    """What a rule names in place of a value, as the recipe has it."""

    kind: Annotated[Literal["fixed", "input", "fact", "setting"], "What is named."]
    name: Annotated[str, "Its name; of a fixed one its text."]
    times: Annotated[Fraction, NUMBER, "Of a setting: multiplied by this.", LEFT_OUT] = Fraction(1)
    plus: Annotated[str, "Of a setting or a length: this is added, as the recipe writes it.", LEFT_OUT] = ""
    flow: Annotated[bool, "Whether it is the speed at which the bead needs this flow.", LEFT_OUT] = False
    counts: Annotated[str, "beads_for or layers_for: whether it is as many of them as make this length.", LEFT_OUT] = ""


class Asked(NamedTuple):
    """One operation of a rule, or a limit's, with what it came to. values: canonical; () where that is not known."""

    operation: Annotated[str, "The operation's key in a rule; empty of a share that keeps its value."]
    values: Annotated[
        tuple[Annotated[Value, VALUE], ...], "The values that it came to, in the canonical unit.", LEFT_OUT
    ] = ()
    operands: Annotated[tuple[Operand, ...], "What the recipe names.", LEFT_OUT, MET_AGAIN] = ()


class Cause(NamedTuple):
    """What asks. asked: all that it asks of the setting, to be met together. subject: the setting or fact that it hangs
    on.

    quoted: a hand edit's value before and after. words: all that a ledger of format 1 has of it.
    """

    kind: Annotated[CauseKind, "What asks."]
    recipe: Annotated[str, "Of a rule: its recipe.", LEFT_OUT] = ""
    version: Annotated[str, "The recipe's version.", LEFT_OUT] = ""
    rule: Annotated[int, "The rule's number in its recipe, from 1.", LEFT_OUT] = 0
    asked: Annotated[tuple[Asked, ...], "What is asked, to be met together.", LEFT_OUT] = ()
    subject: Annotated[str, "The setting or fact that it hangs on.", LEFT_OUT] = ""
    quoted: Annotated[tuple[str, ...], "Of a hand edit: the value before and after.", LEFT_OUT] = ()
    why: Annotated[str, "The reason, as recipe or limit has it.", LEFT_OUT] = ""
    source: Annotated[str, "Where it comes from.", LEFT_OUT] = ""
    place: Annotated[str, "Where it is written.", ONLY_HERE] = ""
    words: Annotated[str, "What was asked, in words: all that a ledger of format 1 has of it.", LEFT_OUT] = ""

    def asking(self, asked: tuple[Asked, ...]) -> Self:
        """The same that asks something else; ``_replace`` takes three times as long."""
        return tuple.__new__(type(self), (*self[:4], asked, *self[5:]))


class Condition(NamedTuple):
    """What a fact or an input (``input.name``) would have to be. sign: ``is``, or a sign of comparison."""

    subject: Annotated[str, "The fact, or the input as input.name."]
    sign: Annotated[str, "is, or a sign of comparison."]
    values: Annotated[tuple[str, ...], "One of these."]


NoteCode = Literal[
    "not known",
    "share moved",
    "spread",
    "nearest share",
    "no whole share",
    "switched along",
    "stricter",
    "other value",
    "later aim",
    "aim instead",
    "held inside",
    "nearest held",
    "cannot hold together",
    "switch is off",
    "condition",
    "met since",
    "share of zero",
    "no text for it",
    "cannot be held",
    "key holds one",
    "key taken",
    "style",
    AbsentCode,
    "no binding",
    "no value said",
    "further line",
    "start block",
    "hand met",
    "hand kept",
    "base changed too",
    "overrules",
    "said",
]


class Note(NamedTuple):
    """More on what became of a row. names: what the code speaks of, such as a setting or a key; by: who decided
    instead.
    """

    code: Annotated[NoteCode, "What is to be said."]
    names: Annotated[tuple[str, ...], "What it speaks of.", LEFT_OUT] = ()
    by: Annotated[Cause | None, "Who decided instead.", LEFT_OUT, MET_AGAIN] = None
    conditions: Annotated[tuple[Condition, ...], "What would have to be so.", LEFT_OUT] = ()


class Question(NamedTuple):
    """What only a person can say. A door words how it is answered.

    about: a fact, an input of ``recipe``, a setting that the text does not tell, or beads that cannot be.
    kind: choice, quantity, window, text or hardness; values: of a choice; text: the question as recipe or fact has it.
    """

    about: Annotated[Literal["fact", "input", "setting", "beads", "said"], "What it asks after."]
    name: Annotated[str, "The fact, input or setting."]
    recipe: Annotated[str, "Of an input: its recipe.", LEFT_OUT] = ""
    kind: Annotated[str, "What an answer is: choice, quantity, window, text or hardness.", LEFT_OUT] = ""
    unit_kind: Annotated[str, "What a quantity or window is of, such as flow.", LEFT_OUT] = ""
    values: Annotated[tuple[str, ...], "What a choice may be.", LEFT_OUT] = ()
    text: Annotated[str, "The question, as the fact or the recipe has it.", LEFT_OUT] = ""
