"""Lengths to counts: how many beads side by side, or layers on top of each other, a profile needs for a length."""

from __future__ import annotations

import math
from fractions import Fraction

from profilesmith.physics.bead import solid_spacing_mm
from profilesmith.profile.profile import Profile
from profilesmith.recipe.operations import Operation

BEADS, LAYERS = "beads_for", "layers_for"
# Counts that each word may stand for; those of the second kind that begin with the first layer.
COUNTS = {
    BEADS: ("wall.count",),
    LAYERS: ("top.layers", "bottom.layers", "raft.layers", "support.contact_layers", "fan.off_layers"),
}
_FROM_THE_BED = ("bottom.layers", "fan.off_layers")
_NEARLY = Fraction(1, 10**6)  # of a bead or layer: its spacing holds pi, and a millionth less is enough


def count_settings(what: str, setting: str) -> tuple[str, ...]:
    """The settings that a count is worked out from."""
    if what == BEADS:
        return "outer_wall.bead_width", "bead.width", "layer.height"
    return ("layer.height", "first_layer.height") if setting in _FROM_THE_BED else ("layer.height",)


def count_for(what: str, setting: str, length: Fraction, profile: Profile, tool: int) -> Fraction | str:
    """The count, not yet whole, that makes a length above 0 [mm] exactly; or the setting that is missing for it."""
    height = profile.number("layer.height", tool)
    if height is None or height <= 0:
        return "layer.height"
    if what == LAYERS:
        first = profile.number("first_layer.height", tool) if setting in _FROM_THE_BED else None
        return 1 + (length - (first or height)) / height
    outer = profile.number("outer_wall.bead_width", tool) or profile.number("bead.width", tool)
    inner = profile.number("bead.width", tool) or outer
    if outer is None or inner is None or min(inner, outer) < height:
        return "bead.width"
    spacing = Fraction(solid_spacing_mm(float(inner), float(height)))
    return 1 + (length - outer) / spacing


def whole(count: Fraction, operation: Operation) -> Fraction:
    """The count inside the bound that an operation makes of it: up for a least, down for a most, else the nearest.

    One at least, since there is something to be made.
    """
    asks = operation.asks
    if "low" in asks and "high" not in asks:
        number = math.ceil(count - _NEARLY)
    elif "high" in asks and "low" not in asks:
        number = math.floor(count + _NEARLY)
    else:
        number = math.floor(count + Fraction(1, 2))
    return Fraction(max(1, number))
