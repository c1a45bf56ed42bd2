"""Values far from what profiles usually hold: mostly a unit that the map got wrong."""

from collections.abc import Iterator
from fractions import Fraction

from profilesmith.checks.case import Case
from profilesmith.checks.finding import amount
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import UNITS
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.profile.profile import Entry, Profile
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting

SOURCE = "usual ranges of the vocabulary: common practice, no source"


class FarOff(NamedTuple):
    """A value far from usual. unit, there: the unit in which the text's bare number would be usual, and what it then
    says.
    """

    setting: Setting
    value: Fraction
    unit: str = ""
    there: Fraction | None = None


def check(case: Case) -> tuple[Finding, ...]:
    """One caution for all of the base's values that are far from usual; none where there are none."""
    odd = tuple(unusual(case.base))
    if not odd:
        return ()
    return (
        Finding(
            "usual",
            "caution",
            reason="far-from-usual",
            names=tuple(item.unit for item in odd),
            amounts=tuple(part for number, item in enumerate(odd, 1) for part in _amounts(number, item)),
            source=SOURCE,
            settings=tuple(item.setting.id for item in odd),
        ),
    )


def _amounts(number: int, item: FarOff) -> tuple[Amount, ...]:
    """The value, what is usual, and the value in the other unit, by the number of the setting."""
    setting = item.setting
    assert setting.usual is not None
    low, high = map(float, setting.usual)
    return (
        *amount(f"value-{number}", float(item.value), setting.unit),
        Amount(f"usual-{number}", low, high, setting.unit),
        *amount(f"there-{number}", None if item.there is None else float(item.there), setting.unit),
    )


def unusual(profile: Profile) -> Iterator[FarOff]:
    """Each setting with a value far from usual: the first such value."""
    settings = load_vocabulary().settings
    for name, entry in profile.entries.items():
        setting = settings[name]
        if all(map(setting.is_usual, entry.values)):
            continue
        far = (value for value in entry.values if not setting.is_usual(value) and not setting.implausible(value))
        value = next(far, None)
        if isinstance(value, Fraction):
            unit, there = next(_in_other_units(entry, setting, value), ("", None))
            yield FarOff(setting, value, unit, there)


def _in_other_units(entry: Entry, setting: Setting, value: Fraction) -> Iterator[tuple[str, Fraction]]:
    """The units under which the text's bare number would be usual, with what it then says."""
    own = UNITS.get(entry.unit)
    if own is None:
        return
    number = own.from_canonical(value)
    for name, unit in UNITS.items():
        there = unit.to_canonical(number)
        if unit.kind == setting.kind and unit is not own and there and setting.is_usual(there):
            yield name, there
