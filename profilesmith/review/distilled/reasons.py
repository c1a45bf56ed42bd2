"""Codes of what was distilled, in words: evidence, doubts, what would settle them, why something is no rule."""

from __future__ import annotations

from collections.abc import Mapping

from profilesmith.distil.finding import DistilledRule, NoRule, RuleDoubt, Tweak
from profilesmith.distil.raw_difference import RawDifference
from profilesmith.distil.replay import Replay
from profilesmith.distil.sample import NotSeen
from profilesmith.distil.ways import ShareWay
from profilesmith.foundation.words import plural
from profilesmith.profile.profile import absent_words
from profilesmith.recipe.operations import BY_NAME
from profilesmith.vocabulary.setting import Setting, Value, Vocabulary

_DOUBTS: Mapping[str, str] = {
    "one pair": "one pair alone never identifies a rule",
    "a guess": "no shorter than the plain list of its values, so a guess",
    "by one pair": "one pair alone changed it",
    "by one machine": "one machine alone changed it",
}
_NO_RULE: Mapping[str, str] = {
    "one pair alone": "one pair changed it, the others did not",
    "one pair": "one pair changed it",
    "as many exceptions": "{} pairs changed it; the shortest rule would have as many exceptions as cases",
    "each its way": ("{} pairs changed it, each in its own way; no rule says it shorter than the list of values"),
}
_TWEAKS: Mapping[str, str] = {
    "departs": "{} departs from the rule",
    "others left it": "no other machine changed it",
    "others lack it": "no other machine has this setting",
}
_NOT_SEEN: Mapping[str, str] = {
    "changed by hand": "a nozzle is changed by hand, so no recipe sets it",
    "not addable": "only the tuned text has it, and the map may not add it",
}


def evidence_text(finding: DistilledRule) -> str:
    """``3 pairs changed, 1 already met it, 0 exceptions``."""
    exceptions = len(finding.exceptions)
    # Of a group one pair shows several values: without their number the exceptions would look too many.
    several = exceptions and len(finding.explained) > len(finding.changed)
    values = f" ({len(finding.explained)} values)" if several else ""
    aside = f", {len(finding.aside)} without its condition" if finding.aside else ""
    spread = ", each to a place of its own inside" if finding.law.spread else ""
    return (
        f"{plural(len(finding.changed), 'pair')} changed{values}{spread}, {len(finding.met)} already met "
        f"it{aside}, {plural(exceptions, 'exception')}"
    )


def doubt_text(doubt: RuleDoubt) -> str:
    """Why a rule is not sure: ``one pair alone changed it (3 met it already, 1 departs from it)``."""
    if doubt.code == "rivals":
        return f"{' or '.join(doubt.laws)}: these pairs cannot tell"
    departs = "departs" if doubt.against == 1 else "depart"
    counts = (
        (doubt.met, "met it already"),
        (doubt.aside, "without its condition"),
        (doubt.against, f"{departs} from it"),
    )
    counted = ", ".join(f"{count} {words}" for count, words in counts if count)
    return _DOUBTS[doubt.code] + (f" ({counted})" if counted else "")


def settle_text(finding: DistilledRule, vocabulary: Vocabulary) -> str:
    """The base that would settle it, and what each law would make of it; "" where nothing is in doubt."""
    settle, setting = finding.settle, vocabulary.settings[finding.settings[0]]
    if settle is None:
        return ""
    if settle.operand is not None:
        return f"a pair of a machine or spool for which {settle.operand} has another value"
    is_group = finding.named[0] in vocabulary.groups
    subject = finding.named[0] if is_group else setting.words[0] if setting.words else setting.id
    other = "have other values" if is_group else "has another value"
    if settle.base is None:
        return f"a pair of another base in which the {subject} {other}"
    are = "are" if is_group else "is"
    where = f"{are} {settle.side} {setting.show(settle.end)}" if settle.side else other
    outcomes = ", ".join(_outcome(name, value, settle.base, setting) for name, value in settle.outcomes)
    return f"a base whose {subject} {where}, such as {setting.show(settle.base)}: {outcomes}"


def _outcome(name: str, value: Value | None, before: Value, setting: Setting) -> str:
    what = BY_NAME[name].noun
    if value == before:
        return f"{what} leaves it"
    return f"{what} does not go" if value is None else f"{what} gives {setting.show(value)}"


def no_rule_reason(none: NoRule) -> str:
    return _NO_RULE[none.reason].format(len({item.pair for item in none.seen}))


def tweak_reason(tweak: Tweak) -> str:
    return _TWEAKS[tweak.reason].format(tweak.machine)


def not_seen_reason(item: NotSeen) -> str:
    if item.reason == "no value":
        return f"the tuned text has no value: {absent_words(item.absent) if item.absent else 'its key is gone'}"
    return f"{item.word!r} is no word of the vocabulary" if item.reason == "no word" else _NOT_SEEN[item.reason]


def way_text(way: ShareWay) -> str:
    """Whether a machine's shares kept their values or followed, and what its map should say then."""
    kept = way.kept > way.followed
    word, count = ("kept their values", way.kept) if kept else ("followed", way.followed)
    advice = "" if kept else ': its map should say shares = "follow"'
    votes = f"{count} of {way.kept + way.followed}"
    return f"{way.machine}: shares {word} when their references moved ({votes}){advice}"


def raw_text(item: RawDifference) -> str:
    """``desk.conf:12 Bell: 3, which is gone``."""
    if item.kind == "no setting":
        return f"{item.file}:{item.line} {item.text} (no setting)"
    return f"{item.file}:{item.line} {item.key}: {item.text}{', which is gone' if item.kind == 'gone' else ''}"


def as_tuned(result: Replay) -> str:
    """What can be said of a replay that passed."""
    return "derived = tuned for every pair" + (", or inside its rule's window" if result.inside else "")


def counted(result: Replay) -> str:
    """How many values came out in which way."""
    inside = f", {result.inside} elsewhere in the window" if result.inside else ""
    return f"{plural(result.exact, 'value')} exactly, {result.rounded} within their text's rounding{inside}"
