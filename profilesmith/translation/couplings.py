"""What switches that share a key with something else do to it."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from profilesmith.foundation.number import read_number
from profilesmith.profile.profile import Coupling, Departure, OneKey, Profile
from profilesmith.translation.key_map import Binding, KeyMap
from profilesmith.translation.spelling import read_piece
from profilesmith.vocabulary.setting import Setting, Value


def coupling_of(binding: Binding, switch: Binding | None, setting: Setting, decimal: str) -> Coupling | None:
    """For a number whose key is also a switch: what turning it on or off writes, and what still reads as on."""
    if switch is None or switch.on_when is None:
        return None
    on = read_piece(switch.on[0], binding, setting, decimal, ()) if switch.on else None
    off = read_piece(switch.off[0], binding, setting, decimal, ())
    limit = read_number(switch.on_when.operand)
    if not isinstance(off.value, Fraction) or limit is None or (on and not isinstance(on.value, Fraction)):
        return None
    step = abs((on or off).grid.step)
    lowest = limit if switch.on_when.sign == ">=" else limit + step if switch.on_when.sign == ">" else None
    on_value = on.value if on and isinstance(on.value, Fraction) else None
    return Coupling(switch.setting, on_value, off.value, lowest)


def writable(binding: Binding, setting: Setting, key_map: KeyMap) -> tuple[Value, ...] | None:
    """The choices or states of a switch that can be written; None for any."""
    if binding.kind == "choice":
        return tuple(binding.choices) if binding.choices else setting.values
    if binding.on_when is not None and not binding.on and key_map.number_of(binding) is None:
        return (False,)
    return None


def one_key(sharers: Sequence[Binding]) -> OneKey:
    """What recipes need to know of switches that share a key."""
    return OneKey(sharers[0].key, tuple(binding.setting for binding in sharers))


def unowned(sharers: Sequence[Binding], binding: Binding, texts: Iterable[str]) -> tuple[Departure, ...]:
    """Texts that turn none of the switches on and are not the one for off; told once a key."""
    known = {*sharers[0].off, *(text for sharer in sharers for text in sharer.on)}
    names = tuple(sharer.setting for sharer in sharers)
    return tuple(
        Departure("no-switch", text, names=names)
        for text in dict.fromkeys(texts)
        if text not in known and binding is sharers[0]
    )


class Sharing:
    """Which of several switches on one key writes its text. sharers: of each such switch all on its key.

    derived: the profile that is to be written.
    """

    def __init__(self, sharers: Mapping[str, Iterable[Binding]], derived: Profile) -> None:
        self.derived = derived
        self.others = {name: tuple(other.setting for other in of_one) for name, of_one in sharers.items()}

    def taken(self, setting: str, tool: int) -> bool:
        """Whether another switch is on for a tool, so that the key says that one's text."""
        values = (self.derived.values(other) for other in self.others.get(setting, ()) if other != setting)
        return any(tool < len(switches) and switches[tool] is True for switches in values)

    def writer(self, setting: str) -> str:
        """The switch whose text an added key gets: the one that is on, else the first."""
        names = [name for name in self.others.get(setting, (setting,)) if name in self.derived.entries]
        return next(
            (name for name in names if self.derived.entries[name].value is True), names[0] if names else setting
        )
