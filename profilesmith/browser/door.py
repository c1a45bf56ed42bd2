"""The page's door to the engine: one call by name, JSON and bytes in, JSON and bytes out. Runs in the page's worker.

What the page holds (a library, a text, a map) is kept between calls, so that a changed answer costs one derivation.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from profilesmith import __version__
from profilesmith.browser import shown
from profilesmith.engine import suggest as proposing
from profilesmith.engine.derive import Derivation, derive
from profilesmith.engine.ledger_file import ledger_bytes
from profilesmith.engine.questions import questions
from profilesmith.engine.read import translation_of
from profilesmith.engine.source import Source
from profilesmith.facts.facts import fact_kinds, read_fact
from profilesmith.facts.load_facts import load_facts
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.history import AS_MAPPED, Call
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.render import render
from profilesmith.suggest.proposal import CHECK
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

LARGEST_TEXT = 5_000_000  # bytes: a settings text is far smaller, and a page has to stay quick
Json = dict[str, Any]
Answer = tuple[Json, list[bytes]]


class Desk:
    """What lies on the table: the library, the text, its map, the latest derivation."""

    def __init__(self) -> None:
        self.library: dict[str, dict[str, Source]] = {"recipes": {}, "maps": {}, "facts": {}}
        self.text: Source | None = None
        self.key_map: Source | None = None
        self.map_word = ""
        self.proposals: proposing.Outcome | None = None
        self.derivation: Derivation | None = None

    def begin(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Take the library in. Returns what it offers, and what may be known of machine, spool and part."""
        for kind, named in self.library.items():
            named.update({item["word"]: Source(item["name"], item["text"].encode()) for item in asked[kind]})
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
        }, []

    def _facts_file(self, word: str) -> Json:
        source = self.library["facts"][word]
        facts, _ = load_facts([(source.raw, source.name)])
        return {"word": word, "facts": {name: fact_kinds()[name].show(fact.value) for name, fact in facts.items()}}

    def read(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Take a text in, and tell which maps of the library know how much of it."""
        if len(raws[0]) > LARGEST_TEXT:
            message, hint = f"The text is larger than {LARGEST_TEXT:,} bytes.", "Choose the settings text itself."
            raise Refused([Problem("too-large", message, hint=hint)])
        text = Source(asked["name"], bytes(raws[0]))
        problems: list[Problem] = []
        [document] = proposing.documents_of([text], None, problems)
        fits = [fit for word in self.library["maps"] if (fit := self._fit(word, text))]
        if not fits:
            refuse_if(problems)
        self.text, self.key_map, self.proposals, self.derivation = text, None, None, None
        fits.sort(key=lambda fit: (-fit["known"], fit["wrong"], fit["word"]))
        return {
            "name": text.name,
            "lines": document.text.count("\n") + 1,
            "settings": len(document.assignments),
            "codec": str(document.codec),
            "fits": fits,
        }, []

    def _fit(self, word: str, text: Source) -> Json | None:
        try:
            read = translation_of([text], self.library["maps"][word])
        except Refused:
            return None
        known = len(read.profile.entries)
        return (
            {"word": word, "known": known, "of": len(read.key_map.bindings), "wrong": len(read.problems)}
            if known
            else None
        )

    def suggest(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Propose a map for the text: what is sure, and what somebody has to look at."""
        assert self.text is not None
        self.proposals = proposing.suggest([self.text], _stem(self.text.name))
        return shown.proposals(self.proposals), []

    def answer(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """The proposed map with what somebody said: yes, no, or the number of another key. It becomes the text's
        map.
        """
        assert self.proposals is not None
        said: dict[str, proposing.Answer] = {}
        for item in self.proposals.suggestion.of(CHECK):
            word = asked["answers"].get(item.setting)
            if word is not None:
                said[item.setting] = word if isinstance(word, bool) else item.alternatives[word]
        text, _ = proposing.map_text(proposing.answered(self.proposals, said))
        name = f"{_stem(self.text.name if self.text else '')}.toml"
        return self._use(Source(name, text.encode()), name)

    def use(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Read the text with a map: one of the library by its word, or one that is handed in."""
        if raws:
            return self._use(Source(asked["name"], bytes(raws[0])), asked["name"])
        return self._use(self.library["maps"][asked["word"]], asked["word"])

    def _use(self, key_map: Source, word: str) -> Answer:
        assert self.text is not None
        read = translation_of([self.text], key_map)
        self.key_map, self.map_word = key_map, word
        return shown.reading(read), [key_map.raw]

    def ask(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """What some recipes ask."""
        return {"questions": [shown.question(item) for item in questions(self._recipes(asked["recipes"]))]}, []

    def _recipes(self, words: Sequence[str]) -> list[Recipe]:
        found = []
        for word in words:
            source = self.library["recipes"][word]
            recipe, problems = load_recipe(source.raw, source.name, load_vocabulary())
            refuse_if(problems)
            found += [recipe] if recipe else []
        return found

    def check(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """What is wrong with an answer, so that it is told beside its field; "" for nothing."""
        kinds = {item.name: item for item in questions(self._recipes(asked["recipes"]))}
        return {"wrong": {name: shown.wrong(name, text, kinds) for name, text in asked["answers"].items()}}, []

    def derive(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Derive, and show the review as a page."""
        assert self.text is not None
        assert self.key_map is not None
        recipes = [self.library["recipes"][word] for word in asked["recipes"]]
        facts = [self.library["facts"][word] for word in asked["facts"]]
        made = derive([self.text], self.key_map, recipes, facts, asked["answers"], asked["follow"], asked["shares"])
        call = Call(
            bases=(self.text.name if "." in self.text.name else f"./{self.text.name}",),
            key_map=self.map_word,
            recipes=tuple(asked["recipes"]),
            facts=tuple(asked["facts"]),
            answers=dict(asked["answers"]),
            follow_literals=asked["follow"],
            shares=asked["shares"] or AS_MAPPED,
        )
        self.derivation = made._replace(call=call)
        return shown.outcome(made), [render(made.review, "page").encode("utf-8", "backslashreplace")]

    def take(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Everything to take along, under a name of one's own: names, and the bytes of each."""
        assert self.derivation is not None
        made, name = self.derivation, asked["name"]
        files = [(name, made.outputs[0]), (f"{name}.ledger.json", self._ledger(name))] if made.outputs else []
        for form, ending in (("page", "review.html"), ("checklist-page", "checklist.html"), ("markdown", "review.md")):
            text = render(made.review, form)
            files.append((f"{_stem(name)}-{ending}", text.encode("utf-8", "backslashreplace")))
        return {"names": [name for name, _ in files]}, [raw for _, raw in files]

    def _ledger(self, name: str) -> bytes:
        assert self.derivation is not None
        file = self.map_word if self.map_word.endswith(".toml") else ""
        return ledger_bytes(self.derivation, [name], file)

    def sheet(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """For somebody without a text: what to type in by hand, one page a recipe, with what they said filled in."""
        from profilesmith.review.render.checklist_page import render_recipe

        recipes = [_told(recipe, asked["answers"]) for recipe in self._recipes(asked["recipes"])]
        pages = [render_recipe(recipe, load_vocabulary()).encode() for recipe in recipes]
        return {"names": [f"{recipe.name}-checklist.html" for recipe in recipes]}, pages


def _told(recipe: Recipe, answers: Mapping[str, str]) -> Recipe:
    """The recipe with the answers in place of its defaults."""
    inputs = dict(recipe.inputs)
    for name, item in recipe.inputs.items():
        text = answers.get(item.fact or "") or answers.get(f"{recipe.name}.{name}")
        value = read_fact(item.kind, text) if text else None
        inputs[name] = item if value is None else item._replace(default=value)
    return recipe._replace(inputs=inputs)


def _stem(name: str) -> str:
    return name.rpartition(".")[0] or name or "settings"


DESK = Desk()
CALLS: Mapping[str, Callable[[Json, Sequence[bytes]], Answer]] = {
    "begin": DESK.begin,
    "read": DESK.read,
    "suggest": DESK.suggest,
    "answer": DESK.answer,
    "use": DESK.use,
    "ask": DESK.ask,
    "check": DESK.check,
    "derive": DESK.derive,
    "take": DESK.take,
    "sheet": DESK.sheet,
}


def call(name: str, asked: str, raws: Sequence[bytes]) -> tuple[str, list[bytes]]:
    """Carry one call out. A refusal comes back as data, with the sentences that say what is wrong and what to do."""
    try:
        data, out = CALLS[name](json.loads(asked), raws)
    except Refused as refused:
        data, out = {"refused": [shown.problem(item) for item in refused.problems]}, []
    return json.dumps(data, ensure_ascii=True), out
