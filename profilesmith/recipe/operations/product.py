"""Products of two settings that a rule can hold, by the word that names them.

Exact layer counts: N' = ceil(N h / h') in fractions, never in floats (``ceil(3 * 0.2 / 0.2)`` is 4 there).
"""

from collections.abc import Callable, Mapping
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.physics.skins import layers_for_same_thickness


class Product(NamedTuple):
    """settings: those that may be held. partner: the setting whose change is made up for.

    lowest: from (base value, partner before, partner after) to the lowest value that holds the product.
    by_hand: for a person with a list, what to see to and how.
    """

    settings: tuple[str, ...]
    partner: str
    meaning: str
    lowest: Callable[[Fraction, Fraction, Fraction], Fraction]
    by_hand: tuple[str, str]


def _whole_layers(base: Fraction, before: Fraction, after: Fraction) -> Fraction:
    return Fraction(layers_for_same_thickness(int(base), before, after))


def _in_proportion(base: Fraction, before: Fraction, after: Fraction) -> Fraction:
    """Line spacing w / density: wider lines need more of the space."""
    return base * after / before


PRODUCTS: Mapping[str, Product] = {
    "thickness": Product(
        ("top.layers", "bottom.layers", "support.contact_layers", "raft.layers"),
        "layer.height",
        "layers times layer height stays at least what it was",
        _whole_layers,
        (
            "as thick as before",
            "when the layer height changes, take so many layers that layers times layer height is no less than it was",
        ),
    ),
    "line spacing": Product(
        ("support.density", "support.contact_density", "infill.density"),
        "bead.width",
        "lines of the same pattern stand no farther apart than they did",
        _in_proportion,
        (
            "as close as before",
            "when the bead width changes, multiply it by the new width and divide it by the old one",
        ),
    ),
}
