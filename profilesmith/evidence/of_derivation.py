"""What of a derivation goes into a record: facts on machine and spool, and the values that were printed."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from profilesmith.checks.materials import material
from profilesmith.evidence.read_record import allowed_facts
from profilesmith.evidence.record import Values
from profilesmith.facts.facts import Facts, FactValue, Hardness, fact_kinds
from profilesmith.foundation.number import decimal_text
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.profile.profile import Profile
from profilesmith.vocabulary.setting import Setting, Value, Vocabulary


def recorded_facts(facts: Facts) -> tuple[dict[str, str], tuple[str, ...]]:
    """The facts on machine and spool as texts, and what is left out because it is somebody's own words."""
    kept: dict[str, str] = {}
    left_out = []
    for name in allowed_facts():
        if name not in facts:
            continue
        value = facts[name].value
        if fact_kinds()[name].kind == "text":
            known = material(str(value))
            if known is None:
                left_out.append(f"{name} is not recorded: it is no material that 'profilesmith materials' knows.")
                continue
            kept[name] = known.key
        else:
            kept[name] = _fact_text(name, value)
    return kept, tuple(left_out)


def _fact_text(name: str, value: FactValue) -> str:
    if isinstance(value, Hardness):
        return f"{decimal_text(value.number, 2)} Shore {value.scale}"
    if isinstance(value, tuple):
        return " to ".join(_fact_text(name, end) for end in value)
    unit = CANONICAL.get(fact_kinds()[name].unit_kind, "")
    return f"{decimal_text(value, 6)} {unit}".rstrip() if isinstance(value, Fraction) else value


def printed_values(names: Iterable[str], profile: Profile, vocabulary: Vocabulary) -> Values:
    """Settings with what a profile has for them; one for each tool where those differ."""
    values: dict[str, str | tuple[str, ...]] = {}
    for name in names:
        if name not in profile.entries:
            continue
        setting = vocabulary.settings[name]
        texts = tuple(_value_text(setting, value) for value in profile.entries[name].values)
        values[name] = texts[0] if len(set(texts)) == 1 else texts
    return values


def _value_text(setting: Setting, value: Value) -> str:
    if isinstance(value, bool | str):
        return setting.show(value)
    return f"{decimal_text(value, 6)} {setting.unit}".rstrip()
