"""Shapes of infill and support lines, as a value names them: a word, a sentence, a word that is cut short.

Comes in: a text and the lexicon. Goes out: the vocabulary's name of the shape, "" where none or several are named.
"""

from collections.abc import Iterator, Mapping

from profilesmith.suggest.abbreviations import is_short_for
from profilesmith.suggest.key_words import split_words
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.near_words import is_slip

MOST_WORDS = 8  # of a shape
SHORTEST_PATTERN, LONGEST_SHORT_PATTERN = 3, 5  # letters of a shape's name that is cut short
SHORTEST_SLIP = 6  # of one that may be misspelt
LONGEST_NAME = 4  # words
GENERAL = ("lines", "grid")  # what other shapes are made of: "crossed lines" are a grid, a "grid of triangles" is none


def pattern_of(text: str, lexicon: Lexicon) -> str:
    """The shape that a text names, or ""."""
    words = split_words(text)
    whole = _listed(" ".join(words), lexicon)
    if whole:
        return whole
    named = list(_within(words, lexicon))
    longest = max((length for length, _ in named), default=0)
    shapes = {shape for length, shape in named if length == longest}  # "three sided cells" are no cells of a hive
    for general in GENERAL:
        if len(shapes) > 1:
            shapes.discard(general)
    if len(shapes) == 1:
        return shapes.pop()
    return _cut_short(words[0], lexicon) or _misspelt(words[0], lexicon) if len(words) == 1 else ""


def is_shape(words: str, lexicon: Lexicon) -> bool:
    """Whether a few words are a shape: "cubes on their corners"."""
    return len(words.split()) <= MOST_WORDS and bool(pattern_of(words, lexicon))


def are_shapes(meanings: Mapping[str, str], lexicon: Lexicon) -> bool:
    """Whether what a key's values mean are shapes of lines."""
    return bool(meanings) and sum(bool(pattern_of(words, lexicon)) for words in meanings.values()) * 2 >= len(meanings)


def _listed(phrase: str, lexicon: Lexicon) -> str:
    forms = (phrase, phrase.rstrip("s"), f"{phrase}s")
    return next((lexicon.patterns[form] for form in forms if form in lexicon.patterns), "")


def _within(words: list[str], lexicon: Lexicon) -> Iterator[tuple[int, str]]:
    """The shapes that a sentence names, from left to right, and of how many words their names are."""
    at = 0
    while at < len(words):
        for length in range(min(LONGEST_NAME, len(words) - at), 0, -1):
            shape = _listed(" ".join(words[at : at + length]), lexicon)
            if shape:
                yield length, shape
                break
        else:
            length = 1
        at += length


def _cut_short(word: str, lexicon: Lexicon) -> str:
    """``gyr``, ``hex``, ``conc``; ``grd`` is short for a grid rather than for a longer name."""
    if not SHORTEST_PATTERN <= len(word) <= LONGEST_SHORT_PATTERN:
        return ""
    begun = {shape for phrase, shape in lexicon.patterns.items() if phrase.startswith(word)}
    if begun:
        return begun.pop() if len(begun) == 1 else ""
    meant = sorted((len(shape), shape) for shape in set(lexicon.patterns.values()) if is_short_for(word, shape))
    return meant[0][1] if meant else ""


def _misspelt(word: str, lexicon: Lexicon) -> str:
    if len(word) < SHORTEST_SLIP:
        return ""
    shapes = {shape for name, shape in lexicon.patterns.items() if name[0] == word[0] and is_slip(word, name)}
    return shapes.pop() if len(shapes) == 1 else ""
