"""Texts with several tools: how many, and what a derivation did to which of them."""

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.ledger import MOVING, Ledger
from profilesmith.profile.profile import Profile

TOOL = "spool.tool"


class Tools(NamedTuple):
    """many: tools of the text. chosen: the one that carries the spool, counted from 1; 0 where nobody said.

    own: settings with a value for each tool that were changed; shared: changed ones that all tools have in common.
    """

    many: int
    chosen: int
    own: tuple[str, ...]
    shared: tuple[str, ...]


def tools_of(profile: Profile) -> int:
    """How many tools a text has values for; 1 where it has no lists."""
    return max((len(entry.values) for entry in profile.entries.values()), default=1)


def tools_changed(ledger: Ledger) -> Tools | None:
    """What happened to which tools; None for a text of one tool, and where nothing was changed."""
    many = tools_of(ledger.base)
    moved = list(dict.fromkeys(row.setting for row in ledger.rows if row.status in MOVING))
    if many < 2 or not moved:
        return None
    fact = ledger.facts.get(TOOL)
    own = tuple(name for name in moved if len(ledger.derived.values(name)) > 1)
    shared = tuple(name for name in moved if name not in own and ledger.derived.values(name))
    return Tools(many, int(fact.value) if fact and not isinstance(fact.value, (str, tuple)) else 0, own, shared)
