"""A rule that stands against another in words: who it is, what it asks, where a person finds it, what would mend it.

A rule of a recipe that ships is named by its number; one of the user's own file by its line as well.
"""

from collections.abc import Sequence

from profilesmith.foundation.place import Place
from profilesmith.recipe.cause_words import asked_words, cause_name
from profilesmith.recipe.rule_on_setting import Resolved
from profilesmith.vocabulary.setting import Setting


def rule_side(item: Resolved, setting: Setting) -> str:
    """``fast 1.0.0, rule 1 (at least 230 °C, fast.toml:8)``."""
    spot = _spot(item)
    return f"{cause_name(item.cause)} ({asked_words(item.asked, setting)}{f', {spot}' if spot else ''})"


def own_place(items: Sequence[Resolved]) -> Place:
    """The place of the first rule that stands in a file of the user's."""
    return next((item.ruling.rule.place for item in items if item.ruling.rule.place.is_own), Place())


def leave_out_hint(items: Sequence[Resolved], limit: str = "") -> str:
    """What would mend it: ``Leave out flexible-pla or fast, or change fast.toml:8; nothing was written.``

    limit: what a hard limit asks, where one stands against a rule: ``at most 240 °C``.
    """
    recipes = " or ".join(dict.fromkeys(item.cause.recipe for item in items if item.cause.recipe))
    spots = " or ".join(dict.fromkeys(filter(None, map(_spot, items))))
    to = f" to {limit}" if limit else ""
    change = f", or change {spots}{to}" if spots else ""
    return f"Leave out {recipes or 'one of them'}{change}; nothing was written."


def _spot(item: Resolved) -> str:
    """``fast.toml:8``, without the folders: the problem's own place has them."""
    place = item.ruling.rule.place
    name = place.file.replace("\\", "/").rpartition("/")[2]
    return str(Place(name, place.line)) if place.is_own else ""
