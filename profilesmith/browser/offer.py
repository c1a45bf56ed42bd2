"""What a page offers: the recipes, maps and facts of a library, and the troubles that it knows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from profilesmith import __version__
from profilesmith.browser import shown
from profilesmith.engine.read import Source
from profilesmith.facts.facts import fact_kinds
from profilesmith.facts.load_facts import load_facts
from profilesmith.foundation.problem import refuse_if
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

LEDGER = ".ledger.json"  # how the name of a ledger ends
Json = dict[str, Any]


class Offer:
    """library: kind -> word -> the file. Empty until ``begin``."""

    def __init__(self) -> None:
        self.library: dict[str, dict[str, Source]] = {"recipes": {}, "maps": {}, "facts": {}}
        self.trouble_files: list[tuple[bytes, str]] = []

    def begin(self, asked: Json, raws: Sequence[bytes]) -> tuple[Json, list[bytes]]:
        """Take the library in. Returns what it offers, and what may be known of machine, spool and part."""
        for kind, named in self.library.items():
            named.update({item["word"]: Source(item["name"], item["text"].encode()) for item in asked[kind]})
        self.trouble_files = [(item["text"].encode(), item["name"]) for item in asked.get("troubles", ())]
        vocabulary = load_vocabulary()
        recipes = [
            (word, load_recipe(item.raw, item.name, vocabulary)[0]) for word, item in self.library["recipes"].items()
        ]
        maps = [(word, load_key_map(item.raw, item.name, vocabulary)[0]) for word, item in self.library["maps"].items()]
        return {
            "version": __version__,
            "recipes": [shown.recipe(word, item) for word, item in recipes if item],
            "maps": [{"word": word, "name": item.name, "about": item.about} for word, item in maps if item],
            "facts": [self._facts_file(word) for word in self.library["facts"]],
            "kinds": [shown.fact_kind(kind) for kind in fact_kinds().values()],
            "names": {"en": shown.names("en")},
        }, []

    def _facts_file(self, word: str) -> Json:
        source = self.library["facts"][word]
        facts, _ = load_facts([(source.raw, source.name)])
        return {"word": word, "facts": {name: shown.fact(name, fact.value) for name, fact in facts.items()}}

    def names(self, asked: Json, raws: Sequence[bytes]) -> tuple[Json, list[bytes]]:
        """What people call the settings in a language."""
        return {"names": shown.names(asked["language"])}, []

    def recipes(self, words: Sequence[str]) -> list[Recipe]:
        """The recipes of some words. Raises Refused."""
        recipes = []
        for word in words:
            source = self.library["recipes"][word]
            recipe, problems = load_recipe(source.raw, source.name, load_vocabulary())
            refuse_if(problems)
            recipes += [recipe] if recipe else []
        return recipes
