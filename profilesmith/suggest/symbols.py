"""Keys that are symbols (``v_o``, ``T_n``), and what a text's own legend says of its letters (``; v = speed``).

Comes in: remarks and keys. Goes out: a KeyReader that turns a key into Terms. Letters without a legend are guesses.
"""

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from functools import cache
from types import MappingProxyType

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.ideas import TELLING, THINGS
from profilesmith.suggest.key_words import fold, raw_words, split_words
from profilesmith.suggest.lexicon import Lexicon, Term
from profilesmith.suggest.unit_words import unit_of_words, unit_words
from profilesmith.vocabulary.load_vocabulary import knowledge

HEAD, TAIL = 0.65, 0.5  # how much a letter says that stands for one thing only
LONGEST_LETTER = 5  # a legend explains short signs; longer words are read as words
FEWEST_BARE = 3  # definitions without a sign: "v speed, a acceleration, w width"
FEWEST, MANY = 2, 3  # definitions: one alone may be a setting that is switched off, unless so many keys have its sign
NUMBERED = 0.6  # the share of keys with the same letters before a number that makes a numbered list
SHORTEST_PIECE = 3  # letters of a piece of a word
SYMBOLIC = 0.4  # the share of keys that begin with a single letter where keys are symbols
WEAKEST = 0.5
LEAST_TELLING, ASIDE = 0.35, 0.4
INDEX = THINGS | {
    "side",
    "upright",
    "least",
    "most",
    "rest",
}  # what an index says; the letter before it says the property

_SIGNED = re.compile(r"(?<!\w)(?<!\w\.)([^\W_]{1,5})\s*(?:=|:|->|=>|–|—| - )\s*([^\W\d][^,;:=|()]*)")
_FIRST = re.compile(r"\W*([^\W_]{1,5})\s*(?:=|:|->|=>|–|—)\s")
_BARE = re.compile(r"(?:^|[,;:|(])\s*(?:and |und |et )?([^\W_]{1,3})\s+([^\W\d][^,;:=|()]*)")


# "Ti = Tisch", all of a remark: a piece of a key where it is met first
_DEFINED = re.compile(r"([^\W_]{1,6})\s*(?:=|:)\s*([^\W\d][^=:|]*)")


class Legend(NamedTuple):
    """What letters stand for. anywhere: in any place of a key; tails: behind the first letter only. By their case."""

    anywhere: Mapping[str, Term]
    tails: Mapping[str, Term]


class KeyReader(NamedTuple):
    """Turns keys into terms. symbolic: most keys of the text begin with a single letter.

    numbered: the letters before the number of most keys, when these are a numbered list: ``P101``.
    mnemonic: most keys hold a piece of a word, so that the others are shortened too and no mere codes.
    units: what remarks say of the unit of all keys with a word.
    """

    lexicon: Lexicon
    legend: Legend
    symbolic: bool
    numbered: str = ""
    mnemonic: bool = False
    units: Mapping[str, str] = MappingProxyType({})

    def read(self, key: str) -> list[Term]:
        """The terms of a key, in order."""
        words = raw_words(key)
        if self.numbered and len(words) == 2 and words[0] == self.numbered and words[1].isdigit():
            return []
        if not self.legend.anywhere and not self.legend.tails and not self.symbolic:
            return self.lexicon.read([fold(word) for word in words])
        terms: list[Term] = []
        plain: list[str] = []
        for place, word in enumerate(self._parted(words)):
            term = self._sign(word, place)
            if term is None:
                plain.append(fold(word))
                continue
            terms += [*self.lexicon.read(plain), term]
            plain = []
        return [*terms, *self.lexicon.read(plain)]

    def _parted(self, words: list[str]) -> list[str]:
        """``vo`` as ``v`` and ``o``, where the legend explains both letters and not the word."""
        result: list[str] = []
        for word in words:
            known = {**self.legend.tails, **self.legend.anywhere}
            head = word[0] in known or (self.symbolic and word[0] in _letters("head"))
            tail = word[1:] in known or (self.symbolic and word[0] in known and word[1:].lower() in _letters("tail"))
            parted = 2 <= len(word) <= 3 and word not in known and bool(known) and head and tail
            result += [word[0], word[1:]] if parted else [word]
        return result

    def _sign(self, word: str, place: int) -> Term | None:
        """What a sign stands for, by the legend first; None for a word."""
        stated = (self.legend.tails.get(word) if place else None) or self.legend.anywhere.get(word)
        if not self.symbolic or (len(word) > 2 and not stated):
            return stated
        guess = _letters("tail").get(word.lower()) if place else _letters("head").get(word)
        if stated is None or guess is None:
            return stated or guess
        return stated._replace(ideas={**{idea: held / 2 for idea, held in guess.ideas.items()}, **stated.ideas})


