"""What some recipes ask of a machine, a spool and a part, as data: a door words it and offers a way to answer."""

from collections.abc import Iterator, Sequence

from profilesmith.facts.facts import FactKind, fact_kinds
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.recipe.recipe import FactRef, FlowRef, InputRef, Operand, Recipe, Rule
from profilesmith.review.review import Review


class InputQuestion(NamedTuple):
    """One question. name: the fact, or "recipe.input", by which it is answered; kind: what an answer may be.

    default: what counts as long as nobody says otherwise, "" for nothing: then the rules wait. settings: what the
    answer decides. reasons: of those rules.
    """

    name: str
    kind: FactKind
    ask: str
    default: str = ""
    settings: tuple[str, ...] = ()
    reasons: tuple[str, ...] = ()


class Choice(NamedTuple):
    """A question that only the derived texts raise. name: ``tool``, ``start block`` or ``shares``.

    ways: the values, the one that counts as long as nobody says otherwise first; a door words them. about: the
    places that it is about.
    """

    name: str
    ways: tuple[str, ...]
    about: tuple[str, ...]


def choices(review: Review, follow: bool = False, shares: str = "") -> tuple[Choice, ...]:
    """What is to be chosen for a derivation; what was chosen already (follow, shares) is asked still, so that it can be
    taken back.
    """
    choices = [*_tool(review)]
    changes = [change for group in review.groups for change in group.changes if change.command]
    commands = [str(item) for item in review.literals if item.can_follow]
    commands += [f"{item.file}:{item.line}: {item.base} → {item.derived}" for item in changes if follow]
    if commands:
        choices.append(Choice("start block", ("keep", "follow"), tuple(commands)))
    if review.held or shares:
        places = tuple(f"{item.file}:{item.line}: {item.key}" for item in review.held)
        choices.append(Choice("shares", ("", "follow"), places))
    return tuple(choices)


def _tool(review: Review) -> Iterator[Choice]:
    """Which of several tools carries the spool: their own values change for it alone. "" is for all of them."""
    tools = review.tools
    if tools is not None and tools.own:
        yield Choice("tool", ("", *map(str, range(1, tools.many + 1))), tools.own)


def questions(recipes: Sequence[Recipe]) -> tuple[InputQuestion, ...]:
    """Everything that the recipes ask, each question once, in the order in which the rules come to it."""
    by_name: dict[str, InputQuestion] = {}
    for recipe in recipes:
        for rule in recipe.rules:
            for subject in _subjects(rule):
                asked = _asked(recipe, subject)
                known = by_name.get(asked.name, asked)
                by_name[asked.name] = known._replace(
                    default=known.default or asked.default,
                    settings=tuple(dict.fromkeys((*known.settings, *rule.settings))),
                    reasons=tuple(dict.fromkeys((*known.reasons, *([rule.why] if rule.why else [])))),
                )
    return tuple(by_name.values())


def _subjects(rule: Rule) -> Iterator[str]:
    """The facts, and the inputs as "input.name", that a rule looks at."""
    yield from (clause.subject for clause in rule.when)
    for action in rule.actions:
        for operand in action.operands:
            yield from _named(operand)


def _named(operand: Operand) -> Iterator[str]:
    if isinstance(operand, FlowRef):
        yield from _named(operand.flow)
    elif isinstance(operand, InputRef):
        yield f"input.{operand.name}"
    elif isinstance(operand, FactRef):
        yield operand.name


def _asked(recipe: Recipe, subject: str) -> InputQuestion:
    """The question on a subject. An input that a fact answers is asked as that fact, so that several recipes ask
    once.
    """
    if not subject.startswith("input."):
        kind = fact_kinds()[subject]
        return InputQuestion(subject, kind, kind.ask)
    item = recipe.inputs[subject.removeprefix("input.")]
    name = item.fact or f"{recipe.name}.{item.name}"
    default = "" if item.default is None else item.kind.show(item.default)
    return InputQuestion(name, item.kind, item.ask, default)
