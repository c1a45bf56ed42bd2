"""A number whose key is a switch as well: whether anybody says what is written when the switch goes on."""

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.profile.profile import Coupling, Entry, Grid, Profile
from profilesmith.recipe.combine import combine
from profilesmith.recipe.rule_on_setting import Resolved


def says_no_number(
    coupling: Coupling, entry: Entry, base: Profile, derived: Profile, resolved: Sequence[Resolved]
) -> bool:
    """Whether the switch was turned on, and neither the map nor a rule on the number says one that reads as on."""
    turned = not base.entries[coupling.switch].value and derived.entries[coupling.switch].value
    if not turned or coupling.on_value is not None:
        return False
    present = entry.value if isinstance(entry.value, Fraction) else None
    result = combine(present, Grid(), [item.demand for item in resolved]) if resolved else None
    return result is None or coupling.lowest is None or result.value < coupling.lowest
