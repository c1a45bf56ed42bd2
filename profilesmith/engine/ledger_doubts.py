"""What contradicts a ledger. It may have gone through strange hands: a hash in it proves nothing that stands beside it.

Held against one another: the text itself, the copy of it that the ledger keeps, the values and rows of the ledger, its
own recipes, and the limits that no recipe may pass.
"""

from __future__ import annotations

from collections.abc import Iterator

from profilesmith.checks.judge import judge
from profilesmith.facts.facts import Fact
from profilesmith.foundation.digest import sha256_hex
from profilesmith.foundation.place import Place
from profilesmith.ledger import MOVING, Row
from profilesmith.ledger.judgement import ALARMS
from profilesmith.ledger.packed import unpack
from profilesmith.ledger.read import Stored
from profilesmith.merge.overruled import broken_rules
from profilesmith.profile.profile import Profile
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.findings.in_words import in_words
from profilesmith.review.hand_edits import differences
from profilesmith.review.ledger_doubts import LedgerDoubt, doubt_sentences
from profilesmith.translation.document_to_profile import Translation
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

SINCE = ("usual",)  # checks that came after ledgers were written without them, and are of no limit
CLAIMED = ("changed", "added", "kept")


def ledger_doubts(stored: Stored, now: Translation | None) -> list[str]:
    """Sentences, for a text whose hash is the ledger's; none where nothing contradicts it, or nothing can be read.

    now: as the derived texts read; None where nobody can read them.
    """
    profile = None if now is None else now.profile
    return doubt_sentences(doubts_of(stored, now), stored.ledger, profile, load_vocabulary())


def doubts_of(stored: Stored, now: Translation | None) -> list[LedgerDoubt]:
    """The same as data."""
    doubts = [*_copies(stored), *_rows(stored)]
    if now is not None and not now.problems:
        carried = _carried(stored)
        if any(item.setting not in carried for item in differences(stored.ledger, now.profile)):
            doubts.append(LedgerDoubt("other-text", but=carried))
        doubts += _broken(stored, now, carried)
        doubts += _limits(stored, now)
    return doubts


def _copies(stored: Stored) -> Iterator[LedgerDoubt]:
    """A copy of the text that is another one than its hash says."""
    copies = [unpack(word) for word in stored.file.written or stored.file.made]
    for item, raw in zip(stored.file.outputs, copies, strict=False):
        if raw is not None and sha256_hex(raw) != item.sha256:
            yield LedgerDoubt("other-copy", item.name)


def _rows(stored: Stored) -> Iterator[LedgerDoubt]:
    """A row that says another value than the ledger's own profile."""
    values, carried = stored.ledger.derived.entries, _carried(stored)
    for row in stored.ledger.rows:
        entry = values.get(row.setting)
        if not _by_rule(row) or row.status not in MOVING or row.setting in carried or entry is None:
            continue
        if entry.values != row.derived:
            yield LedgerDoubt("other-row", row=row, holds=entry.values)


def _broken(stored: Stored, now: Translation, carried: frozenset[str]) -> Iterator[LedgerDoubt]:
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
            yield LedgerDoubt("rule-not-met", row=row, holds=now.profile.values(row.setting))


def _plain(profile: Profile) -> Profile:
    """The values as they stand: what one line makes of another is not asked again."""
    entries = {name: profile.in_full(name)._replace(coupling=None) for name in profile.entries}
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


def _limits(stored: Stored, now: Translation) -> Iterator[LedgerDoubt]:
    """What ``check`` finds in the text with the ledger's facts, and the ledger does not tell."""
    spoken_of = {(item.check, item.verdict) for item in stored.file.findings}
    spoken_of |= {(check, verdict) for check in SINCE for verdict in ALARMS}
    for finding in judge(now.profile, None, stored.ledger.facts).findings:  # words for what contradicts alone
        if finding.verdict in ALARMS and (finding.check, finding.verdict) not in spoken_of:
            yield LedgerDoubt("not-told", finding=in_words(finding))


def _carried(stored: Stored) -> frozenset[str]:
    """The settings that hands decided in a re-derivation: there the rows are the recipes' alone."""
    return frozenset(item.what for step in stored.file.history for item in step.decisions)


def _by_rule(row: Row) -> bool:
    return row.cause.rule > 0


def _is_once(rule: object) -> bool:
    return all(action.does.once for action in rule.actions)  # type: ignore[attr-defined]
