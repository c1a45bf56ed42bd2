"""Vocabulary: the settings, groups, facts and troubles that words mean."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.facts.facts import FactKind, fact_kinds
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.mend.find_trouble import find_troubles, folded, words_of
from profilesmith.mend.troubles import Knowledge, Trouble
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Group, Setting, Vocabulary
from profilesmith.workflows.troubles import known_troubles

Meant = Setting | Group | FactKind | Trouble


def meant_by(word: str) -> Sequence[Meant]:
    """What is called so, the likeliest first. word: one or several, all to be found. Raises Refused for none."""
    vocabulary = load_vocabulary()
    exact = vocabulary.settings.get(word) or vocabulary.groups.get(word) or fact_kinds().get(word)
    if exact is not None:
        return (exact,)
    known = known_troubles(None)
    troubles = _troubles(word, known)
    wanted = folded(word).split()
    settings, facts = _settings_with(wanted, vocabulary), _facts_with(wanted)
    is_name = any(folded(word) in map(folded, words_of(item)) for item in troubles)
    meant = [*troubles, *settings, *facts] if is_name else [*settings, *troubles, *facts]
    if not meant:
        raise Refused([_unknown(word, vocabulary, known)])
    return meant


def _troubles(text: str, known: Knowledge) -> list[Trouble]:
    """Those that are called so, else those that have all its words in their names."""
    wanted = folded(text).split()
    in_names = (item for item in known.troubles.values() if _has_all(" ".join(words_of(item)), wanted))
    return find_troubles(text, known) or list(in_names)


def _settings_with(wanted: Sequence[str], vocabulary: Vocabulary) -> list[Group | Setting]:
    """The groups and settings that have all these words in what they are called or mean."""
    groups = ((f"{group.name} {group.meaning}", group) for group in vocabulary.groups.values())
    settings = ((" ".join((item.id, *item.words, item.meaning)), item) for item in vocabulary.settings.values())
    named: list[tuple[str, Group | Setting]] = [*groups, *settings]
    return [item for words, item in named if _has_all(words, wanted)]


def _facts_with(wanted: Sequence[str]) -> list[FactKind]:
    return [kind for kind in fact_kinds().values() if _has_all(f"{kind.name} {kind.meaning}", wanted)]


def _has_all(words: str, wanted: Sequence[str]) -> bool:
    plain = folded(words)
    return bool(wanted) and all(word in plain for word in wanted)


def _unknown(word: str, vocabulary: Vocabulary, known: Knowledge) -> Problem:
    words = {each for item in vocabulary.settings.values() for each in (*item.words, item.id)}
    words |= {each for item in known.troubles.values() for each in words_of(item)}
    fewer = "Try fewer words; " if len(word.split()) > 1 else ""
    hint = did_you_mean(word, sorted(words), f"{fewer}'profilesmith vocabulary' lists all settings.")
    return Problem("unknown-word", f"No setting, fact or trouble is called {word!r}.", Place(), hint)
