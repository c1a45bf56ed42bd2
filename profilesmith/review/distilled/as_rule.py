"""Findings and tweaks as rules of a recipe."""

from collections.abc import Sequence

from profilesmith.distil.bound import bound_of
from profilesmith.distil.finding import DistilledRule, Tweak
from profilesmith.distil.law import Law
from profilesmith.foundation.words import plural
from profilesmith.recipe.recipe import Rule
from profilesmith.review.distilled.reasons import evidence_text, tweak_reason
from profilesmith.vocabulary.setting import Vocabulary

SOURCE = "distilled from pairs"
BOUND = "No pair was printed with a temperature beyond it, so the step ends there."
KEEPER = "The physical reason is for the keeper of this recipe to add."


def rule_of(finding: DistilledRule, number: int, pairs: int, vocabulary: Vocabulary) -> Rule:
    """A finding as a rule. pairs: how many it was distilled from."""
    members = [name for part in finding.named for name in vocabulary.expand(part)]
    settings = tuple(name for name in dict.fromkeys(members) if name not in finding.excluded)
    setting = vocabulary.settings[finding.settings[0]]
    why = f"Distilled from {plural(pairs, 'pair')}: {evidence_text(finding)}. {KEEPER}"
    return Rule(number, finding.named, settings, finding.law.actions(setting), finding.law.when, why, SOURCE)


def rules_of(
    findings: Sequence[DistilledRule], pairs: int, vocabulary: Vocabulary
) -> list[tuple[Rule, DistilledRule, Law | None]]:
    """All findings as rules, each with its finding; after a step of a temperature its bound, with its law."""
    rules: list[tuple[Rule, DistilledRule, Law | None]] = []
    for finding in findings:
        rules.append((rule_of(finding, len(rules) + 1, pairs, vocabulary), finding, None))
        bound = bound_of(finding, vocabulary)
        if bound is not None:
            rule, setting = rules[-1][0], vocabulary.settings[finding.settings[0]]
            why = f"{BOUND} {KEEPER}"
            actions = bound.actions(setting)
            rules.append((rule._replace(number=len(rules) + 1, actions=actions, why=why), finding, bound))
    return rules


def tweak_rule(tweak: Tweak, number: int, vocabulary: Vocabulary) -> Rule:
    """A tweak as a rule."""
    setting = vocabulary.settings[tweak.setting]
    pairs = len({item.pair for item in tweak.seen})
    why = f"Distilled from {plural(pairs, 'pair')} of {tweak.machine}: {tweak_reason(tweak)}. {KEEPER}"
    return Rule(number, (tweak.setting,), (tweak.setting,), tweak.law.actions(setting), tweak.law.when, why, SOURCE)
