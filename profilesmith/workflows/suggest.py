"""Key map suggest: texts to proposals for a map, and the map itself, new or brought up to date."""

import re
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import NamedTuple

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.library.open_files import open_key_map
from profilesmith.review.wording import show_values
from profilesmith.suggest.detect_habits import Writing, find_habits, writing_of
from profilesmith.suggest.lexicon import load_lexicon
from profilesmith.suggest.proposal import CHECK, SURE, Alternative, Proposal, Suggestion
from profilesmith.suggest.suggest_key_map import Suggester, without_loose_references
from profilesmith.suggest.update_map import Update, beyond_map, update_map, waiting
from profilesmith.suggest.write_map import new_map
from profilesmith.text.codec import seems_to_be
from profilesmith.text.document import Document, Habits
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import translate
from profilesmith.translation.key_map import KeyMap
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.read import read_documents, read_facts
from profilesmith.write_files import outputs_free, write_whole

Answer = bool | Alternative
"""What a person says to a proposal: yes, no, or that other key."""

FEWEST = 3  # well-founded proposals below which a text is not taken for one of print settings


class Order(NamedTuple):
    """What a user asks for. out: the map to write, None for none; an existing one is brought up to date, or with
    overwrite written anew."""

    bases: tuple[str, ...]
    out: Path | None = None
    facts: tuple[str, ...] = ()
    library: Path | None = None
    accept_checks: bool = False
    overwrite: bool = False


class Outcome(NamedTuple):
    """What came of it. whole: every proposal, also for what the map that stood in its place (old, old_text) binds already.

    taken: settings that a person has said yes to.
    """

    whole: Suggestion
    suggester: Suggester
    old: KeyMap | None = None
    old_text: str = ""
    taken: frozenset[str] = frozenset()

    @property
    def suggestion(self) -> Suggestion:
        """What an old map does not bind; blocks that wait in it are in here too."""
        return beyond_map(self.whole, self.old) if self.old else self.whole

    @property
    def waiting(self) -> set[str]:
        """Settings whose blocks stand in the map already, behind "# "."""
        return waiting(self.suggestion, self.old_text)

    @property
    def documents(self) -> tuple[Document, ...]:
        return tuple(self.suggester.documents)


def check_form(form: str) -> None:
    """Raises Refused for a form that does not exist."""
    if form not in ("terminal", "json"):
        raise Refused([Problem("form", f"There is no form {form!r} here.", Place("--as"), "Write terminal or json.")])


def suggest(order: Order) -> Outcome:
    """Proposals for some texts. Raises Refused when they cannot be read or are no settings text."""
    problems: list[Problem] = []
    old, old_text = _existing(order, problems)
    facts = read_facts(order.facts, order.library, problems)
    documents = _documents(order.bases, old, problems)
    refuse_if(problems)
    name = (order.out.stem if order.out else "") or Path(order.bases[0]).stem or "suggested"
    suggester = Suggester(documents, _writing(documents, old), facts, old)
    suggestion = read_back(suggester.suggestion(name), documents)
    refuse_if(_nothing_recognised(suggestion, documents))
    return Outcome(suggestion, suggester, old, old_text)


def answered(outcome: Outcome, answers: Mapping[str, Answer]) -> Outcome:
    """The outcome with a person's answers in it: what they took is sure, what they refused is missing."""
    suggestion = outcome.whole
    refused = {setting for setting, answer in answers.items() if answer is False}
    taken: dict[str, Proposal] = {}
    for item in suggestion.proposals:
        answer = answers.get(item.setting)
        if isinstance(answer, Alternative):
            item = outcome.suggester.proposal(item.setting, answer.slot)
        if answer is not None and answer is not False:
            taken[item.setting] = item._replace(certainty=SURE, doubts=(), reasons=(*item.reasons, "taken when asked"))
    places = {item.place for item in taken.values()}
    ousted = {item.setting for item in suggestion.proposals if item.setting not in taken and item.place in places}
    kept = suggestion.without(refused | ousted)
    proposals = without_loose_references([taken.get(item.setting, item) for item in kept.proposals])
    suggestion = read_back(kept._replace(proposals=tuple(proposals)), outcome.documents)
    return outcome._replace(whole=suggestion, taken=outcome.taken | taken.keys())


def write(order: Order, outcome: Outcome) -> Update | None:
    """Write the map. Returns what an existing one was given, None for a new one. Raises Refused."""
    assert order.out is not None
    update, text = None, new_map(outcome.suggestion, order.accept_checks)
    if outcome.old is not None:
        keys = {(item.section, item.key) for document in outcome.documents for item in document.assignments}
        update = update_map(outcome.old_text, outcome.old, outcome.suggestion, keys, order.accept_checks, outcome.taken)
        text = update.text
    refuse_if(write_whole({order.out: text.encode("utf-8")}, order.overwrite or outcome.old is not None))
    return update


