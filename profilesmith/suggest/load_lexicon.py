"""The lexicon from the data files of the languages.

Comes in: knowledge/vocabulary.<language>.toml, decoys.toml. Goes out: one Lexicon, read once a process.
"""

from collections.abc import Iterable, Mapping
from functools import cache

from profilesmith.suggest.abbreviations import LANGUAGES, shortened
from profilesmith.suggest.ideas import LATER
from profilesmith.suggest.key_words import spellings, split_words, stem
from profilesmith.suggest.lexicon import Lexicon, Term, lending
from profilesmith.suggest.near_words import by_beginning
from profilesmith.vocabulary.load_vocabulary import knowledge

# How much of a word's meaning is known: a picture word ("lid") may always mean something else in this text.
KNOWN, PICTURED = 1.0, 0.7
_FORMAL = frozenset(["first", "off", "bridge"])  # ideas whose phrases are met in their very form only


def phrases(entries: Iterable[str]) -> Iterable[str]:
    """Every spelling of every entry, as words joined by blanks."""
    for entry in entries:
        if entry.isascii() and entry.isalpha():
            yield entry
            continue
        for form in spellings(entry):
            yield " ".join(split_words(form))


@cache
def load_lexicon() -> Lexicon:
    """All languages at once: people mix them, and a text does not say which it is written in."""
    trade: dict[str, dict[str, float]] = {}
    like: dict[str, dict[str, float]] = {}
    small: set[str] = set()
    units: dict[str, str] = {}
    on: set[str] = set()
    off: set[str] = set()
    patterns: dict[str, str] = {}
    share: list[str] = []
    measured: dict[str, str] = {}
    languages: dict[str, frozenset[str]] = {}
    for language in LANGUAGES:
        data = knowledge(f"vocabulary.{language}.toml")
        for name, table in (("trade", trade), ("like", like)):
            for idea, entries in data[name].items():
                for phrase in phrases(entries):
                    table.setdefault(phrase, {})[idea] = KNOWN
        lists = (entries for name in ("trade", "like") for entries in data[name].values())
        languages[language] = frozenset(phrase for entries in lists for phrase in phrases(entries))
        small.update(phrases(data["small"]["words"]))
        units.update((phrase, name) for name, entries in data["units"].items() for phrase in phrases(entries))
        on.update(phrases(data["switch"]["on"]))
        off.update(phrases(data["switch"]["off"]))
        patterns.update((phrase, name) for name, entries in data["patterns"].items() for phrase in phrases(entries))
        share += (phrase for phrase in phrases(data["share"]["words"]) if " " in phrase)  # "% of" is read by its sign
        measured.update((phrase, name) for name, entries in data["measured"].items() for phrase in phrases(entries))
    terms = _terms(trade, like, small)
    alike, forms = _alike(terms), _inflected(terms)
    return Lexicon(
        terms, units, frozenset(on), frozenset(off - on), patterns, tuple(share), measured, {}, languages, alike, forms
    )


def _alike(terms: Mapping[str, Term]) -> Mapping[str, tuple[str, ...]]:
    """The words that another word may look like: those that mean something, or warn."""
    return by_beginning(
        word for word, term in terms.items() if " " not in word and not term.small and (term.ideas or term.decoy == 1)
    )


def _inflected(terms: Mapping[str, Term]) -> dict[str, Term]:
    """Phrases by the stems of their words.

    Those that warn keep their very form, and those of the first layer or of what is off: the bottom layers are several,
    and "after layers" is not after layer 1.
    """
    stems: dict[str, Term] = {}
    for phrase, term in terms.items():
        if " " in phrase and not term.decoy and _FORMAL.isdisjoint(term.ideas):
            stems.setdefault(" ".join(map(stem, phrase.split())), term)
    return stems


def _terms(trade: dict[str, dict[str, float]], like: dict[str, dict[str, float]], small: set[str]) -> dict[str, Term]:
    data = knowledge("decoys.toml")
    decoys = dict.fromkeys(phrases(data["weak"]["words"]), 0.3)
    decoys.update(dict.fromkeys((phrase for group in data["strong"].values() for phrase in phrases(group)), 1.0))
    terms: dict[str, Term] = {}
    for phrase in sorted({*trade, *like, *decoys, *small}):  # of phrases with the same stems the first one counts
        ideas = dict(trade.get(phrase, {}))
        pictured = [idea for idea in like.get(phrase, {}) if idea not in ideas]
        weight = PICTURED / max(len(pictured), 1) ** 0.5 * (0.5 if ideas else 1)
        ideas.update(dict.fromkeys(pictured, weight))
        if len(phrase) == 1 and not ideas:  # an article, or an initial
            ideas = shortened(phrase)
            terms[phrase] = Term(phrase, ideas, small=True)
            continue
        # A particle may stand for something ("by", "de"), but needs no explaining where it does not.
        particle = phrase in small
        terms[phrase] = Term(phrase, ideas, phrase in trade and not particle, decoys.get(phrase, 0.0), particle)
    for phrase in [phrase for phrase in {*trade, *like} if " " in phrase and LATER not in terms[phrase].ideas]:
        forms = (form for word in phrase.split() for form in (word, word.removesuffix("s")))
        terms[phrase] = lending(terms[phrase], [terms[form] for form in forms if form in terms])
    return terms
