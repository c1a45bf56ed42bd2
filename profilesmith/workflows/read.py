"""Files to documents, map, recipes, facts and answers; all problems of all files in one run."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from profilesmith.facts.facts import Fact, Facts, fact_kinds, read_fact, why_not
from profilesmith.facts.load_facts import load_facts
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, did_you_mean, refuse_if
from profilesmith.foundation.toml_table import cannot_read
from profilesmith.library.find import find
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.text.codec import seems_to_be
from profilesmith.text.document import Document, Habits
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.key_map import KeyMap
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.request import Request

LARGEST_TEXT = 200_000_000  # bytes


def read_documents(names: Iterable[str], habits: Habits, problems: list[Problem]) -> tuple[Document, ...]:
    """The base files. A file without a single assignment is a problem that says what it seems to be."""
    documents = []
    for name in names:
        raw = _bytes(name, problems)
        if raw is None:
            continue
        document = read_document(raw, name, habits)
        if not document.assignments:
            problems.append(_no_settings(name, raw))
        documents.append(document)
    return tuple(documents)


def _bytes(name: str, problems: list[Problem]) -> bytes | None:
    try:
        path = Path(name)
        if path.is_dir():
            raise IsADirectoryError
        with path.open("rb") as stream:  # a pipe has no size to ask for
            raw = stream.read(LARGEST_TEXT + 1)
        if len(raw) <= LARGEST_TEXT:
            return raw
        hint = "A settings text is far smaller; name the right file."
        problems.append(Problem("too-large", f"The file is larger than {LARGEST_TEXT:,} bytes.", Place(name), hint))
        return None
    except (OSError, ValueError) as error:
        problems.append(cannot_read(name, error if isinstance(error, OSError) else FileNotFoundError()))
        return None


def _no_settings(name: str, raw: bytes) -> Problem:
    word = seems_to_be(raw)
    seems = f" It seems to be {word}." if word and word != "empty" else " The file is empty." if word else ""
    hint = "Export the settings as text from the program that made them, one key = value a line."
    return Problem("no-settings", f"The file has no key = value line.{seems}", Place(name), hint)


def read_key_map(name: str, library: Path | None, problems: list[Problem]) -> KeyMap | None:
    """A map by file or name."""
    path, missing = find(name, "key map", library)
    if path is None:
        problems += [missing] if missing else []
        return None
    key_map, found = load_key_map(path, str(path), load_vocabulary())
    problems += found
    return key_map


def read_recipes(names: Iterable[str], library: Path | None, problems: list[Problem]) -> list[Recipe]:
    """Recipes by file or name, in order."""
    recipes = []
    for name in names:
        path, missing = find(name, "recipe", library)
        if path is None:
            problems += [missing] if missing else []
            continue
        recipe, found = load_recipe(path, str(path), load_vocabulary())
        problems += found
        if recipe is not None:
            recipes.append(recipe)
    return recipes


def read_facts(names: Iterable[str], library: Path | None, problems: list[Problem]) -> Facts:
    """Facts files by file or name, added up."""
    paths = []
    for name in names:
        path, missing = find(name, "facts", library)
        if path is None:
            problems += [missing] if missing else []
        else:
            paths.append((path, str(path)))
    facts, found = load_facts(paths)
    problems += found
    return facts


def answered_facts(texts: Mapping[str, str], facts: Facts, problems: list[Problem]) -> Facts:
    """The facts and those that ``--answer machine.drive=direct`` gives; an answer goes before a file."""
    found: dict[str, Fact] = dict(facts)
    for name, text in texts.items():
        kind = fact_kinds().get(name)
        if kind is None:
            continue
        value = read_fact(kind, text)
        if value is None:
            problems.append(Problem("answer-value", f"{name}: {why_not(kind, text)}.", Place("--answer"), kind.ask))
        else:
            found[name] = Fact(value, Place("--answer"), text)
    return found


def read_answers(texts: Mapping[str, str], recipes: list[Recipe], problems: list[Problem]) -> dict[str, Fact]:
    """``--answer name=value``: read in the kind of the input that it answers."""
    answers: dict[str, Fact] = {}
    inputs = {name: item for recipe in recipes for name, item in recipe.inputs.items()}
    inputs |= {f"{recipe.name}.{name}": item for recipe in recipes for name, item in recipe.inputs.items()}
    for name, text in texts.items():
        if name in fact_kinds():
            continue
        if name not in inputs:
            hint = did_you_mean(
                name, [*inputs, *fact_kinds()], f"These recipes ask for: {', '.join(inputs) or 'nothing'}."
            )
            problems.append(
                Problem("unknown-answer", f"{name!r} is no fact, and no recipe asks for it.", Place("--answer"), hint)
            )
            continue
        value = read_fact(inputs[name].kind, text)
        if value is None:
            reason = why_not(inputs[name].kind, text)
            problems.append(Problem("answer-value", f"{name}: {reason}.", Place("--answer"), inputs[name].ask))
        else:
            answers[name] = Fact(value, Place("--answer"), text)
    return answers


def read(request: Request) -> Translation:
    """The base files of a request through its key map. Raises Refused with every problem found."""
    problems: list[Problem] = []
    key_map = read_key_map(request.key_map, request.library, problems)
    documents = read_documents(request.bases, key_map.habits if key_map else Habits(), problems)
    refuse_if(problems)
    assert key_map is not None
    translation = translate(documents, key_map.with_shares(request.shares), load_vocabulary())
    refuse_if(translation.problems)
    return translation
