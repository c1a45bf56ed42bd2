"""Two profiles side by side, setting by setting: canonical values, so that 0.2 mm and 200 µm are no difference."""

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.profile.profile import Profile
from profilesmith.vocabulary.setting import Value


class Difference(NamedTuple):
    """old or new is () where only the other profile knows the setting."""

    setting: str
    old: tuple[Value, ...]
    new: tuple[Value, ...]


def compare_profiles(old: Profile, new: Profile) -> list[Difference]:
    """The settings that differ, in the old profile's order, those that only ``new`` knows last."""
    differences = []
    newer = new.entries
    for name, entry in old.entries.items():
        other = newer.get(name)
        if other is None:
            differences.append(Difference(name, entry.values, ()))
        elif entry is not other and entry.values != other.values and not _same(entry.values, other.values):
            differences.append(Difference(name, entry.values, other.values))
    older = old.entries
    differences += [Difference(name, (), entry.values) for name, entry in newer.items() if name not in older]
    return differences


def _same(old: tuple[Value, ...], new: tuple[Value, ...]) -> bool:
    """Whether lists of different length say the same of every tool."""
    return len(old) != len(new) and len(set(old)) == 1 and set(old) == set(new)
