"""What somebody changed in a derived file after it was written, and which recipe rule that overrules."""

from fractions import Fraction

from profilesmith.profile.compare_profiles import Difference, compare_profiles
from profilesmith.profile.ledger import Ledger, Row
from profilesmith.profile.profile import Profile
from profilesmith.review.wording import show_values, visible
from profilesmith.vocabulary.setting import Vocabulary


def hand_edits(ledger: Ledger, now: Profile, vocabulary: Vocabulary) -> list[str]:
    """One sentence for each setting whose value is no longer the derived one."""
    found = (difference for difference in compare_profiles(ledger.derived, now) if not _same(difference))
    return [_sentence(difference, ledger, now, vocabulary) for difference in found]


def _same(difference: Difference) -> bool:
    """Whether both sides are one stored number: a ledger keeps a third of a degree as the nearest double."""
    old, new = difference.old, difference.new
    return len(old) == len(new) and all(
        isinstance(mine, Fraction) and isinstance(theirs, Fraction) and float(mine) == float(theirs)
        for mine, theirs in zip(old, new, strict=True)
    )


def _sentence(difference: Difference, ledger: Ledger, now: Profile, vocabulary: Vocabulary) -> str:
    setting = vocabulary.settings[difference.setting]
    entry = now.entries.get(difference.setting)
    spot = f" ({visible(entry.origin.file)}:{entry.origin.line})" if entry and entry.origin.file else ""
    told = f"{setting.id} {show_values(setting, difference.old)} → {show_values(setting, difference.new)}{spot}"
    rules = [row for row in ledger.rows if row.setting == setting.id and _deciding(row)]
    if not rules:
        return f"{told}; no rule speaks of it"
    verb = "overrules" if rules[0].status in ("changed", "added") else "the rule is"
    return f"{told}; {verb} {visible(str(rules[0].cause))}: {visible(rules[0].cause.demand)}"


def _deciding(row: Row) -> bool:
    return row.status in ("changed", "added", "kept") and row.cause.rule > 0
