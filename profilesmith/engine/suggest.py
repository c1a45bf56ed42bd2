"""Suggest: texts to proposals for a key map, a person's answers to them, and the map itself, new or brought up to
date.
"""

import re
from collections.abc import Mapping, Sequence
from types import MappingProxyType

from profilesmith.engine.read import Source, document_of, no_settings
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.review.wording import show_values
from profilesmith.suggest.choose_reading import BestReading, best_reading
from profilesmith.suggest.detect_habits import Writing, find_habits, writing_of
from profilesmith.suggest.left_alone import with_left_alone
from profilesmith.suggest.load_lexicon import load_lexicon
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


class Instead(NamedTuple):
    """The key holds another setting than the proposed one."""

    setting: str


Answer = bool | Alternative | Instead
"""What a person says to a proposal: yes, no (which is remembered), that other key, or that other setting."""

FEWEST = 3  # well-founded proposals below which a text is not taken for one of print settings


class SuggestedMap(NamedTuple):
    """What came of it. whole: every proposal, also for what the map that stood in its place (old, old_text) binds
    already.

    taken: settings that a person has said yes to. refused: keys that hold none of the settings, as a person says.
    """

    whole: Suggestion
    suggester: Suggester
    old: KeyMap | None = None
    old_text: str = ""
    taken: frozenset[str] = frozenset()
    refused: tuple[str, ...] = ()

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


def suggest(
    bases: Sequence[Source],
    name: str,
    facts: Facts = MappingProxyType({}),
    old: KeyMap | None = None,
    old_text: str = "",
) -> SuggestedMap:
    """Proposals for some texts. name: of a new map; old, old_text: a map that is to be brought up to date.

    Raises Refused when the texts are no settings text.
    """
    problems: list[Problem] = []
    documents, best = documents_of(bases, old, problems)
    refuse_if(problems)
    suggester = Suggester(documents, _writing(documents, best.habits, old), facts, old, best.reading)
    suggestion = read_back(suggester.suggestion(name), documents)
    refuse_if(_nothing_recognised(suggestion, documents))
    return SuggestedMap(suggestion, suggester, old, old_text)


def answered(outcome: SuggestedMap, answers: Mapping[str, Answer]) -> SuggestedMap:
    """The outcome with a person's answers in it: what they took is sure, what they refused is missing, and its key is
    left alone for good, unless something else is bound to it.
    """
    suggestion = outcome.whole
    taken: dict[str, Proposal] = {}
    for item in suggestion.proposals:
        chosen = _chosen(outcome, item, answers.get(item.setting))
        if chosen is not None:
            reasons = (*chosen.reasons, "taken when asked")
            taken[chosen.setting] = chosen._replace(certainty=SURE, doubts=(), reasons=reasons)
    refused = {setting for setting, answer in answers.items() if answer is False or isinstance(answer, Instead)} - {
        *taken
    }
    ousted = {
        item.setting
        for item in suggestion.proposals
        if item.setting not in taken and any(_same_place(item, other) for other in taken.values())
    }
    kept = suggestion.without(refused | ousted)
    new = [item for name, item in taken.items() if name not in {other.setting for other in kept.proposals}]
    proposals = without_loose_references([*(taken.get(item.setting, item) for item in kept.proposals), *new])
    missing = tuple(name for name in kept.missing if name not in taken)
    suggestion = read_back(kept._replace(proposals=tuple(proposals), missing=missing), outcome.documents)
    bound = {item.place[:2] for item in suggestion.proposals}
    no = [
        item for item in outcome.whole.proposals if answers.get(item.setting) is False and item.place[:2] not in bound
    ]
    names = tuple(f"[{item.section}] {item.key}" if item.section else item.key for item in no)
    return outcome._replace(
        whole=suggestion, taken=outcome.taken | taken.keys(), refused=(*outcome.refused, *dict.fromkeys(names))
    )


def _chosen(outcome: SuggestedMap, item: Proposal, answer: Answer | None) -> Proposal | None:
    """The proposal that a person takes, None where they take none."""
    if answer is None or answer is False:
        return None
    if isinstance(answer, Alternative):
        return outcome.suggester.proposal(item.setting, answer.slot)
    if isinstance(answer, Instead):
        slot = outcome.suggester.reading.chosen[item.setting]
        return outcome.suggester.proposal(answer.setting, slot)
    return item


def could_hold(outcome: SuggestedMap, item: Proposal) -> tuple[str, ...]:
    """The settings that a proposal's key could hold by its value, the likeliest first."""
    reading = outcome.suggester.reading
    options = reading.scores[reading.chosen[item.setting]]
    return tuple(sorted(options, key=lambda name: -options[name].score))


def _same_place(one: Proposal, other: Proposal) -> bool:
    """Whether both would bind one place; switches of one key, which have texts of their own, do not take it away."""
    texts = (one.binding.get("on"), other.binding.get("on"))
    return one.place == other.place and (None in texts or texts[0] == texts[1])


def map_text(outcome: SuggestedMap, accept_checks: bool = False) -> tuple[str, Update | None]:
    """The map as a file's text, and what an existing one was given; None for a new one."""
    if outcome.old is None:
        return with_left_alone(new_map(outcome.suggestion, accept_checks), outcome.refused), None
    keys = {(item.section, item.key) for document in outcome.documents for item in document.assignments}
    update = update_map(outcome.old_text, outcome.old, outcome.suggestion, keys, accept_checks, outcome.taken)
    text = with_left_alone(update.text, outcome.refused)
    return text, update._replace(text=text)


def documents_of(
    bases: Sequence[Source], old: KeyMap | None, problems: list[Problem]
) -> tuple[tuple[Document, ...], BestReading]:
    """The texts, read with the habits that they show, and these; what an existing map says goes before."""
    faults: list[Problem] = []
    first = tuple(document_of(source, Habits(), faults) for source in bases)
    best = _best_reading(first, old)
    documents = tuple(
        read_document(document.codec.encode(document.text), document.name, best.habits) for document in first
    )
    if not any(document.assignments for document in documents):
        problems += faults or [no_settings(source) for source in bases]
    return documents, best


def _best_reading(documents: tuple[Document, ...], old: KeyMap | None) -> BestReading:
    if old is None:
        return best_reading(documents)
    mine = old.habits
    laid_out = mine.delimiter is not None or bool(mine.lines)  # what goes together is taken together
    seen = find_habits(document.text for document in documents) if laid_out else best_reading(documents).habits
    layout = mine if laid_out else seen
    habits = layout._replace(
        comments=seen.comments if mine.comments is None else mine.comments,
        inline=seen.inline if mine.inline is None else mine.inline,
    )
    return BestReading(habits, None)


def _writing(documents: tuple[Document, ...], habits: Habits, old: KeyMap | None) -> Writing:
    writing = writing_of(documents, habits, load_lexicon())
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
            int(match[1]) - 1 for problem in problems if (match := re.match(r"binding (\d+)", problem.place.path))
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
        lines = len(document.assignments)
        message = f"Nothing was recognised: of {lines} lines that look like key = value none is surely a print setting."
        message += f" It seems to be {word}." if word and word != "empty" else ""
        hint = "Export the settings as text, one key = value a line with words for keys, or write the map by hand."
        problems.append(Problem("nothing-recognised", message, Place(document.name), hint))
    return problems
