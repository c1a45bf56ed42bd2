"""Values far from what profiles usually hold: mostly a unit that the map got wrong."""

from collections.abc import Iterator
from fractions import Fraction

from profilesmith.checks.case import Case
from profilesmith.foundation.number import plain_text
from profilesmith.foundation.quantity import UNITS
from profilesmith.ledger.judgement import Finding
from profilesmith.profile.profile import Entry, Profile
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting

SOURCE = "usual ranges of the vocabulary: common practice, no source"
MOST = 5


def check(case: Case) -> tuple[Finding, ...]:
    """One caution for all of the base's values that are far from usual; none where there are none."""
    found = dict(unusual(case.base))
    if not found:
        return ()
    more = f" There are {len(found) - MOST} more: 'profilesmith keymap check' names them." if len(found) > MOST else ""
    text = f"{'; '.join(list(found.values())[:MOST])}.{more} If a unit is wrong, say the right one in the key map."
    return (
        Finding(
            "usual",
            "caution",
            "Values far from usual",
            text,
            source=SOURCE,
            settings=tuple(found),
            reason="far-from-usual",
        ),
    )


def unusual(profile: Profile) -> Iterator[tuple[str, str]]:
    """Each setting with a value far from usual, and a sentence that names the unit in which it would not be."""
    settings = load_vocabulary().settings
    for name, entry in profile.entries.items():
        setting = settings[name]
        far = (value for value in entry.values if not setting.is_usual(value) and not setting.implausible(value))
        value = next(far, None)
        if isinstance(value, Fraction):
            yield name, f"{name}: {_sentence(entry, setting, value)}"


def _sentence(entry: Entry, setting: Setting, value: Fraction) -> str:
    assert setting.usual is not None
    low, high = plain_text(setting.usual[0]), setting.show(setting.usual[1])
    other = next(
        (f"; as {name} it is {setting.show(there)}" for name, there in _in_other_units(entry, setting, value)), ""
    )
    return f"{setting.show(value)} is far from usual ({low} to {high}){other}"


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
