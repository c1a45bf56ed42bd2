"""What switches that share a key with something else do to it."""

from collections.abc import Iterable
from fractions import Fraction

from profilesmith.foundation.number import read_number
from profilesmith.profile.profile import Coupling
from profilesmith.translation.key_map import Binding
from profilesmith.translation.spelling import read_piece
from profilesmith.vocabulary.setting import Setting


def coupling_of(binding: Binding, switches: Iterable[Binding], setting: Setting, decimal: str) -> Coupling | None:
    """For a number whose key is also a switch: what turning it on or off writes, and what still reads as on."""
    switch = next((other for other in switches if other.rides(binding)), None)
    if switch is None or switch.on_when is None:
        return None
    on, off = (read_piece(texts[0], binding, setting, decimal, ()) for texts in (switch.on, switch.off))
    limit = read_number(switch.on_when.operand)
    if not isinstance(on.value, Fraction) or not isinstance(off.value, Fraction) or limit is None:
        return None
    lowest = limit if switch.on_when.sign == ">=" else limit + abs(on.grid.step) if switch.on_when.sign == ">" else None
    return Coupling(switch.setting, on.value, off.value, lowest)
