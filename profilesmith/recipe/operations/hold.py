"""``hold``: a product of two settings stays at least what it was in the base. HELD lists the products by name.

Exact layer counts: N' = ceil(N h / h') in fractions, never in floats (``ceil(3 * 0.2 / 0.2)`` is 4 there).
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from profilesmith.physics.skins import layers_for_same_thickness
from profilesmith.recipe.operations.operation import Demand, Operation, number
from profilesmith.vocabulary.setting import Value


class Product(NamedTuple):
    """settings: those that may be held. partner: the setting whose change is made up for."""

    settings: tuple[str, ...]
    partner: str
    meaning: str


HELD: Mapping[str, Product] = {
    "thickness": Product(
        ("top.layers", "bottom.layers", "support.contact_layers", "raft.layers"),
        "layer.height",
        "layers times layer height stays at least what it was",
    ),
    "line spacing": Product(
        ("support.density", "support.contact_density", "infill.density"),
        "bead.width",
        "lines of the same pattern stand no farther apart than they did",
    ),
}


def lowest(product: str, base: Fraction, partner_before: Fraction, partner_after: Fraction) -> Fraction:
    """The lowest value that holds a product. Thickness: whole layers. Line spacing w/density: in proportion."""
    if product == "thickness":
        return Fraction(layers_for_same_thickness(int(base), partner_before, partner_after))
    return base * partner_after / partner_before


def demand(values: Sequence[Value]) -> Demand:
    return Demand(low=number(values[0]))


OPERATION = Operation("hold", "hold the {0}", demand, reads="word")
