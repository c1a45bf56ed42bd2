"""Keys that choose one of several things: ``foot = 2`` beside "0 nothing, 1 skirt, 2 brim, 3 raft". Each thing is a
switch.

Comes in: a value and what a remark says of its values. Goes out: a Mode for each thing that the vocabulary has a
switch for.
"""

import re
from collections.abc import Mapping

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.key_words import fold, split_words
from profilesmith.suggest.lexicon import Lexicon, Term
from profilesmith.suggest.remark_names import meanings

SWITCHED = ("raft", "brim")  # things of which a text has one at most, and that have a switch
BESIDE = ("skirt", *SWITCHED, "support")  # things of such a list; the first where a word may be several ("ring")
FEWEST_LISTED = 2
LEAST_HOLD = 0.15  # of a word in a list of what lies under a part
NO_YES = {"0": "no", "1": "yes"}
_NO_OR_YES = re.compile(
    r"(?<![\w.,/])(?:0\s*(?:/|-|\||or|oder|ou)\s*1|1\s*(?:/|\||or|oder|ou)\s*0"
    r"|(?:yes|y)/(?:no|n)|(?:ja|j)/(?:nein|n)|(?:oui|o)/(?:non|n)|on/off|ein/aus|an/aus)(?![\w.,/])",
    re.I,
)
_BRACKET = re.compile(r"\([^()]*\)")
_EDGES = " ().!#*%~'\"<>{}[]|«»-"
MOST_WORDS = 3  # of one value in a list of several
_APART = re.compile(r"[,/|;]|\bor\b|\boder\b|\bou\b")


class Mode(NamedTuple):
    """One thing that a key can choose. on: its text; off: the text for nothing, "" where none is told; terms: its
    words.
    """

    on: str
    off: str
    terms: tuple[Term, ...]


def told_values(value: str, remark: str) -> dict[str, str]:
    """Text of a value -> what it means: numbers with words, or the words themselves where a remark lists the value
    among them.
    """
    numbered = meanings(remark)
    if numbered:
        return numbered if value in numbered else {}
    if value in NO_YES and (_NO_OR_YES.search(remark) or remark.rstrip(" .)").endswith("?")):
        return NO_YES
    listed = _listed(value, remark)
    return listed if len(listed) >= FEWEST_LISTED and value in listed else {}


def _listed(value: str, remark: str) -> dict[str, str]:
    """The words of a list, with what a bracket says of each: "none / rim (flat, one layer) / pad"."""
    masked = _BRACKET.sub(lambda match: "_" * len(match[0]), remark)
    head = masked.rfind(":") + 1
    for part in re.finditer(r"[^;]+", masked[head:]):  # what stands between semicolons may be a list of its own
        if _APART.search(part[0]) and value.casefold() in part[0].casefold():
            head, masked = head + part.start(), masked[: head + part.end()]
            break
    text, masked = remark[head : len(masked)], masked[head:]
    ends = [match.span() for match in _APART.finditer(masked)]
    starts, stops = [0, *(stop for _, stop in ends)], [*(start for start, _ in ends), len(text)]
    pieces = [text[start:stop] for start, stop in zip(starts, stops, strict=True)]
    listed: dict[str, str] = {}
    for piece in pieces:
        word = _BRACKET.sub("", piece).strip(_EDGES)
        if word and (" " not in word or (len(pieces) > FEWEST_LISTED and len(word.split()) <= MOST_WORDS)):
            listed[value if fold(word) == fold(value) else word] = piece.strip(_EDGES.replace("()", ""))
    return listed


def off_text(meanings: Mapping[str, str], lexicon: Lexicon) -> str:
    """The text that means nothing at all, "" where none is told."""
    for text, words in meanings.items():
        plain = [fold(word) for word in words.split()]
        if plain and (" ".join(plain) in lexicon.off or plain[0] in lexicon.off):
            return text
    return ""


def modes_of(meanings: Mapping[str, str], lexicon: Lexicon) -> list[Mode]:
    """The things that have a switch; [] where the values tell of one such thing alone and of no other of their kind."""
    things = {text: _thing(words, lexicon) for text, words in meanings.items()}
    listed = sum(thing in BESIDE for thing, _ in things.values())
    shapes = sum(_is_shape(words, lexicon) for words in meanings.values())  # "0 lines, 1 grid, 2 rings" lists no things
    if listed < FEWEST_LISTED or shapes >= listed:
        return []
    off = off_text(meanings, lexicon)
    modes: dict[str, Mode] = {}
    for text, (thing, terms) in things.items():
        if thing in SWITCHED:
            modes.setdefault(thing, Mode(text, off, terms))
    return list(modes.values())


def _is_shape(words: str, lexicon: Lexicon) -> bool:
    """Whether words name a shape of infill lines."""
    plain = split_words(words)
    return " ".join(plain) in lexicon.patterns or (bool(plain) and plain[-1] in lexicon.patterns)


def _thing(words: str, lexicon: Lexicon) -> tuple[str, tuple[Term, ...]]:
    """What of a list some words stand for most, and the terms that say it."""
    terms = lexicon.read(split_words(words))
    holds = {idea: term.ideas[idea] for term in terms for idea in BESIDE if idea in term.ideas}
    best = max(holds, key=lambda idea: holds[idea], default="")
    if not best or holds[best] < LEAST_HOLD:
        return "", ()
    return best, tuple(term for term in terms if best in term.ideas)
