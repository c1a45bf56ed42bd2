"""How conflicts between a hand edit and a new base are decided; what is decided, ``ledger.Decision`` says."""

from collections.abc import Callable
from typing import Final

from profilesmith.ledger import Decision

KEPT: Final = "kept"
AGREED: Final = "agreed"
CONFLICT: Final = "conflict"
LEFT_OUT: Final = "left out"
BASE: Final = "base"
DERIVED: Final = "derived"
UNDECIDED: Final = ""
Choose = Callable[[Decision], str]
"""Asked for each conflict: ``base``, ``derived``, or "" when nobody can say."""


def settle(decision: Decision, choose: Choose) -> Decision:
    """A conflict with what was chosen."""
    chosen = choose(decision._replace(chosen=UNDECIDED))
    why = {BASE: "base-preferred", DERIVED: "hand-preferred"}.get(chosen, decision.why)
    return decision._replace(chosen=chosen, why=why)  # type: ignore[arg-type]
