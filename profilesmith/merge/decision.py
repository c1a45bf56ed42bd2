"""Decision: what the two sides did to one thing, what was chosen and why. Every edit of either side that met another has one."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

KEPT, AGREED, CONFLICT, LEFT_OUT = "kept", "agreed", "conflict", "left out"
OUTCOMES = (KEPT, AGREED, CONFLICT, LEFT_OUT)
BASE, DERIVED, UNDECIDED = "base", "derived", ""


class Decision(NamedTuple):
    """One thing that a hand edited.

    what: a setting, a key or a line; kind: ``setting``, ``key`` or ``line``.
    outcome: ``kept`` (the hand edit goes on), ``agreed`` (the new base makes it needless), ``conflict`` (both sides
    moved, differently), ``left out`` (it cannot be carried over; it is named so that a person can do it).
    was, hand, new: the value as derived then, as edited since, as derived from the new base; "" for none.
    chosen: ``derived`` (the hand edit) or ``base`` (the new base with its recipes); "" while nobody has decided.
    overrules: the rule of a recipe that a kept edit overrules, "" for none. file, line: where the edit stands.
    """

    what: str
    kind: str
    outcome: str
    was: str = ""
    hand: str = ""
    new: str = ""
    chosen: str = UNDECIDED
    why: str = ""
    overrules: str = ""
    file: str = ""
    line: int = 0

    def sentence(self) -> str:
        """The record in one sentence."""
        spot = f" ({self.file}:{self.line})" if self.file and self.line else ""
        edit = f"{self.what}{spot}: {self.was or 'nothing'} → {self.hand or 'nothing'} by hand"
        if self.outcome == CONFLICT:
            chosen = {BASE: f"{self.new or 'nothing'} is taken", DERIVED: f"{self.hand or 'nothing'} is taken"}
            told = f"Conflict: {edit}, → {self.new or 'nothing'} with the new base; {chosen.get(self.chosen, 'not decided')}"
        else:
            told = {KEPT: "Kept", AGREED: "Needless now", LEFT_OUT: "Not carried over"}[self.outcome] + f": {edit}"
        more = [text for text in (self.why, f"it overrules {self.overrules}" if self.overrules else "") if text]
        return f"{told}{'; ' if more else ''}{'; '.join(more)}."


def remembered(history: Sequence[Mapping[str, Any]]) -> list[str]:
    """The sentences of the last merge in a ledger's history. What is missing in a damaged one is shown as nothing."""
    items = history[-1].get("decisions", ()) if history else ()
    names = set(Decision._fields)
    empty = Decision(what="", kind="line", outcome=LEFT_OUT)
    found = [
        empty._replace(**{name: value for name, value in item.items() if name in names and value is not None})
        for item in items
    ]
    return [decision.sentence() for decision in found if decision.outcome in OUTCOMES]


Choose = Callable[[Decision], str]
"""Asked for each conflict: ``base``, ``derived``, or "" when nobody can say."""


def settle(decision: Decision, choose: Choose) -> Decision:
    """A conflict with what was chosen."""
    chosen = choose(decision._replace(chosen=UNDECIDED))
    why = {BASE: "the new base is preferred", DERIVED: "the hand edit is preferred"}.get(chosen, decision.why)
    return decision._replace(chosen=chosen, why=why)
