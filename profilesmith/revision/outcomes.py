"""What a recipe comes to on a profile, values and alarms, and how two such outcomes differ."""

from collections.abc import Mapping, Sequence

from profilesmith.checks.judge import judge
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem
from profilesmith.ledger.judgement import ALARMS, ORDER, Judgement, Verdict
from profilesmith.profile.profile import Profile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.findings.in_words import in_words
from profilesmith.revision.on_profiles import Moved, Values
from profilesmith.translation.document_to_profile import Translation
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

HURTS = "may hurt someone"


class Alarm(NamedTuple):
    """A check that asks for a look before printing, or a caution on what may hurt someone."""

    name: str
    title: str
    verdict: Verdict
    text: str


class ProfileOutcome(NamedTuple):
    """base, derived: setting -> values. alarms: by name and title. stops: why nothing is derived."""

    base: Mapping[str, Values]
    derived: Mapping[str, Values]
    alarms: Mapping[tuple[str, str], Alarm]
    stops: tuple[Problem, ...] = ()


class OutcomeDifference(NamedTuple):
    """From one outcome to a later one. came, went: alarms; worse: those whose verdict is a worse one now.

    stops: why nothing is derived any more; starts: what stood against it before and does no longer.
    """

    moved: tuple[Moved, ...] = ()
    came: tuple[Alarm, ...] = ()
    went: tuple[Alarm, ...] = ()
    worse: tuple[Alarm, ...] = ()
    stops: tuple[Problem, ...] = ()
    starts: tuple[Problem, ...] = ()


def outcome_of(translation: Translation, facts: Facts, recipe: Recipe) -> ProfileOutcome:
    """Derive as ``derive`` does, and judge."""
    vocabulary, base = load_vocabulary(), translation.profile
    ledger = apply_recipes(base, [recipe], facts, {}, vocabulary)
    if not ledger.problems:
        ledger = write_ledger(ledger, translation, vocabulary).ledger
    before = {name: entry.values for name, entry in base.entries.items()}
    if ledger.problems:
        return ProfileOutcome(before, {}, {}, ledger.problems)
    after = {name: entry.values for name, entry in ledger.derived.entries.items()}
    return ProfileOutcome(before, after, alarms_of(_alarming(base, ledger.derived, facts)))


def untouched(translation: Translation, facts: Facts) -> ProfileOutcome:
    """The profile itself: what a recipe that is new is held against."""
    values = {name: entry.values for name, entry in translation.profile.entries.items()}
    return ProfileOutcome(values, values, alarms_of(_alarming(translation.profile, None, facts)))


def _alarming(base: Profile, derived: Profile | None, facts: Facts) -> Judgement:
    """The judgement with its alarms alone, in words: nobody reads the rest here."""
    judgement = judge(base, derived, facts)
    alarms = (in_words(item) for item in judgement.findings if item.verdict in ALARMS)
    return judgement._replace(findings=tuple(alarms))


def alarms_of(judgement: Judgement) -> dict[tuple[str, str], Alarm]:
    """Checks and cautions that ask for a look, by name and title; of several of one name and title the worst."""
    every = [
        Alarm(item.check, item.title, item.verdict, item.text) for item in judgement.findings if item.verdict in ALARMS
    ]
    every += [Alarm(item.id, HURTS, "caution", item.text) for item in judgement.cautions]
    alarms: dict[tuple[str, str], Alarm] = {}
    for item in every:
        known = alarms.setdefault((item.name, item.title), item)
        if _badness(item) > _badness(known):
            alarms[item.name, item.title] = item
    return alarms


def _badness(alarm: Alarm) -> int:
    return -ORDER.index(alarm.verdict)


def difference(old: ProfileOutcome, new: ProfileOutcome, is_new: bool = False) -> OutcomeDifference:
    """From old to new. is_new: the recipe was not there before, so that its values are no change."""
    if old.stops or new.stops:
        same = bool(old.stops and new.stops)
        return OutcomeDifference(stops=() if same else new.stops, starts=() if same else old.stops)
    shared = old.alarms.keys() & new.alarms.keys()
    return OutcomeDifference(
        moved=() if is_new else tuple(_moved(old, new)),
        came=tuple(item for key, item in new.alarms.items() if key not in shared),
        went=() if is_new else tuple(item for key, item in old.alarms.items() if key not in shared),
        worse=tuple(
            item for key, item in new.alarms.items() if key in shared and _badness(item) > _badness(old.alarms[key])
        ),
    )


def _moved(old: ProfileOutcome, new: ProfileOutcome) -> Sequence[Moved]:
    return [
        Moved(name, new.base.get(name, ()), old.derived.get(name, ()), new.derived.get(name, ()))
        for name in load_vocabulary().settings
        if old.derived.get(name, ()) != new.derived.get(name, ())
    ]
