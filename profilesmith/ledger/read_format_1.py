"""What ledgers of format 1 say differently: facts and answers as they were shown, rounded, with their origin in brackets."""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any, get_args

from profilesmith.facts.facts import Fact, Facts, fact_kinds, read_fact, show_fact
from profilesmith.foundation.place import Place
from profilesmith.ledger.ledger import Answer, AnswerOrigin, RecipeUse


def facts(data: Mapping[str, Any], place: Place) -> Facts:
    """The facts that still read; exact where the call of then said them in words that are shown so."""
    kinds, typed = fact_kinds(), _typed(data)
    found: dict[str, Fact] = {}
    for name, shown in data["facts"].items():
        kind = kinds.get(name)
        if kind is None:
            continue
        exact = read_fact(kind, typed.get(name, ""))
        meant = exact is not None and show_fact(exact, kind.unit_kind) == shown
        value = exact if meant else read_fact(kind, shown)
        if value is not None:
            found[name] = Fact(value, place, typed[name] if meant else shown)
    return found


def _typed(data: Mapping[str, Any]) -> Mapping[str, str]:
    """The answers of the call as they were typed."""
    answers = data.get("call", {}).get("answers", {})
    return answers if isinstance(answers, dict) else {}


def answers(use: Mapping[str, Any], data: Mapping[str, Any]) -> dict[str, Answer]:
    """A recipe's answers. What kind of thing an answer is only the recipe knows, so that it stays a text here."""
    found = {}
    for name, text in use["answers"].items():
        shown, _, origin = text.rpartition(" (")
        origin = origin.removesuffix(")")
        if origin not in get_args(AnswerOrigin):
            raise ValueError(text)
        typed = _typed(data)
        said = typed.get(f"{use['name']}.{name}", typed.get(name, shown)) if origin == "answer" else shown
        found[name] = Answer(shown, origin, said)
    return found


def rounded(known: Facts, recipes: Iterable[RecipeUse], data: Mapping[str, Any]) -> tuple[str, ...]:
    """The facts and answers that are quantities, and of which nothing more exact was kept."""
    typed = _typed(data)
    names = [
        name
        for name, fact in known.items()
        if fact.said != typed.get(name) and isinstance(fact.value, Fraction | tuple) and fact_kinds()[name].unit_kind
    ]
    names += [
        f"{use.name}.{name}"
        for use in recipes
        for name, answer in use.answers.items()
        if answer.origin == "answer" and answer.said not in (typed.get(f"{use.name}.{name}"), typed.get(name))
    ]
    return tuple(names)
