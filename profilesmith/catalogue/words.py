"""The words that page and Markdown share: rules, questions and prints for somebody who never wrote a recipe."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from profilesmith.catalogue.catalogue import Catalogue, Entry, Trial
from profilesmith.evidence.record import Record
from profilesmith.evidence.tally import facts_text
from profilesmith.recipe.recipe import Action, FlowRef, Input, InputRef, Operand, Rule
from profilesmith.review.render.names import trade_name
from profilesmith.review.sentences import plural, summary

_ASKS = {
    "set": "exactly {}", "aim": "aim at {}", "cap": "at most {}", "raise_to": "at least {}", "window": "inside {}",
    "scale": "times {}", "shift": "plus {}", "hold": "keep the {}",
}  # fmt: skip


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
    """One print."""

    date: str
    version: str
    outcome: str
    judged: str
    machine: str
    spool: str
    words: str


def shown_rule(rule: Rule, inputs: Mapping[str, Input]) -> ShownRule:
    """A rule with the defaults of the questions that it asks."""
    return ShownRule(
        rule.number, ", ".join(trade_name(name) if "." in name else _capital(name) for name in rule.named), rule.named,
        "; ".join(_asks(action, inputs) for action in rule.actions), " and ".join(str(clause) for clause in rule.when), rule.why, rule.source,
    )  # fmt: skip


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _asks(action: Action, inputs: Mapping[str, Input]) -> str:
    operands = " to ".join(f"{operand}{_default(operand, inputs)}" for operand in action.operands)
    return _ASKS.get(action.operation, action.operation + " {}").replace("{}", operands)


def _default(operand: Operand, inputs: Mapping[str, Input]) -> str:
    """What counts when nobody answers, in brackets."""
    inner = operand.flow if isinstance(operand, FlowRef) else operand
    item = inputs.get(inner.name) if isinstance(inner, InputRef) else None
    return f" (else {item.kind.show(item.default)})" if item is not None and item.default is not None else ""


def shown_input(item: Input) -> ShownInput:
    default = item.kind.show(item.default) if item.default is not None else ""
    return ShownInput(item.ask, item.name, item.fact, default)


def shown_record(record: Record) -> ShownRecord:
    judged = ", ".join(f"{word} {grade}" for word, grade in record.judged.items())
    words = f"{record.note} ({record.by})" if record.note and record.by else record.note or record.by
    return ShownRecord(
        record.date, record.version, record.outcome, judged, facts_text(record, "machine"), facts_text(record, "spool"), words,
    )  # fmt: skip


def trial_says(trial: Trial) -> str:
    """One line on what a recipe does to a reference profile."""
    if trial.review is None:
        return "It could not be derived."
    return summary(trial.review)


def counted(catalogue: Catalogue) -> str:
    """``7 recipes, 2 of them tried``."""
    tried = sum(entry.tally.tried > 0 for entry in catalogue.entries)
    unread = f", {plural(len(catalogue.unread), 'file')} that cannot be read" if catalogue.unread else ""
    return f"{plural(len(catalogue.entries), 'recipe')}, {tried or 'none'} of them with evidence{unread}"


def described(entry: Entry) -> str:
    """Version, licence and authors in one line."""
    recipe = entry.recipe
    by = f", by {', '.join(recipe.authors)}" if recipe.authors else ""
    ships = ", ships with Profilesmith and was tried here" if entry.ships else ""
    return f"Version {recipe.version}{by}, licence {recipe.licence or 'not said'}{ships}"


ONCE = "It scales or shifts values: apply it once, never to its own result."
BORROWED = "This library has no reference profile of its own, so those that ship with Profilesmith are used."
FIT = "Your own profile gives other numbers: derive from it before you print."
