"""Findings and tweaks as rules of a recipe."""

from profilesmith.distil.finding import Finding, Tweak
from profilesmith.foundation.words import plural
from profilesmith.recipe.recipe import Rule
from profilesmith.vocabulary.setting import Vocabulary

SOURCE = "distilled from pairs"
KEEPER = "The physical reason is for the keeper of this recipe to add."


def rule_of(finding: Finding, number: int, pairs: int, vocabulary: Vocabulary) -> Rule:
    """A finding as a rule. pairs: how many it was distilled from."""
    members = [name for part in finding.named for name in vocabulary.expand(part)]
    settings = tuple(name for name in dict.fromkeys(members) if name not in finding.excluded)
    setting = vocabulary.settings[finding.settings[0]]
    why = f"Distilled from {plural(pairs, 'pair')}: {finding.evidence()}. {KEEPER}"
    return Rule(number, finding.named, settings, finding.law.actions(setting), finding.law.when, why, SOURCE)


def tweak_rule(tweak: Tweak, number: int, vocabulary: Vocabulary) -> Rule:
    """A tweak as a rule."""
    setting = vocabulary.settings[tweak.setting]
    pairs = len({item.pair for item in tweak.seen})
    why = f"Distilled from {plural(pairs, 'pair')} of {tweak.machine}: {tweak.reason}. {KEEPER}"
    return Rule(number, (tweak.setting,), (tweak.setting,), tweak.law.actions(setting), tweak.law.when, why, SOURCE)
