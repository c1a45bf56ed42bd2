"""A derived file as it lies: its ledger, what its texts hold now, and what is at hand to read and to judge them."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.engine.read import Source
from profilesmith.facts.facts import Facts, fact_kinds
from profilesmith.foundation.digest import sha256_hex
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.ledger.history import AS_MAPPED
from profilesmith.ledger.not_as_then import AnswerLeftOut
from profilesmith.ledger.packed import unpack
from profilesmith.ledger.read import Stored, read_ledger
from profilesmith.recipe.recipe import Recipe
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.key_map import FOLLOW, KeyMap
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


class TextAsItLies(NamedTuple):
    """name: as people know it. raw: None where it cannot be read; there: whether anything lies there at all."""

    name: str
    raw: bytes | None
    there: bool = True

    @property
    def sha256(self) -> str:
        """ "" for what cannot be read."""
        return "" if self.raw is None else sha256_hex(self.raw)


class DerivedFile(NamedTuple):
    """name: by which it was asked for. texts: one for each output of its ledger, in their order.

    key_map: the one that the ledger names; recipes: those that it was derived with, those of this profile alone among
    them; None where they cannot be read. left: a file that a run which did not end has left beside it, "" for none.
    """

    name: str
    stored: Stored
    texts: tuple[TextAsItLies, ...]
    key_map: KeyMap | None = None
    recipes: tuple[Recipe, ...] | None = None
    left: str = ""

    def changed(self) -> list[TextAsItLies]:
        """The texts that are not what the ledger says was written."""
        outputs = self.stored.file.outputs
        return [text for text, item in zip(self.texts, outputs, strict=True) if text.sha256 != item.sha256]


def open_ledger(source: Source) -> Stored:
    """A ledger's bytes, read. Raises Refused."""
    try:
        stored = read_ledger(source.raw.decode("utf-8"), source.name, load_vocabulary())
    except UnicodeDecodeError as error:
        hint = "Choose the ledger that lies beside the derived file."
        raise Refused([Problem("not-json", "The ledger is no UTF-8 text.", Place(source.name), hint)]) from error
    if isinstance(stored, Problem):
        raise Refused([stored])
    return stored


def translation_now(file: DerivedFile) -> Translation | None:
    """The derived texts as they are, through the map that the ledger names; None where one of them cannot be read."""
    if file.key_map is None:
        return None
    documents = []
    for text in file.texts:
        if text.raw is None:
            return None
        documents.append(read_document(text.raw, text.name, file.key_map.habits))
    return translate(tuple(documents), file.key_map, load_vocabulary())


def laid_in(stored: Stored) -> tuple[Source, ...]:
    """The recipes that the ledger itself keeps; one that cannot be unpacked is left out, and its rows say what it
    did.
    """
    kept = stored.file.call.laid if stored.file.call else ()
    texts = [(item.name, unpack(item.text)) for item in kept]
    return tuple(Source(name, raw) for name, raw in texts if raw)


def answers_then(stored: Stored, recipes: Sequence[Recipe]) -> tuple[dict[str, str], tuple[AnswerLeftOut, ...]]:
    """What was answered then, for questions that these recipes still ask; and what is left out."""
    known = {f"{recipe.name}.{name}" for recipe in recipes for name in recipe.inputs}
    answers, left_out = {}, []
    for use in stored.ledger.recipes:
        for name, answer in use.answers.items():
            if answer.origin != "answer":
                continue
            if f"{use.name}.{name}" in known:
                answers[f"{use.name}.{name}"] = answer.said
            else:
                left_out.append(AnswerLeftOut(use.name, name, answer.said))
    return answers, tuple(left_out)


def facts_then(stored: Stored) -> Facts:
    """The facts that the ledger holds."""
    return {name: fact for name, fact in stored.ledger.facts.items() if name in fact_kinds()}


def shares_then(stored: Stored) -> str:
    """What became of shares then; in ledgers that do not say it they followed."""
    said = stored.file.call.shares if stored.file.call else FOLLOW
    return "" if said == AS_MAPPED else said


def followed_then(stored: Stored) -> bool:
    """Whether start blocks followed then."""
    call = stored.file.call
    return call.follow_literals if call else any(row.cause.kind == "start block" for row in stored.ledger.rows)
