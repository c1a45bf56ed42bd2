"""The tool that carries the spool, of a machine with several: what its own lists say of the others stays as it is."""

from fractions import Fraction

from profilesmith.facts.facts import Facts
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.foundation.words import plural
from profilesmith.ledger.tools import TOOL, tools_of
from profilesmith.profile.profile import Profile


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
