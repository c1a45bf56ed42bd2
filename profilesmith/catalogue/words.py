"""The words that page and Markdown share: rules, questions and prints for somebody who never wrote a recipe."""

from __future__ import annotations

from collections.abc import Mapping

from profilesmith.catalogue.asks import rule_asks
from profilesmith.catalogue.catalogue import Catalogue, RecipeEntry, Trial
from profilesmith.evidence.groups import BY, group_says, groups
from profilesmith.evidence.record import Record
from profilesmith.evidence.tally import Tally, facts_text, observed_words
from profilesmith.evidence.told import beside, withdrawn_words
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import plural
from profilesmith.recipe.recipe import Input, Rule
from profilesmith.review.findings import begun
from profilesmith.review.render.names import trade_name
from profilesmith.review.sentences import summary

SUBJECTS = ("machine", "spool")


class ShownRule(NamedTuple):
    """One rule in words. names: trade words; settings: as the recipe writes them."""

    number: int
    names: str
    settings: tuple[str, ...]
    asks: str
    only: str
    why: str
    source: str


class ShownInput(NamedTuple):
    """One question, and what answers it when nobody does."""

    ask: str
    name: str
    fact: str
    default: str


class ShownRecord(NamedTuple):
    """One print. on: short texts on machine, spool and what else was done; the facts stand once below, in Setups."""

    date: str
    version: str
    outcome: str
    judged: str
    on: tuple[str, ...]
    words: str


class Setup(NamedTuple):
    """The facts of one or several prints under one name, such as ``machine 1``."""

    name: str
    facts: str


def shown_rule(rule: Rule, inputs: Mapping[str, Input]) -> ShownRule:
    """A rule with the defaults of the questions that it asks."""
    return ShownRule(
        rule.number,
        ", ".join(trade_name(name) if "." in name else begun(name) for name in rule.named),
        rule.named,
        rule_asks(rule, inputs),
        " and ".join(str(clause) for clause in rule.when),
        rule.why,
        rule.source,
    )


def shown_input(item: Input) -> ShownInput:
    default = item.kind.show(item.default) if item.default is not None else ""
    return ShownInput(item.ask, item.name, item.fact, default)


def shown_records(tally: Tally) -> tuple[list[ShownRecord], list[Setup]]:
    """Prints as they stand in the tally, and the machines and spools that they name by number."""
    records = tally.records
    names: dict[tuple[str, str], str] = {}
    for subject in SUBJECTS:
        texts = dict.fromkeys(text for record in records if (text := facts_text(record, subject)))
        names |= {(subject, text): f"{subject} {number}" for number, text in enumerate(texts, 1)}
    return [_shown_record(record, names, observed_words(record, tally.observed(record))) for record in records], [
        Setup(name, text) for (_, text), name in names.items()
    ]


def by_machine_and_spool(tally: Tally) -> tuple[str, ...]:
    """Prints by machine and by spool, each kind where there are several, with its own exact range."""
    parts = [groups(tally.records, kind) for kind in BY]
    return tuple(group_says(item) for several in parts if len(several) > 1 for item in several)


def withdrawn_prints(tally: Tally) -> tuple[str, ...]:
    """Prints that count no more, each with the reason."""
    return tuple(withdrawn_words(record, by) for record, by in tally.withdrawn)


def _shown_record(record: Record, names: Mapping[tuple[str, str], str], judged: str) -> ShownRecord:
    words = f"{record.note} ({record.by})" if record.note and record.by else record.note or record.by
    numbered = (names.get((subject, facts_text(record, subject)), "") for subject in SUBJECTS)
    return ShownRecord(
        record.date,
        record.version,
        record.outcome,
        judged,
        (*filter(None, numbered), *beside(record)),
        words,
    )


def derive_call(entry: RecipeEntry) -> str:
    """The call that uses a recipe, to be copied."""
    return f"profilesmith derive MY-SETTINGS --keymap MY-MAP --recipe {entry.stem}.toml -o DERIVED"


def trial_says(trial: Trial) -> str:
    """One line on what a recipe does to a reference profile."""
    if trial.review is None:
        return "It could not be derived."
    return summary(trial.review)


def counted(catalogue: Catalogue) -> str:
    """``7 recipes, 2 of them tried``."""
    tried = sum(entry.tally.tried > 0 for entry in catalogue.entries)
    unread = f", {plural(len(catalogue.unread), 'file')} that cannot be read" if catalogue.unread else ""
    ships = sum(entry.ships for entry in catalogue.entries)
    borrowed = f", {ships} of them shipped with Profilesmith" if ships else ""
    return f"{plural(len(catalogue.entries), 'recipe')}, {tried or 'none'} of them with evidence{borrowed}{unread}"


def described(entry: RecipeEntry) -> str:
    """Version, licence and authors in one line."""
    recipe = entry.recipe
    by = f", by {', '.join(recipe.authors)}" if recipe.authors else ""
    ships = ", ships with Profilesmith and was tried here" if entry.ships else ""
    return f"Version {recipe.version}{by}, licence {recipe.licence or 'not said'}{ships}"


VERSIONS = "Changes between its versions"
OLDEST = "the oldest version that is known"
ONCE = "It scales or shifts values: apply it once, never to its own result."
BORROWED = "This library has no reference profile of its own, so those that ship with Profilesmith are used."
SHIPS = "ships with Profilesmith, not this library's own"
SETUPS = "Machines and spools of these prints: those with the same facts have the same number."
FIT = "Your own profile gives other numbers: derive from it before you print."
