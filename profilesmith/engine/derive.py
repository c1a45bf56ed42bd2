"""Derive: texts, a map and recipes to new texts, audited, and the review of what changed."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from profilesmith.audit import audit
from profilesmith.checks.case import UNKNOWN, Measured
from profilesmith.engine.derivation_review import derivation_file, derivation_review
from profilesmith.engine.read import Ingredients, Source, read_sources
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger import Call, Ledger, StartCommand
from profilesmith.ledger.file import LedgerFile
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.outcomes import Outcomes
from profilesmith.recipe.recipe import Recipe
from profilesmith.recipe.tool import chosen_tool
from profilesmith.review.review import Review
from profilesmith.text.document import Edit
from profilesmith.text.edit_document import edit_document
from profilesmith.translation.document_to_profile import Translation
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.translation.start_block import contradictions, follow_literals, left_alone
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


class Derivation(NamedTuple):
    """outputs: the new bytes, one for each base file; empty when conflicts stand against writing.

    file: the ledger as it is written. worded: the review, where somebody will read it.
    call: what was asked for, where the ledger is to remember it. inputs: names of what must not be written to.
    made: the texts as the recipes alone made them, where hand edits stand in ``outputs``; () where they are the same.
    """

    translation: Translation
    recipes: tuple[Recipe, ...]
    ledger: Ledger
    file: LedgerFile
    worded: Review | None
    outputs: tuple[bytes, ...]
    inputs: tuple[str, ...] = ()
    call: Call | None = None
    made: tuple[bytes, ...] = ()

    @property
    def review(self) -> Review:
        """The review of one that was derived with words."""
        assert self.worded is not None
        return self.worded

    @property
    def problems(self) -> tuple[Problem, ...]:
        return self.ledger.problems


def derive(
    bases: Sequence[Source],
    key_map: Source,
    recipes: Sequence[Source] = (),
    facts: Sequence[Source] = (),
    answers: Mapping[str, str] = MappingProxyType({}),
    follow: bool = False,
    shares: str = "",
) -> Derivation:
    """Run the whole pipeline. Raises Refused for wrong input, not for conflicts.

    answers: name of a fact or an input -> text as typed. follow: temperatures in start blocks are changed too.
    shares: what becomes of shares whose reference moves, "keep" or "follow"; "" for what the map says.
    """
    given = read_sources(bases, key_map, recipes, facts, answers, shares)
    return carry_out(given.translation, given.recipes, ledger_of(given), follow)


def ledger_of(given: Ingredients, outcomes: Outcomes | None = None) -> Ledger:
    """What the recipes make of the texts. outcomes: what rules have come to in earlier derivations of one run."""
    return apply_recipes(
        given.translation.profile, given.recipes, given.facts, given.answers, load_vocabulary(), outcomes
    )


class Exported(NamedTuple):
    """A ledger with texts, the new bytes (none where conflicts stand against writing), and the commands left as they
    are.
    """

    ledger: Ledger
    outputs: tuple[bytes, ...]
    commands: tuple[StartCommand, ...]


def export(translation: Translation, ledger: Ledger, follow: bool = False) -> Exported:
    """A ledger to new bytes, audited. follow: temperatures in start blocks are changed too."""
    writing = write_ledger(ledger, translation, load_vocabulary())
    contradicting = contradictions(translation, ledger.derived, chosen_tool(ledger.facts))
    edits: list[list[Edit]] = [list(items) for items in writing.edits]
    ledger = writing.ledger
    if follow:
        ledger, more, contradicting = follow_literals(ledger, contradicting, translation)
        edits = [mine + theirs for mine, theirs in zip(edits, more, strict=True)]
    outputs = () if ledger.problems else new_texts(translation, edits, ledger)
    return Exported(ledger, outputs, left_alone(contradicting, translation))


def carry_out(
    translation: Translation,
    recipes: Sequence[Recipe],
    ledger: Ledger,
    follow: bool = False,
    words: bool = True,
    measured: Measured = UNKNOWN,
) -> Derivation:
    """A ledger to new bytes, audited, and their review; without words its file only. measured: of motion files."""
    made = export(translation, ledger, follow)
    return judged(translation, recipes, made, made.outputs, words, measured)


def judged(
    translation: Translation,
    recipes: Sequence[Recipe],
    made: Exported,
    outputs: tuple[bytes, ...],
    words: bool = True,
    measured: Measured = UNKNOWN,
) -> Derivation:
    """What was exported, judged once and arranged for a person. outputs: the bytes, with hand edits in them if there
    are any.
    """
    file = derivation_file(translation, made.ledger, made.commands, measured)
    review = derivation_review(translation, made.ledger, file) if words else None
    return Derivation(translation, tuple(recipes), made.ledger, file, review, outputs)


def new_texts(translation: Translation, edits: Sequence[Sequence[Edit]], ledger: Ledger) -> tuple[bytes, ...]:
    """The edited texts, audited. Raises Refused."""
    written = []
    for document, changes in zip(translation.documents, edits, strict=True):
        try:
            written.append(edit_document(document, changes))
        except UnicodeEncodeError as error:
            message = f"The text's encoding ({document.codec}) has no {error.object[error.start : error.end]!r}."
            raise Refused(
                [Problem("encoding", message, Place(document.name), "Change the texts in the map.")]
            ) from error
    refuse_if(audit(translation, edits, written, ledger.derived))
    return tuple(written)
