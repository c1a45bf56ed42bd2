"""What switches that share a key with something else do to it."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from profilesmith.foundation.number import read_number
from profilesmith.profile.profile import Coupling, OneKey, Profile
from profilesmith.translation.key_map import Binding, KeyMap
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


def one_key(sharers: Sequence[Binding]) -> OneKey:
    """What recipes need to know of switches that share a key."""
    return OneKey(sharers[0].key, tuple(binding.setting for binding in sharers))


def unowned(sharers: Sequence[Binding], binding: Binding, texts: Iterable[str]) -> list[str]:
    """What is to be said of texts that turn none of the switches on and are not the one for off; said once a key."""
    known = {*sharers[0].off, *(text for sharer in sharers for text in sharer.on)}
    names = ", ".join(sharer.setting for sharer in sharers)
    return [
        f"{text!r} is the text of none of {names}: all of them are off, and it is overwritten when a rule turns one on"
        for text in dict.fromkeys(texts)
        if text not in known and binding is sharers[0]
    ]


class Sharing:
    """Which of several switches on one key writes its text. derived: the profile that is to be written."""

    def __init__(self, key_map: KeyMap, derived: Profile) -> None:
        self.derived = derived
        self.others = {
            binding.setting: tuple(other.setting for other in sharers)
            for sharers in key_map.sharers()
            for binding in sharers
        }

    def taken(self, setting: str, tool: int) -> bool:
        """Whether another switch is on for a tool, so that the key says that one's text."""
        values = (self.derived.values(other) for other in self.others.get(setting, ()) if other != setting)
        return any(tool < len(found) and found[tool] is True for found in values)

    def writer(self, setting: str) -> str:
        """The switch whose text an added key gets: the one that is on, else the first."""
        names = [name for name in self.others.get(setting, (setting,)) if name in self.derived.entries]
        return next(
            (name for name in names if self.derived.entries[name].value is True), names[0] if names else setting
        )
