"""What a derived file holds now where a hand edited it since: every rendering shows that, beside what the recipes
made.
"""

from collections.abc import Collection, Mapping

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import BrokenRules, Ledger
from profilesmith.profile.profile import Profile
from profilesmith.review.hand_edits import differences
from profilesmith.vocabulary.setting import Value


class EditedNow(NamedTuple):
    """One setting. base: of the profile that was derived from; made: as the recipes made it; now: as the file has it.

    All canonical, one for each tool; () when there is none. breaks: (recipe, rule's number) of each rule that ``now``
    breaks.
    follows: its own text was not touched, its reference moved.
    """

    base: tuple[Value, ...]
    made: tuple[Value, ...]
    now: tuple[Value, ...]
    breaks: tuple[tuple[str, int], ...] = ()
    follows: bool = False
    file: str = ""
    line: int = 0
    key: str = ""
    text: str = ""
    section: str = ""


def edited_now(
    ledger: Ledger, now: Profile, broken: BrokenRules | None = None, followers: Collection[str] = ()
) -> Mapping[str, EditedNow]:
    """The settings whose value is no longer the derived one. broken: None where nobody can say."""
    return {
        item.setting: _edit(item.setting, ledger, now, broken or frozenset(), item.setting in followers)
        for item in differences(ledger, now)
    }


def _edit(name: str, ledger: Ledger, now: Profile, broken: BrokenRules, follows: bool) -> EditedNow:
    base, made, entry = ledger.base.entries.get(name), ledger.derived.entries.get(name), now.entries.get(name)
    breaks = sorted((recipe, rule) for setting, recipe, rule in broken if setting == name)
    edit = EditedNow(base.values if base else (), made.values if made else (), (), tuple(breaks), follows)
    if entry is None:
        return edit
    origin = entry.origin
    place = edit._replace(file=origin.file, line=origin.line, key=origin.key, section=origin.section)
    return place._replace(now=entry.values, text=origin.text)
