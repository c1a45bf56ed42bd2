"""Bytes to documents, map, recipes, facts and answers; all problems of all sources in one run.

A source is what comes in at a door: some bytes under the name by which people know them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from profilesmith.facts.facts import Fact, Facts, fact_kinds, how_to, read_fact, why_not
from profilesmith.facts.load_facts import load_facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, did_you_mean, refuse_if
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.text.codec import seems_to_be
from profilesmith.text.document import Document, Habits
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.key_map import KeyMap
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.translation.readings import Readings
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


class Source(NamedTuple):
    """A text, a key map, a recipe or a facts file."""

    name: str
    raw: bytes


class Ingredients(NamedTuple):
    """What a derivation is made from, read."""

    translation: Translation
    recipes: tuple[Recipe, ...]
    facts: Facts
    answers: Mapping[str, Fact]


MOST_LINES = 250_000  # in one text: a derivation takes up to 1.5 kB for each (``python -m tests.benchmarks.memory``)


def too_many_lines(source: Source) -> Problem | None:
    """Why a text is not even read."""
    if max(source.raw.count(b"\n"), source.raw.count(b"\r")) <= MOST_LINES:
        return None
    hint = "No settings text has so many: name the right file, or cut out the part that holds the settings."
    return Problem("too-large", f"The text has more than {MOST_LINES:,} lines.", Place(source.name), hint)


def document_of(source: Source, habits: Habits, problems: list[Problem]) -> Document:
    """A settings text. One without a single assignment is a problem that says what it seems to be."""
    too_long = too_many_lines(source)
    if too_long is not None:
        problems.append(too_long)
        source = source._replace(raw=b"")
        return read_document(source.raw, source.name, habits)
    document = read_document(source.raw, source.name, habits)
    if not document.assignments:
        problems.append(no_settings(source))
    return document


def no_settings(source: Source) -> Problem:
    """That a text has no line that could be read, and what it seems to be."""
    word = seems_to_be(source.raw)
    hint = "Export the settings as text from the program that made them, one key = value a line."
    message = "The file has no key = value line."
    if word:
        message += " The file is empty." if word == "empty" else f" It seems to be {word}."
    return Problem("no-settings", message, Place(source.name), hint)


def translation_of(bases: Sequence[Source], key_map: Source) -> Translation:
    """Some texts through a map, with what is wrong with single values in it. Raises Refused for what cannot be read."""
    problems: list[Problem] = []
    read_map, wrong = load_key_map(key_map.raw, key_map.name, load_vocabulary())
    habits = read_map.habits if read_map else Habits()
    documents = tuple(document_of(source, habits, problems) for source in bases)
    refuse_if([*wrong, *problems])
    assert read_map is not None
    return translate(documents, read_map, load_vocabulary())


def ingredients(
    documents: Sequence[Document],
    key_map: KeyMap | None,
    recipes: Sequence[Recipe],
    facts: Facts,
    texts: Mapping[str, str],
    problems: list[Problem],
    readings: Readings | None = None,
) -> Ingredients:
    """What was read, put together. texts: answers as typed. Raises Refused with these problems and all that are
    found.
    """
    facts = answered_facts(texts, facts, problems)
    answers = read_answers(texts, recipes, problems)
    translation = None
    if key_map is not None and documents:
        translation = translate(tuple(documents), key_map, load_vocabulary(), readings)
        problems += translation.problems
    refuse_if(problems)
    assert translation is not None
    return Ingredients(translation, tuple(recipes), facts, answers)


def read_sources(
    bases: Iterable[Source],
    key_map: Source,
    recipes: Iterable[Source],
    facts: Iterable[Source],
    answers: Mapping[str, str],
    shares: str = "",
) -> Ingredients:
    """Everything that a derivation needs, from bytes. Raises Refused with the problems of all sources at once."""
    vocabulary = load_vocabulary()
    read_map, problems = load_key_map(key_map.raw, key_map.name, vocabulary)
    habits = read_map.habits if read_map else Habits()
    documents = [document_of(source, habits, problems) for source in bases]
    read_recipes = []
    for source in recipes:
        recipe, wrong = load_recipe(source.raw, source.name, vocabulary)
        problems += wrong
        read_recipes += [recipe] if recipe else []
    known, wrong = load_facts((source.raw, source.name) for source in facts)
    problems += wrong
    read_map = read_map and read_map.with_shares(shares)
    return ingredients(documents, read_map, read_recipes, known, answers, problems)


def answered_facts(texts: Mapping[str, str], facts: Facts, problems: list[Problem]) -> Facts:
    """The facts and those that ``--answer machine.drive=direct`` gives; an answer goes before a file."""
    answered: dict[str, Fact] = dict(facts)
    for name, text in texts.items():
        kind = fact_kinds().get(name)
        if kind is None:
            continue
        value = read_fact(kind, text)
        if value is None:
            problems.append(
                Problem("answer-value", f"{name}: {why_not(kind, text)}.", Place("--answer"), how_to(kind, text))
            )
        else:
            answered[name] = Fact(value, Place("--answer"), text)
    return answered


def read_answers(texts: Mapping[str, str], recipes: Sequence[Recipe], problems: list[Problem]) -> dict[str, Fact]:
    """``--answer name=value``: read in the kind of the input that it answers."""
    answers: dict[str, Fact] = {}
    inputs = {name: item for recipe in recipes for name, item in recipe.inputs.items()}
    inputs |= {f"{recipe.name}.{name}": item for recipe in recipes for name, item in recipe.inputs.items()}
    for name, text in texts.items():
        if name in fact_kinds():
            continue
        if name not in inputs:
            problems.append(_unknown_answer(name, recipes))
            continue
        value = read_fact(inputs[name].kind, text)
        if value is None:
            reason, hint = why_not(inputs[name].kind, text), how_to(inputs[name].kind, text) or inputs[name].ask
            problems.append(Problem("answer-value", f"{name}: {reason}.", Place("--answer"), hint))
        else:
            answers[name] = Fact(value, Place("--answer"), text)
    return answers


def _unknown_answer(name: str, recipes: Sequence[Recipe]) -> Problem:
    """The problem of an answer to nothing: the fact whose last word it is, the nearest name, or all that is asked."""
    kinds = fact_kinds()
    inputs = [(recipe.name, word) for recipe in recipes for word in recipe.inputs]
    words = [word for _, word in inputs]
    whole = [f"{recipe}.{word}" if words.count(word) > 1 else word for recipe, word in inputs]
    clauses = [clause.subject for recipe in recipes for rule in recipe.rules for clause in rule.when]
    asked = list(dict.fromkeys([*whole, *(subject for subject in clauses if subject in kinds)]))
    meant = [fact for fact in kinds if fact.rpartition(".")[2] == name]
    hint = f"Did you mean {' or '.join(map(repr, meant))}?" if meant else ""
    hint = hint or did_you_mean(name, [*whole, *kinds], f"These recipes ask for: {', '.join(asked) or 'nothing'}.")
    message = f"{name!r} is not a fact, and no recipe asks for it."
    return Problem("unknown-answer", message, Place("--answer"), hint)
