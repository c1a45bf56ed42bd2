"""Where a derived file was edited since it was written: its map and its recipes are looked up as its ledger names them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from profilesmith.engine import edits_since
from profilesmith.engine.read import answered_facts, read_answers
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.ledger.read import Stored
from profilesmith.library.open_files import open_key_map
from profilesmith.merge.overruled import Rules, broken_rules
from profilesmith.profile.profile import Profile
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derive import laid_recipes
from profilesmith.workflows.plain_file import plain_bytes
from profilesmith.workflows.read import read_recipes
from profilesmith.workflows.rederive.request import request_again, stored_map
from profilesmith.workflows.request import Request


def where(stored: Stored, derived: Path) -> list[str] | None:
    """Sentences on what differs; None when the files or their key map cannot be read."""
    now = translation_now(stored, derived)
    if now is None:
        return None
    return edits_since.where(stored, now, lambda profile, changed: _broken(stored, derived.parent, profile, changed))


def translation_now(stored: Stored, derived: Path) -> Translation | None:
    """The derived texts as they are, through the map that the ledger names; None where one of them cannot be read."""
    key_map_file = stored_map(stored, derived.parent)
    key_map = open_key_map(key_map_file, str(key_map_file))[0] if key_map_file else None
    if key_map is None:
        return None
    paths = [derived.with_name(item.name) for item in stored.file.outputs]
    documents = []
    for path in paths:
        raw = plain_bytes(path)
        if raw is None:
            return None
        documents.append(read_document(raw, str(path), key_map.habits))
    return translate(tuple(documents), key_map, load_vocabulary())


def _broken(stored: Stored, folder: Path, profile: Profile, changed: Sequence[str]) -> Rules | None:
    """The rules on the changed settings that the profile breaks; None where the recipes of then cannot be read any more."""
    try:
        request = request_again(stored, folder, Request(bases=(), key_map="")).request
    except Refused:
        return None
    problems: list[Problem] = []
    recipes = [*read_recipes(request.recipes, request.library, problems), *laid_recipes(request.laid or (), problems)]
    facts = answered_facts(request.answers, request.held, problems)
    answers = read_answers(request.answers, recipes, problems)
    used = [(use.name, use.version) for use in stored.ledger.recipes]
    if problems or [(recipe.name, recipe.version) for recipe in recipes] != used:
        return None
    return broken_rules(changed, stored.ledger, profile, recipes, facts, answers, load_vocabulary())
