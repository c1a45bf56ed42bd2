"""What contradicts a ledger. It may have gone through strange hands: a hash in it proves nothing that stands beside it.

Held against one another: the text itself, the copy of it that the ledger keeps, the values and rows of the ledger, its
own recipes, and the limits that no recipe may pass.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator

from profilesmith.facts.facts import Fact
from profilesmith.foundation.place import Place
from profilesmith.ledger import MOVING, Row
from profilesmith.ledger.judgement import ALARMS
from profilesmith.ledger.packed import unpack
from profilesmith.ledger.read import Stored
from profilesmith.merge.overruled import broken_rules
from profilesmith.profile.profile import Profile
from profilesmith.recipe.cause_words import cause_name, demand_words
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.findings.in_words import judge
from profilesmith.review.hand_edits import hand_edits
from profilesmith.review.wording import show_values, visible
from profilesmith.translation.document_to_profile import Translation
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

DOUBT = "The ledger cannot be relied on"
SINCE = ("usual",)  # checks that came after ledgers were written without them, and are of no limit
CLAIMED = ("changed", "added", "kept")


def ledger_doubts(stored: Stored, now: Translation | None) -> list[str]:
    """Sentences, for a text whose hash is the ledger's; none where nothing contradicts it, or nothing can be read.

    now: as the derived texts read; None where nobody can read them.
    """
    doubts = [*_copies(stored), *_rows(stored)]
    if now is not None and not now.problems:
        carried = _carried(stored)
        doubts += [
            f"the text and its ledger differ: {sentence}"
            for sentence in hand_edits(stored.ledger, now.profile, load_vocabulary())
            if sentence.partition(" ")[0] not in carried
        ]
        doubts += _broken(stored, now, carried)
        doubts += _limits(stored, now)
    return [f"{DOUBT}: {visible(text)}" for text in dict.fromkeys(doubts)]


def _copies(stored: Stored) -> Iterator[str]:
    """A copy of the text that is another one than its hash says."""
    copies = [unpack(word) for word in stored.file.written or stored.file.made]
    for item, raw in zip(stored.file.outputs, copies, strict=False):
        if raw is not None and hashlib.sha256(raw).hexdigest() != item.sha256:
            yield f"the ledger keeps another text of {item.name} than the one whose hash it names"


def _rows(stored: Stored) -> Iterator[str]:
    """A row that says another value than the ledger's own profile."""
    values, carried = stored.ledger.derived.entries, _carried(stored)
    for row in stored.ledger.rows:
        entry = values.get(row.setting)
        if not _by_rule(row) or row.status not in MOVING or row.setting in carried or entry is None:
            continue
        if entry.values != row.derived:
            setting = load_vocabulary().settings[row.setting]
            says, holds = show_values(setting, row.derived), show_values(setting, entry.values)
            yield f"the row of {row.setting} says {says}, the ledger's profile {holds}"


def _broken(stored: Stored, now: Translation, carried: frozenset[str]) -> Iterator[str]:
    """Rules that the ledger says are met, and that the text does not meet."""
    recipes = _own_recipes(stored)
    if recipes is None:
        return
    rows = [row for row in stored.ledger.rows if _by_rule(row) and row.status in CLAIMED and row.setting not in carried]
    names = {row.setting for row in rows} & now.profile.entries.keys()
    answers = {
        f"{use.name}.{name}": Fact(item.value, Place(), item.said)
        for use in stored.ledger.recipes
        for name, item in use.answers.items()
    }
    broken = broken_rules(
        sorted(names), stored.ledger, _plain(now.profile), recipes, stored.ledger.facts, answers, load_vocabulary()
    )
    once = {(recipe.name, rule.number) for recipe in recipes for rule in recipe.rules if _is_once(rule)}
    for row in rows:
        rule_of = (row.cause.recipe, row.cause.rule)
        if (row.setting, *rule_of) in broken and rule_of not in once:
            setting = load_vocabulary().settings[row.setting]
            value = show_values(setting, now.profile.values(row.setting))
            yield (
                f"{row.setting} is {value}, which {cause_name(row.cause)} does not allow: "
                f"{demand_words(row.cause, setting)}"
            )


def _plain(profile: Profile) -> Profile:
    """The values as they stand: what one line makes of another is not asked again."""
    entries = {
        name: entry._replace(relative_to="", shares=(), coupling=None) for name, entry in profile.entries.items()
    }
    return profile._replace(entries=entries)


def _own_recipes(stored: Stored) -> list[Recipe] | None:
    """The recipes as the ledger keeps them; None where one is missing or is another one than it says."""
    recipes = []
    for use in stored.ledger.recipes:
        raw = unpack(use.text)
        recipe = load_recipe(raw, use.name, load_vocabulary())[0] if raw else None
        if recipe is None or (recipe.name, recipe.version) != (use.name, use.version):
            return None
        recipes.append(recipe)
    return recipes


def _limits(stored: Stored, now: Translation) -> Iterator[str]:
    """What ``check`` finds in the text with the ledger's facts, and the ledger does not tell."""
    spoken_of = {(item.check, item.verdict) for item in stored.file.findings}
    spoken_of |= {(check, verdict) for check in SINCE for verdict in ALARMS}
    for finding in judge(now.profile, None, stored.ledger.facts).findings:
        if finding.verdict in ALARMS and (finding.check, finding.verdict) not in spoken_of:
            yield f"{finding.title}: {finding.text.rstrip('.')}"


def _carried(stored: Stored) -> frozenset[str]:
    """The settings that hands decided in a re-derivation: there the rows are the recipes' alone."""
    return frozenset(item.what for step in stored.file.history for item in step.decisions)


def _by_rule(row: Row) -> bool:
    return row.cause.rule > 0


def _is_once(rule: object) -> bool:
    return all(action.does.once for action in rule.actions)  # type: ignore[attr-defined]
