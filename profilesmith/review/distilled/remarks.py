"""Findings in sentences: evidence, doubts, rivals, exceptions. The same words stand in the file and in the report."""

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.checks.materials import material
from profilesmith.distil.bound import bound_of
from profilesmith.distil.finding import Distilled, DistilledRule, NoRule, Tweak
from profilesmith.distil.law import Law
from profilesmith.distil.replay import Miss
from profilesmith.distil.sample import NotSeen, Sample, Seen
from profilesmith.recipe.recipe import SettingRef
from profilesmith.review.distilled.reasons import (
    doubt_text,
    evidence_text,
    no_rule_reason,
    not_seen_reason,
    settle_text,
    tweak_reason,
)
from profilesmith.review.distilled.write_recipe import law_text
from profilesmith.vocabulary.setting import Value, Vocabulary

MOST_VALUES = 6


def heading(finding: DistilledRule) -> str:
    """``printing speeds, but first_layer.speed``."""
    but = f", but not {', '.join(finding.excluded)}" if finding.excluded else ""
    return f"{', '.join(finding.named)}{but}"


def evidence(finding: DistilledRule) -> str:
    """What speaks for a rule, and how much shorter it says so than a list of the values would."""
    share = 100 * finding.bits / finding.without if finding.without else 100
    return f"{evidence_text(finding)}; {share:.0f} % of the length of listing the values"


def meaning(finding: DistilledRule, samples: tuple[Sample, ...], vocabulary: Vocabulary) -> list[str]:
    """In words what a law of two parts, or a step of a temperature with its bound, says."""
    setting, law = vocabulary.settings[finding.settings[0]], finding.law
    if law.spread:
        low, high = (setting.show(value) for value in law.values)
        aim = f"; {setting.show(law.aim)} is one in the middle" if isinstance(law.aim, Fraction) else ""
        return [f"The pairs lie near one another, from {low} to {high}{aim}; which is best they do not tell."]
    bound = law if isinstance(law.aim, SettingRef) else bound_of(finding, vocabulary)
    if bound is None:
        return []
    step = law.aim.plus if isinstance(law.aim, SettingRef) else setting.show(law.values[0])
    of = law.aim.setting if isinstance(law.aim, SettingRef) else "what the base has"
    side, most = ("below", "least") if step.startswith("-") else ("above", "most")
    end = f"at {most} {setting.show(bound.values[0])}"
    always = f"Always {step.removeprefix('-')} {side} {of}, but {end}: no pair went farther."
    return [always, *_beyond_material(finding, bound, samples)]


def _beyond_material(finding: DistilledRule, bound: Law, samples: tuple[Sample, ...]) -> list[str]:
    """That the pairs went beyond what their spools' material stands as a rule."""
    name, end = finding.settings[0], bound.values[0]
    kind = name.removeprefix("first_layer.").replace(".", "_")
    spools = dict.fromkeys(samples[item.pair].facts.get("spool.material") for item in finding.seen)
    names = dict.fromkeys(str(fact.value) for fact in spools if fact is not None)
    ranges = [(word, known.ranges[kind]) for word in names if (known := material(word)) and kind in known.ranges]
    return [
        f"That is hotter than {word} is printed as a rule ({span.show()}, 'profilesmith materials')."
        for word, span in ranges
        if isinstance(end, Fraction) and float(end) > span.high
    ]


def doubts(finding: DistilledRule, vocabulary: Vocabulary) -> list[str]:
    """What cannot be told apart, the rivals and what would settle it."""
    if not finding.doubts:
        return []
    lines = [f"ambiguous: {'; '.join(map(doubt_text, finding.doubts))}."]
    lines += [f"or: {law_text(law, finding.settings[0], vocabulary)}" for law in finding.rivals]
    return [*lines, f"What would settle it: {settle_text(finding, vocabulary)}."]


def exceptions(finding: DistilledRule, samples: tuple[Sample, ...], vocabulary: Vocabulary) -> list[str]:
    return [f"exception: {seen_text(item, samples, vocabulary)}" for item in finding.exceptions]


def remarks(finding: DistilledRule, samples: tuple[Sample, ...], vocabulary: Vocabulary) -> tuple[str, ...]:
    """All comment sentences of a rule."""
    return (
        f"{evidence(finding)}.",
        *meaning(finding, samples, vocabulary),
        *doubts(finding, vocabulary),
        *exceptions(finding, samples, vocabulary),
    )


def seen_text(seen: Seen, samples: tuple[Sample, ...], vocabulary: Vocabulary) -> str:
    """``bench: nozzle.temperature 205 °C → 219 °C``."""
    setting = vocabulary.settings[seen.setting]
    before, after = (show(value, seen.setting, vocabulary) for value in (seen.before, seen.after))
    change = f"{before} → {after}" if seen.touched else f"left at {after}"
    return f"{samples[seen.pair].name}: {setting.id} {change}"


def show(value: Value | None, name: str, vocabulary: Vocabulary) -> str:
    return "absent" if value is None else vocabulary.settings[name].show(value)


def tweak_text(tweak: Tweak, samples: tuple[Sample, ...], vocabulary: Vocabulary) -> str:
    """One line on a tweak."""
    against = "" if tweak.fits else "; it stands against the recipe's rule and cannot be laid over it"
    law = law_text(tweak.law, tweak.setting, vocabulary)
    return f"{tweak.setting} {law} ({_values(tweak.seen, samples, vocabulary)}; {tweak_reason(tweak)}{against})"


def no_rule_text(none: NoRule, samples: tuple[Sample, ...], vocabulary: Vocabulary) -> str:
    return f"{none.setting} ({no_rule_reason(none)}; {_values(none.seen, samples, vocabulary)})"


def not_seen_text(item: NotSeen, samples: tuple[Sample, ...]) -> str:
    return f"not learnt from: {item.setting} of {samples[item.pair].name}: {not_seen_reason(item)}"


def miss_text(miss: Miss, samples: tuple[Sample, ...], vocabulary: Vocabulary) -> str:
    got, wanted = show(miss.derived, miss.setting, vocabulary), show(miss.tuned, miss.setting, vocabulary)
    return f"{samples[miss.pair].name}: {miss.setting} is tuned to {wanted}, the recipe gives {got}"


def _values(seen: Sequence[Seen], samples: tuple[Sample, ...], vocabulary: Vocabulary) -> str:
    texts = [
        seen_text(item, samples, vocabulary).replace(f"{item.setting} ", "")
        for item in ([item for item in seen if item.touched] or seen)
    ]
    more = f" and {len(texts) - MOST_VALUES} more" if len(texts) > MOST_VALUES else ""
    return "; ".join(texts[:MOST_VALUES]) + more


def machine_tweaks(distilled: Distilled) -> dict[str, list[Tweak]]:
    """The tweaks of each machine."""
    by_machine: dict[str, list[Tweak]] = {}
    for tweak in distilled.tweaks:
        by_machine.setdefault(tweak.machine, []).append(tweak)
    return by_machine
