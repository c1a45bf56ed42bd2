"""What is known of the tool that prints: its nozzle's bore as a fact, and whether it is the one that carries the spool.

What the text says of the bore answers the question where no facts file does. No recipe sets it: a nozzle is changed by
hand. A text and facts that name two different bores are a conflict, where a recipe asks for the bore at all; of a text
with several bores none is taken. Of a machine with several tools, what its own lists say of the others stays as it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.facts.facts import Fact, Facts
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.foundation.quantity import show_quantity
from profilesmith.foundation.words import plural
from profilesmith.ledger.ledger import TOOL, tools_of
from profilesmith.profile.profile import Profile
from profilesmith.recipe.recipe import FactRef, Recipe, parts

BORE, FITTED = "nozzle.diameter", "machine.nozzle_diameter"


def with_bore(base: Profile, facts: Facts) -> Facts:
    """The facts, with the bore that the text names for all of its tools where no fact names one."""
    entry = base.entries.get(BORE)
    if FITTED in facts or entry is None or len(set(entry.values)) != 1:
        return facts
    value = entry.value
    if isinstance(value, (bool, str)) or value <= 0:
        return facts
    place = Place(entry.origin.file, entry.origin.line)
    return {**facts, FITTED: Fact(value, place, show_quantity(value, "length"))}


def other_bore(base: Profile, facts: Facts, recipes: Sequence[Recipe]) -> list[Problem]:
    """The conflict, where there is one, of a text for one nozzle with facts of another, where a recipe looks at the
    bore.
    """
    fact, bores = facts.get(FITTED), set(base.values(BORE))
    if fact is None or not bores or fact.value in bores or not any(map(_asks, recipes)):
        return []
    stated, fitted = (
        ", ".join(show_quantity(value, "length") for value in held if isinstance(value, Fraction))
        for held in (base.values(BORE), (fact.value,))
    )
    message = f"The text is for a nozzle of {stated}, the facts name one of {fitted}, and a rule asks for the nozzle."
    hint = "Take a profile for the nozzle that is fitted, or correct machine.nozzle_diameter."
    return [Problem("nozzle-differs", message, fact.place, hint, severity=CONFLICT)]


def _asks(recipe: Recipe) -> bool:
    named = {item.fact for item in recipe.inputs.values()}
    for rule in recipe.rules:
        named |= {clause.subject for clause in rule.when}
        named |= {clause.against.name for clause in rule.when if clause.against is not None}
        operands = (operand for action in rule.actions for operand in action.operands)
        named |= {part.name for operand in operands for part in parts(operand) if isinstance(part, FactRef)}
    return FITTED in named


def chosen_tool(facts: Facts) -> int | None:
    """Counted from 0; None where nobody said which, and all are changed."""
    fact = facts.get(TOOL)
    return int(fact.value) - 1 if fact and isinstance(fact.value, Fraction) else None


def no_such_tool(base: Profile, facts: Facts) -> list[Problem]:
    """The conflict, where the text has several tools, and not the one that is named."""
    tools, chosen = tools_of(base), chosen_tool(facts)
    if tools < 2 or chosen is None or chosen < tools:
        return []
    message = f"The text has {plural(tools, 'tool', 'tools')}, the facts name tool {chosen + 1}."
    hint = f"Name one from 1 to {tools}."
    return [Problem("no-such-tool", message, facts[TOOL].place, hint, severity=CONFLICT)]
