"""Settings that contradict each other, shares of more than the whole, and values far from what profiles usually hold:
mostly a unit that the map got wrong.
"""

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from functools import cache

from profilesmith.checks.amounts import amount, number, switch
from profilesmith.checks.case import Case
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import UNITS
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.profile.profile import Entry, Profile
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting, Value


class Contradicting(NamedTuple):
    """What is wrong, with the settings that clash and the numbers behind it."""

    verdict: Verdict
    settings: tuple[str, ...]
    amounts: tuple[Amount, ...] = ()


def check(case: Case) -> tuple[Finding, ...]:
    """One finding for each contradiction; one that passed when there is none."""
    findings = [
        Finding(
            f"together-{name}",
            fault.verdict,
            reason=f"together-{name}",
            amounts=fault.amounts,
            settings=fault.settings,
            source="common practice, no source",
        )
        for name, rule in RULES.items()
        if (fault := rule(case.now)) is not None
    ]
    if findings:
        return tuple(findings)
    return (Finding("together", "passed", reason="together", source="own list of contradictions"),)


def _fan(profile: Profile) -> Contradicting | None:
    least, usual = number(profile, "fan.minimum_power"), number(profile, "fan.power")
    if least is None or usual is None or least <= usual:
        return None
    amounts = (*amount("least", least, "%"), *amount("usual", usual, "%"))
    return Contradicting("caution", ("fan.minimum_power", "fan.power"), amounts)


def _raft_and_brim(profile: Profile) -> Contradicting | None:
    both = switch(profile, "raft.on") and switch(profile, "brim.on")
    return Contradicting("note", ("raft.on", "brim.on")) if both else None


def _fused_raft(profile: Profile) -> Contradicting | None:
    fused = switch(profile, "raft.on") and number(profile, "raft.gap") == 0
    return Contradicting("caution", ("raft.on", "raft.gap")) if fused else None


def _empty_raft(profile: Profile) -> Contradicting | None:
    empty = switch(profile, "raft.on") and number(profile, "raft.layers") == 0
    return Contradicting("caution", ("raft.on", "raft.layers")) if empty else None


def _fused_support(profile: Profile) -> Contradicting | None:
    fused = switch(profile, "support.on") is not False and number(profile, "support.gap") == 0
    return Contradicting("note", ("support.gap",)) if fused else None


def _empty_support(profile: Profile) -> Contradicting | None:
    empty = switch(profile, "support.on") and number(profile, "support.density") == 0
    return Contradicting("caution", ("support.on", "support.density")) if empty else None


def _loose_contact(profile: Profile) -> Contradicting | None:
    below, contact, layers = (
        number(profile, f"support.{name}") for name in ("density", "contact_density", "contact_layers")
    )
    if below is None or contact is None or contact >= below or layers == 0 or switch(profile, "support.on") is False:
        return None
    amounts = (*amount("contact", contact, "%"), *amount("below", below, "%"))
    return Contradicting("note", ("support.contact_density", "support.density"), amounts)


def _empty_brim(profile: Profile) -> Contradicting | None:
    empty = switch(profile, "brim.on") and number(profile, "brim.width") == 0
    return Contradicting("note", ("brim.on", "brim.width")) if empty else None


def _idle_retraction(profile: Profile) -> Contradicting | None:
    idle = switch(profile, "retraction.on") and number(profile, "retraction.distance") == 0
    return Contradicting("note", ("retraction.on", "retraction.distance")) if idle else None


def _hollow(profile: Profile) -> Contradicting | None:
    hollow = number(profile, "wall.count") == 0 and number(profile, "infill.density") == 0
    return Contradicting("caution", ("wall.count", "infill.density")) if hollow else None


def _gap_below_layer(profile: Profile) -> Contradicting | None:
    gap, height = number(profile, "support.gap"), number(profile, "layer.height")
    if gap is None or height is None or not 0 < gap < height / 2 or switch(profile, "support.on") is False:
        return None
    return Contradicting(
        "note", ("support.gap", "layer.height"), (*amount("gap", gap, "mm"), *amount("layer", height, "mm"))
    )


RULES: Mapping[str, Callable[[Profile], Contradicting | None]] = {
    "fan": _fan,
    "raft-brim": _raft_and_brim,
    "raft-gap": _fused_raft,
    "raft-layers": _empty_raft,
    "support-gap": _fused_support,
    "support-density": _empty_support,
    "support-contact": _loose_contact,
    "brim-width": _empty_brim,
    "retraction": _idle_retraction,
    "hollow": _hollow,
    "support-layer": _gap_below_layer,
}


SOURCE = "common practice, no source"


def check_shares(case: Case) -> tuple[Finding, ...]:
    """One caution for all of them: nothing to say where no share was rewritten to more than the whole."""
    if case.derived is None:
        return ()
    large = {
        name: entry
        for name, entry in case.derived.entries.items()
        if entry.shares and name in case.base.entries
        if _largest(entry) > 1 and entry.shares != case.base.entries[name].shares
    }
    if not large:
        return ()
    return (
        Finding(
            "large-shares",
            "caution",
            reason="share-above-whole",
            names=tuple(entry.relative_to or "" for entry in large.values()),
            amounts=tuple(
                part
                for number, entry in enumerate(large.values(), 1)
                for part in amount(f"share-{number}", float(_largest(entry) * 100), "%")
            ),
            source=SOURCE,
            settings=tuple(large),
        ),
    )


def _largest(entry: Entry) -> Fraction:
    return max((share for share in entry.shares if share is not None), default=Fraction(0))


USUAL_SOURCE = "usual ranges of the vocabulary: common practice, no source"


class FarOff(NamedTuple):
    """A value far from usual. unit, there: the unit in which the text's bare number would be usual, and what it then
    says.
    """

    setting: Setting
    value: Fraction
    unit: str = ""
    there: Fraction | None = None


def check_usual(case: Case) -> tuple[Finding, ...]:
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
            source=USUAL_SOURCE,
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


_Ends = tuple[tuple[int, int], tuple[int, int]]


@cache
def _usual_ends() -> Mapping[str, _Ends]:
    """The usual ranges, their ends as two whole numbers each."""
    usual = {name: setting.usual for name, setting in load_vocabulary().settings.items()}
    return {name: (ends[0].as_integer_ratio(), ends[1].as_integer_ratio()) for name, ends in usual.items() if ends}


def _is_within(ends: _Ends, value: Value) -> bool:
    """As ``Setting.is_usual``, of all values of a profile at once."""
    if type(value) is not Fraction:
        return True
    (low, below_low), (high, below_high), (top, bottom) = *ends, value.as_integer_ratio()
    return not top or (low * bottom <= top * below_low and top * below_high <= high * bottom)


def unusual(profile: Profile) -> Iterator[FarOff]:
    """Each setting with a value far from usual: the first such value."""
    settings, ends = load_vocabulary().settings, _usual_ends()
    for name, entry in profile.entries.items():
        setting, within = settings[name], ends.get(name)
        if within is None or all(_is_within(within, value) for value in entry.values):
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
