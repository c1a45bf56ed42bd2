"""Words to ideas, as the data files of the languages say: ``pace`` is speed, ``lid`` may be the top.

Comes in: words. Goes out: Terms with the ideas that they may stand for. Knows nothing of settings or values.
"""

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.abbreviations import shortened
from profilesmith.suggest.key_words import stem
from profilesmith.suggest.near_words import nearest

LONGEST_PHRASE = 4
SHORTEST_TELLTALE, FEWEST_TELLTALES = 4, 3  # letters of a word, and how many such words show what language a text is in
SHORTEST_WARNING = 5  # letters of a word that warns as the end of a compound: "overture" has no door (tür) in it
PLAIN = 0.6  # the hold of a word on what it stands for alone
LENT = 0.85  # how much of its meaning a word lends a phrase
SHORTEST_COMPOUND = 6  # letters
_LIMIT_BEHIND = re.compile(r"(\w{1,4})(min|max)")
_ENDINGS = ("s", "es", "e", "n", "en", "r", "er", "em", "x", "d", "ed", "ing", "ly")
_JOINTS = ("", "s", "n", "en", "es")


class Term(NamedTuple):
    """One word or phrase of a key. ideas: what it may stand for, with weights; firm: a word of the trade.

    decoy: how much it speaks against any setting (0 to 1); small: it says nothing. lent: what its parts say besides: a
    "fan off" speaks of a fan too, but is no fan.
    """

    text: str
    ideas: Mapping[str, float] = MappingProxyType({})
    firm: bool = False
    decoy: float = 0.0
    small: bool = False
    lent: Mapping[str, float] = MappingProxyType({})


class Lexicon(NamedTuple):
    """Everything that the language files know, by phrase (words joined by blanks)."""

    terms: Mapping[str, Term]
    units: Mapping[str, str]
    on: frozenset[str]
    off: frozenset[str]
    patterns: Mapping[str, str]
    share: tuple[str, ...]
    measured: Mapping[str, str]
    found: dict[str, tuple[Term, ...]]
    languages: Mapping[str, frozenset[str]]
    near: Mapping[str, tuple[str, ...]]
    inflected: Mapping[str, Term]
    english: bool = False

    def for_words(self, words: Iterable[str]) -> "Lexicon":
        """The lexicon for a text with such words: in one that is plainly English nothing abbreviates foreign words."""
        listed = {word for word in words if len(word) >= SHORTEST_TELLTALE}
        hits = {language: len(listed & known) for language, known in self.languages.items()}
        english = hits["en"] >= FEWEST_TELLTALES and all(
            hits["en"] > count for language, count in hits.items() if language != "en"
        )
        return self._replace(english=english, found={})

    def language_of(self, words: Iterable[str]) -> str:
        """The language whose word lists hold most of some words; "" when none holds any."""
        listed = list(words)
        hits = {language: sum(word in known for word in listed) for language, known in self.languages.items()}
        best = max(hits, key=lambda language: hits[language])
        return best if hits[best] else ""

    def read(self, words: list[str]) -> list[Term]:
        """The longest known phrases, left to right; what is not known becomes a Term without ideas."""
        terms: list[Term] = []
        at = 0
        while at < len(words):
            for length in range(min(LONGEST_PHRASE, len(words) - at), 1, -1):
                known = self._phrase(words[at : at + length])
                if known is not None:
                    terms.append(known)
                    break
            else:
                length = 1
                terms += self.word(words[at])
            at += length
        return terms

    def _phrase(self, words: list[str]) -> Term | None:
        """Words that are listed together, in these forms or in others."""
        return self.terms.get(" ".join(words)) or self.inflected.get(" ".join(map(stem, words)))

    def word(self, word: str) -> tuple[Term, ...]:
        """The term of one word, or the terms of a compound's parts."""
        terms = self.found.get(word)
        if terms is None:
            terms = self.found[word] = self._look_up(word)
        return terms

    def _look_up(self, word: str) -> tuple[Term, ...]:
        known = self._stem(word)
        if known is not None:
            return (self._with_parts(known, word),)
        if word.isdigit():
            # Layers are counted from nought or one: ``row[1].pace`` is the first row's.
            return (Term(word, {"0": {"first": 0.4}, "1": {"first": 0.6}}.get(word, {}), small=True),)
        parts = self._compound(word, 3) if len(word) >= SHORTEST_COMPOUND else None
        if parts:
            return parts
        limit = _LIMIT_BEHIND.fullmatch(word)
        if limit:  # "tmin", "vmax"
            return (*self.word(limit[1]), *self.word(limit[2]))
        ideas = shortened(word, self.english)
        return (Term(word, ideas),) if ideas else (self._alike(word),)

    def _alike(self, word: str) -> Term:
        """What a word means that looks like a listed one: as a slip, or as a word of the same stem."""
        near = nearest(word, self.near)
        term = self.terms.get(near.word) if near else None
        if near is None or term is None:
            return Term(word)
        ideas = {idea: near.share * held for idea, held in term.ideas.items()}
        return Term(word, ideas, decoy=term.decoy if term.decoy == 1 else 0.0)

    def _with_parts(self, term: Term, word: str) -> Term:
        """A compound that is listed, with what its parts say besides: ``düsenloch`` is a bore, of a nozzle."""
        parts = self._compound(word, 3) if len(word) >= SHORTEST_COMPOUND and term.ideas else None
        return lending(term, parts) if parts else term

    def _stem(self, word: str) -> Term | None:
        """A word as it is listed, together with what its stem is listed as: ``rows`` are counted, a ``row`` is a
        layer.
        """
        exact = self.terms.get(word)
        for ending in _ENDINGS:
            if word.endswith(ending) and len(word) - len(ending) >= 3:
                known = self.terms.get(word[: -len(ending)])
                if known is None or known.small:
                    continue
                if exact is None:
                    return known
                if exact.decoy == 1 and not exact.ideas:
                    return exact  # a "liner" is no line
                ideas = {**known.ideas, **exact.ideas}
                return exact._replace(ideas=ideas, decoy=max(exact.decoy, 0.0 if exact.firm else known.decoy))
        return exact

    def _compound(self, word: str, most: int) -> tuple[Term, ...] | None:
        """``aussenbahn`` as outer and bead: words of three letters and more that cover the whole."""
        for cut in range(len(word) - 3, 2, -1):
            head = self.terms.get(word[:cut])
            if head is None or head.small or not (head.ideas or head.decoy):
                continue
            for joint in _JOINTS:
                rest = word[cut + len(joint) :]
                if len(rest) < 3 or not word[cut:].startswith(joint):
                    continue
                tail = self._stem(rest)
                if tail is not None and (tail.ideas or (len(rest) >= SHORTEST_WARNING and tail.decoy)):
                    return (head, tail)
                more = self._compound(rest, most - 1) if most > 2 else None
                if more:
                    return (head, *more)
        return None


def lending(term: Term, parts: Iterable[Term]) -> Term:
    """A term with the ideas of its parts that are words of the trade, or mean one thing only."""
    lent = {
        idea: LENT * held
        for part in parts
        for idea, held in part.ideas.items()
        if part.firm or (held >= PLAIN and not part.small)
    }
    return term._replace(lent={idea: held for idea, held in lent.items() if idea not in term.ideas})