def _existing(order: Order, problems: list[Problem]) -> tuple[KeyMap | None, str]:
    """The map that is to be brought up to date."""
    if order.out is None:
        return None, ""
    inputs = [Path(base) for base in order.bases]
    problems += outputs_free([order.out], inputs, overwrite=True)
    if problems or order.overwrite or not order.out.exists():
        return None, ""
    key_map, found = open_key_map(order.out, str(order.out))
    if found:
        hint = "Mend it, name another file with -o, or let --overwrite write it anew."
        problems += [
            *found,
            Problem("map", "The map that is to be brought up to date cannot be read.", Place(str(order.out)), hint),
        ]
        return None, ""
    return key_map, order.out.read_bytes().decode("utf-8-sig")


def _documents(bases: Iterable[str], old: KeyMap | None, problems: list[Problem]) -> tuple[Document, ...]:
    """The texts, read with the habits that they show; what an existing map says goes before."""
    found: list[Problem] = []
    first = read_documents(bases, Habits(), found)
    problems += [problem for problem in found if problem.code != "no-settings"]
    habits = _habits(first, old)
    documents = tuple(read_document(document.codec.encode(document.text), document.name, habits) for document in first)
    if not any(document.assignments for document in documents):
        problems += [problem for problem in found if problem.code == "no-settings"]
    return documents


def _habits(documents: tuple[Document, ...], old: KeyMap | None) -> Habits:
    seen = find_habits(document.text for document in documents)
    if old is None:
        return seen
    mine = old.habits
    return Habits(
        seen.comments if mine.comments is None else mine.comments,
        seen.inline if mine.inline is None else mine.inline,
        seen.delimiter if mine.delimiter is None else mine.delimiter,
    )


def _writing(documents: tuple[Document, ...], old: KeyMap | None) -> Writing:
    writing = writing_of(documents, _habits(documents, old), load_lexicon())
    if old is None:
        return writing
    return writing._replace(
        decimal=old.decimal or writing.decimal, words=old.words, list=old.list, duplicates=old.duplicates
    )


def load_text(text: str) -> tuple[KeyMap | None, list[Problem]]:
    """A map from its text, as the program itself would load the file."""
    return load_key_map(text.encode(), "map", load_vocabulary())


def read_back(suggestion: Suggestion, documents: tuple[Document, ...]) -> Suggestion:
    """The suggestion with the values that its own map reads; what does not read, or reads as nonsense, is left out."""
    vocabulary = load_vocabulary()
    while suggestion.proposals:
        key_map, problems = load_text(new_map(suggestion, accept_checks=True))
        if key_map is not None:
            break
        order = [*suggestion.of(SURE), *suggestion.of(CHECK)]
        numbers = {
            int(found[1]) - 1 for problem in problems if (found := re.match(r"binding (\d+)", problem.place.path))
        }
        suggestion = suggestion.without({order[number].setting for number in numbers} or {order[-1].setting})
    else:
        return suggestion
    entries = translate(documents, key_map, vocabulary).profile.entries
    wrong = {
        item.setting
        for item in suggestion.proposals
        if item.setting not in entries
        or any(vocabulary.settings[item.setting].implausible(value) for value in entries[item.setting].values)
    }
    kept = suggestion.without(wrong)
    shown = without_loose_references(
        [
            item._replace(value=show_values(vocabulary.settings[item.setting], entries[item.setting].values))
            for item in kept.proposals
        ]
    )
    return kept._replace(proposals=tuple(shown))


def _nothing_recognised(suggestion: Suggestion, documents: tuple[Document, ...]) -> list[Problem]:
    """A text of which next to nothing could be a print setting."""
    enough = min(FEWEST, (sum(len(document.assignments) for document in documents) + 1) // 2)
    if sum(item.founded for item in suggestion.proposals) >= enough:
        return []
    problems = []
    for document in documents:
        word = seems_to_be(document.codec.encode(document.text))
        seems = f" It seems to be {word}." if word and word != "empty" else ""
        lines = len(document.assignments)
        message = f"Nothing was recognised: of {lines} lines that look like key = value none is surely a print setting.{seems}"
        hint = "Export the settings as text, one key = value a line with words for keys, or write the map by hand."
        problems.append(Problem("nothing-recognised", message, Place(document.name), hint))
    return problems
