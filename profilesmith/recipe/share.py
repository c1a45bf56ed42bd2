"""A value that is written as a share of another setting, while that setting is worked out.

A share that is held is rewritten when its reference moves, so that its value stays; one that follows moves with it.
"""

from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.profile.profile import Entry, Grid, Profile


class Share(NamedTuple):
    """One tool's. share: 1 is the whole. before, after: the reference's value in the base and as derived."""

    share: Fraction
    before: Fraction | None
    after: Fraction | None
    held: bool

    @property
    def rewritten(self) -> bool:
        """Whether its text has to change for its value to stay."""
        same = self.before is self.after or self.before == self.after
        return self.held and not same and self.after is not None

    @property
    def unchanged(self) -> Fraction | None:
        """What the text as it stands comes to now."""
        return None if self.after is None else self.share * self.after

    def grid(self, grid: Grid) -> Grid:
        """The values that the text can hold. grid: of shares."""
        return grid.scaled(self.after) if self.after else Grid()


def is_rewritten(share: Share | None) -> bool:
    """Whether there is a share whose text has to change."""
    return share is not None and share.rewritten


def share_of(entry: Entry, tool: int, base: Profile, derived: Profile) -> Share | None:
    """What a tool's value is a share of; None where it stands for itself."""
    share = entry.shares[tool] if entry.shares else None
    if share is None:
        return None
    before, after = base.number(entry.relative_to, tool), derived.number(entry.relative_to, tool)
    return Share(share, before, after, entry.held and not is_spread(entry, base, derived))


def is_spread(entry: Entry, base: Profile, derived: Profile) -> bool:
    """Whether one share stands over references of several tools that differ: no text of it keeps all values."""
    sides = (base.values(entry.relative_to), derived.values(entry.relative_to))
    return any(len(entry.values) < len(values) and len(set(values)) > 1 for values in sides)
