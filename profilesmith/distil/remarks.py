"""Findings in sentences: evidence, doubts, rivals, exceptions. The same words stand in the file and in the report."""

from collections.abc import Sequence

from profilesmith.distil.finding import Distilled, Finding, NoRule, Tweak
from profilesmith.distil.replay import Miss
from profilesmith.distil.sample import NotSeen, Sample, Seen
from profilesmith.distil.write_recipe import law_text
from profilesmith.vocabulary.setting import Value, Vocabulary

MOST_VALUES = 6


def heading(finding: Finding) -> str:
    """``printing speeds, but first_layer.speed``."""
    but = f", but not {', '.join(finding.excluded)}" if finding.excluded else ""
    return f"{', '.join(finding.named)}{but}"


def evidence(finding: Finding) -> str:
    """What speaks for a rule, and how much shorter it says so than a list of the values would."""
    share = 100 * finding.bits / finding.without if finding.without else 100
    return f"{finding.evidence()}; {share:.0f} % of the length of listing the values"


def doubts(finding: Finding, vocabulary: Vocabulary) -> list[str]:
    """What cannot be told apart, the rivals and what would settle it."""
    if not finding.doubts:
        return []
    lines = [f"ambiguous: {'; '.join(finding.doubts)}."]
    lines += [f"or: {law_text(law, finding.settings[0], vocabulary)}" for law in finding.rivals]
    return [*lines, f"What would settle it: {finding.settle}."]


def exceptions(finding: Finding, samples: tuple[Sample, ...], vocabulary: Vocabulary) -> list[str]:
    return [f"exception: {seen_text(item, samples, vocabulary)}" for item in finding.exceptions]


def remarks(finding: Finding, samples: tuple[Sample, ...], vocabulary: Vocabulary) -> tuple[str, ...]:
    """All comment sentences of a rule."""
    return (f"{evidence(finding)}.", *doubts(finding, vocabulary), *exceptions(finding, samples, vocabulary))


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
    return f"{tweak.setting} {law} ({_values(tweak.seen, samples, vocabulary)}; {tweak.reason}{against})"


def no_rule_text(none: NoRule, samples: tuple[Sample, ...], vocabulary: Vocabulary) -> str:
    return f"{none.setting} ({none.reason}; {_values(none.seen, samples, vocabulary)})"


def not_seen_text(item: NotSeen, samples: tuple[Sample, ...]) -> str:
    return f"not learnt from: {item.setting} of {samples[item.pair].name}: {item.reason}"


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


def machine_tweaks(found: Distilled) -> dict[str, list[Tweak]]:
    """The tweaks of each machine."""
    by_machine: dict[str, list[Tweak]] = {}
    for tweak in found.tweaks:
        by_machine.setdefault(tweak.machine, []).append(tweak)
    return by_machine