def key_reader(
    remarks: Iterable[str], keys: Iterable[str], lexicon: Lexicon, behind: Mapping[str, str] = MappingProxyType({})
) -> KeyReader:
    """The reader of a text's keys. remarks: the text's remark lines; its letters are those that its keys hold.

    behind: key -> the remark of that key alone.
    """
    keys, remarks = list(keys), list(remarks)
    split = [raw_words(key) for key in keys]
    single = sum(bool(words) and len(words[0]) == 1 and words[0].isalpha() for words in split)
    held = {word for words in split for word in words if len(word) <= LONGEST_LETTER}
    held |= {part for word in held if len(word) <= 3 for part in (word[0], word[1:]) if part}
    heads = Counter(words[0] for words in split if len(words) == 2 and words[1].isdigit())
    head, times = heads.most_common(1)[0] if heads else ("", 0)
    numbered = head if times >= max(NUMBERED * len(split), FEWEST) else ""
    pieces = Counter(word for words in split for word in set(words))
    common = frozenset(word for word, times in pieces.items() if times >= MANY)
    legend = read_legend(remarks, held, lexicon, common)
    legend = legend._replace(anywhere={**_glossary(behind, lexicon), **legend.anywhere})
    symbolic = not numbered and single >= SYMBOLIC * max(len(split), 1)
    mnemonic = sum(any(_says_something(word, lexicon) for word in words) for words in split) * 2 > len(split)
    return KeyReader(lexicon, legend, symbolic, numbered, mnemonic, unit_words(remarks, lexicon))


def _says_something(word: str, lexicon: Lexicon) -> bool:
    """Whether a piece of a key is a word, or a cut of one."""
    return len(word) >= SHORTEST_PIECE and any(
        max(term.ideas.values(), default=0.0) >= LEAST_TELLING for term in lexicon.word(fold(word))
    )


def _glossary(behind: Mapping[str, str], lexicon: Lexicon) -> dict[str, Term]:
    """Pieces of keys that the remark of such a key explains."""
    result: dict[str, Term] = {}
    for key, remark in behind.items():
        match = _DEFINED.fullmatch(remark.strip(" .()"))
        if match and match[1] in raw_words(key) and (term := _term(match[1], match[2], lexicon, False)):
            result.setdefault(match[1], term)
    return result


def read_legend(
    remarks: Iterable[str], held: set[str], lexicon: Lexicon, common: frozenset[str] = frozenset()
) -> Legend:
    """The definitions in remarks, of signs that keys hold. common: signs that many keys hold."""
    anywhere: dict[str, Term] = {}
    tails: dict[str, Term] = {}
    marks = _legend_words()
    for remark in remarks:
        indices = not marks.isdisjoint(split_words(remark))
        first = _FIRST.match(remark)
        alone = first is not None and first[1] in common and fold(first[1]) not in lexicon.terms
        bare = len(_SIGNED.findall(remark)) < FEWEST and not alone
        pairs = (_BARE if bare else _SIGNED).findall(remark)
        terms = {sign: term for sign, words in pairs if sign in held and (term := _term(sign, words, lexicon, indices))}
        if len(terms) >= (1 if indices or alone else FEWEST_BARE if bare else FEWEST):
            (tails if indices else anywhere).update(terms)
    return Legend(anywhere, tails)


def _term(sign: str, words: str, lexicon: Lexicon, indices: bool) -> Term | None:
    """A sign with the ideas of the words that explain it; None when these say nothing, or a unit alone."""
    if unit_of_words(words, lexicon):
        return None
    ideas: dict[str, float] = {}
    decoy = 0.0
    for term in lexicon.read(split_words(words)):
        decoy = max(decoy, 0.0 if term.firm else term.decoy)
        for idea, held in term.ideas.items():
            if not term.small:
                ideas[idea] = max(ideas.get(idea, 0.0), held)
    if not ideas and not decoy:
        return None
    things = {idea: held for idea, held in ideas.items() if idea in INDEX}
    if indices and things:
        ideas = things
    telling = [idea for idea in ideas.keys() & TELLING if ideas[idea] >= LEAST_TELLING]
    if telling:  # "outer wall" is the outer one before it is a wall
        ideas = {idea: held * ASIDE for idea, held in ideas.items()} | dict.fromkeys(telling, 1.0)
    top = max(ideas.values(), default=1.0)
    return Term(sign, {idea: max(held, WEAKEST * held / top) for idea, held in ideas.items()}, top >= 1.0, decoy)


@cache
def _legend_words() -> frozenset[str]:
    return frozenset(fold(word) for word in knowledge("symbols.toml")["legend"]["words"])


@cache
def _letters(place: str) -> Mapping[str, Term]:
    """The guesses of symbols.toml; a letter that may stand for several ideas says less of each, the first most."""
    result = {}
    weight = HEAD if place == "head" else TAIL
    for letter, ideas in knowledge("symbols.toml")[place].items():
        held = {idea: weight / (1 + at) ** 0.7 for at, idea in enumerate(ideas)}
        result[letter] = Term(f"{letter}_" if place == "head" else letter, held)
    return result
