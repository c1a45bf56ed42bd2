"""What somebody changed in a derived file after it was written, and which recipe rule that overrules."""

from collections.abc import Collection
from fractions import Fraction

from profilesmith.ledger import BrokenRules, Ledger, Row
from profilesmith.profile.compare_profiles import Difference, compare_profiles
from profilesmith.profile.profile import Profile
from profilesmith.recipe.cause_words import cause_name, demand_words
from profilesmith.review.wording import show_values, visible
from profilesmith.vocabulary.setting import Vocabulary


def hand_edits(
    ledger: Ledger,
    now: Profile,
    vocabulary: Vocabulary,
    broken: BrokenRules | None = None,
    followers: Collection[str] = (),
    but: Collection[str] = (),
) -> list[str]:
    """One sentence for each setting whose value is no longer the derived one.

    broken: the rules, as (setting, recipe, number), that the profile as it is now breaks; None when nobody can say.
    followers: settings whose own text was not touched. but: settings that are not to be told.
    """
    return [
        _sentence(difference, ledger, now, vocabulary, broken) + _follows(difference.setting, now, followers)
        for difference in differences(ledger, now)
        if difference.setting not in but
    ]


def changed_settings(ledger: Ledger, now: Profile) -> list[str]:
    """The settings that ``hand_edits`` speaks of."""
    return [difference.setting for difference in differences(ledger, now)]


def differences(ledger: Ledger, now: Profile) -> list[Difference]:
    """What the profile holds otherwise than the ledger's derived one."""
    return [difference for difference in compare_profiles(ledger.derived, now) if not _same(difference)]


def _same(difference: Difference) -> bool:
    """Whether both sides are one stored number: a ledger keeps a third of a degree as the nearest double."""
    old, new = difference.old, difference.new
    return len(old) == len(new) and all(
        isinstance(mine, Fraction) and isinstance(theirs, Fraction) and float(mine) == float(theirs)
        for mine, theirs in zip(old, new, strict=True)
    )


def _sentence(
    difference: Difference, ledger: Ledger, now: Profile, vocabulary: Vocabulary, broken: BrokenRules | None
) -> str:
    setting = vocabulary.settings[difference.setting]
    entry = now.entries.get(difference.setting)
    spot = f" ({visible(entry.origin.file)}:{entry.origin.line})" if entry and entry.origin.file else ""
    change = f"{setting.id} {show_values(setting, difference.old)} → {show_values(setting, difference.new)}{spot}"
    rules = [row for row in ledger.rows if row.setting == setting.id and _deciding(row)]
    if not rules:
        return f"{change}; no rule speaks of it"
    row, verb = rules[0], "the rule is"
    if broken is not None and difference.new:
        against = [row for row in rules if (row.setting, row.cause.recipe, row.cause.rule) in broken]
        row, verb = (against[0], "overrules") if against else (row, "it meets")
    return f"{change}; {verb} {visible(cause_name(row.cause))}: {visible(demand_words(row.cause, setting))}"


def _follows(setting: str, now: Profile, followers: Collection[str]) -> str:
    """That a value moved with another one, or ""."""
    return f"; it is written relative to {now.entries[setting].relative_to}" if setting in followers else ""


def _deciding(row: Row) -> bool:
    return row.status in ("changed", "added", "kept") and row.cause.kind == "rule"
