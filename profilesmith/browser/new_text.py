"""A new text: what was chosen and said so far, and what the engine makes of it.

What lies on the table is kept between calls, so that a changed answer costs one derivation.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from profilesmith.browser import shown
from profilesmith.browser.offer import LEDGER, Offer
from profilesmith.engine.derive import Derivation, derive
from profilesmith.engine.ledger_file import ledger_bytes
from profilesmith.engine.questions import questions
from profilesmith.engine.read import Source, translation_of
from profilesmith.facts.facts import read_fact
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.history import AS_MAPPED, Call
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.render import render
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

if TYPE_CHECKING:
    from profilesmith.engine import suggest as proposing

LARGEST_TEXT = 5_000_000  # bytes: a settings text is far smaller, and a page has to stay quick
MOST_TEXTS = 20  # of one profile
REPORTS = (
    ("page", "review.html"),
    ("checklist-page", "checklist.html"),
    ("sheet-page", "sheet.html"),
    ("markdown", "review.md"),
)
Json = dict[str, Any]
Answer = tuple[Json, list[bytes]]


class NewText:
    """texts: of one profile, in their order. map_word: how the ledger is to name the map. derivation: the latest."""

    def __init__(self, offer: Offer) -> None:
        self.offer = offer
        self.texts: tuple[Source, ...] = ()
        self.key_map: Source | None = None
        self.map_word = ""
        self.proposals: proposing.SuggestedMap | None = None
        self.derivation: Derivation | None = None

    def read(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Take texts in, and tell which maps of the library know how much of them."""
        from profilesmith.engine import suggest as proposing  # a quarter of all modules, none of which a start needs

        refuse_if(_too_much(asked["names"], raws))
        texts = tuple(Source(name, bytes(raw)) for name, raw in zip(asked["names"], raws, strict=True))
        problems: list[Problem] = []
        documents, _ = proposing.documents_of(texts, None, problems)
        fits = [fit for word in self.offer.library["maps"] if (fit := self._fit(word, texts))]
        if not fits:
            refuse_if(problems)
        self.texts, self.key_map, self.proposals, self.derivation = texts, None, None, None
        fits.sort(key=lambda fit: (-fit["known"], fit["wrong"], fit["word"]))
        return {
            "texts": [
                {
                    "name": visible(document.name),
                    "lines": document.text.count("\n") + 1,
                    "settings": len(document.assignments),
                }
                for document in documents
            ],
            "fits": fits,
        }, []

    def _fit(self, word: str, texts: Sequence[Source]) -> Json | None:
        try:
            read = translation_of(texts, self.offer.library["maps"][word])
        except Refused:
            return None
        known = len(read.profile.entries)
        counted = {"word": word, "known": known, "of": len(read.key_map.bindings), "wrong": len(read.problems)}
        return counted if known else None

    def suggest(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Propose a map for the texts: what is sure, and what somebody has to look at."""
        from profilesmith.browser import shown_proposals
        from profilesmith.engine import suggest as proposing

        self.proposals = proposing.suggest(self.texts, shown.stem(self.texts[0].name))
        return shown_proposals.proposals(self.proposals), []

    def answer(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """The proposed map with what somebody said: yes, no, or the number of another key. It becomes the text's
        map.
        """
        from profilesmith.engine import suggest as proposing
        from profilesmith.suggest.proposal import CHECK

        assert self.proposals is not None
        said: dict[str, proposing.Answer] = {}
        for item in self.proposals.suggestion.of(CHECK):
            word = asked["answers"].get(item.setting)
            if word is not None:
                said[item.setting] = word if isinstance(word, bool) else item.alternatives[word]
        text, _ = proposing.map_text(proposing.answered(self.proposals, said))
        name = f"{shown.stem(self.texts[0].name)}.toml"
        return self._use(Source(name, text.encode()), name)

    def use(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Read the texts with a map: one of the library by its word, or one that is handed in."""
        if raws:
            return self._use(Source(asked["name"], bytes(raws[0])), asked["name"])
        return self._use(self.offer.library["maps"][asked["word"]], asked["word"])

    def _use(self, key_map: Source, word: str) -> Answer:
        read = translation_of(self.texts, key_map)
        self.key_map, self.map_word = key_map, word
        return shown.reading(read), [key_map.raw]

    def ask(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """What some recipes ask."""
        asking = questions(self.offer.recipes(asked["recipes"]))
        return {"questions": [shown.question(item) for item in asking]}, []

    def check(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """What is wrong with an answer, so that it is told beside its field; "" for nothing."""
        kinds = {item.name: item for item in questions(self.offer.recipes(asked["recipes"]))}
        return {"wrong": {name: shown.wrong(name, text, kinds) for name, text in asked["answers"].items()}}, []

    def derive(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Derive, and show the review as a page."""
        assert self.key_map is not None
        recipes = [self.offer.library["recipes"][word] for word in asked["recipes"]]
        facts = [self.offer.library["facts"][word] for word in asked["facts"]]
        made = derive(self.texts, self.key_map, recipes, facts, asked["answers"], asked["follow"], asked["shares"])
        call = Call(
            bases=tuple(self._seen(source.name, is_file=True) for source in self.texts),
            key_map=self._seen(self.map_word),
            recipes=tuple(map(self._seen, asked["recipes"])),
            facts=tuple(map(self._seen, asked["facts"])),
            answers=dict(asked["answers"]),
            follow_literals=asked["follow"],
            shares=asked["shares"] or AS_MAPPED,
        )
        self.derivation = made._replace(call=call)
        page = render(made.review, "page").encode("utf-8", "backslashreplace")
        return shown.outcome(made, asked["follow"], asked["shares"]), [page]

    def _seen(self, name: str, is_file: bool = False) -> str:
        """A name as seen from the ledger: it lies beside one text, and with several in a folder of their own."""
        if not is_file and "." not in name:
            return name  # of the library
        return f"../{name}" if len(self.texts) > 1 else name if "." in name else f"./{name}"

    def take(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Everything to take along: names, and the bytes of each. name: of the new text; of reports, where there
        are several.
        """
        assert self.derivation is not None
        made, stem = self.derivation, shown.stem(asked["name"])
        names = [asked["name"]] if len(self.texts) == 1 else [source.name for source in self.texts]
        files = list(zip(names, made.outputs, strict=False))
        files += [(f"{names[0]}{LEDGER}", self._ledger(names))] if made.outputs else []
        files += [(self.map_word, self.key_map.raw)] if self.key_map and self._is_own_map() else []
        for form, ending in REPORTS:
            files.append((f"{stem}-{ending}", render(made.review, form).encode("utf-8", "backslashreplace")))
        return {"names": [name for name, _ in files]}, [raw for _, raw in files]

    def _is_own_map(self) -> bool:
        """Whether nobody else has the map: then it belongs to what is taken along."""
        return self.key_map is not self.offer.library["maps"].get(self.map_word)

    def _ledger(self, names: Sequence[str]) -> bytes:
        assert self.derivation is not None
        file = self._seen(self.map_word) if self.map_word.endswith(".toml") else ""
        return ledger_bytes(self.derivation, names, file)

    def sheet(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """For somebody without a text: what to type in by hand, one page a recipe, with what they said filled in."""
        from profilesmith.review.render.checklist_page import render_recipe

        recipes = [_told(recipe, asked["answers"]) for recipe in self.offer.recipes(asked["recipes"])]
        pages = [render_recipe(recipe, load_vocabulary()).encode() for recipe in recipes]
        return {"names": [f"{recipe.name}-checklist.html" for recipe in recipes]}, pages


def _too_much(names: Sequence[str], raws: Sequence[bytes]) -> list[Problem]:
    """Why some texts are not even read."""
    if len(raws) > MOST_TEXTS:
        message, hint = f"These are more than {MOST_TEXTS} texts.", "Choose the texts of one profile."
        return [Problem("too-many", message, hint=hint)]
    hint = "Choose the settings text itself."
    return [
        Problem("too-large", f"{name} is larger than {LARGEST_TEXT:,} bytes.", hint=hint)
        for name, raw in zip(names, raws, strict=True)
        if len(raw) > LARGEST_TEXT
    ]


def _told(recipe: Recipe, answers: Mapping[str, str]) -> Recipe:
    """The recipe with the answers in place of its defaults."""
    inputs = dict(recipe.inputs)
    for name, item in recipe.inputs.items():
        text = answers.get(item.fact or "") or answers.get(f"{recipe.name}.{name}")
        value = read_fact(item.kind, text) if text else None
        inputs[name] = item if value is None else item._replace(default=value)
    return recipe._replace(inputs=inputs)
