"""Shapes of lines that words name: ``cubes on their corners``, ``crossed strokes``, ``grd``."""

from collections.abc import Mapping

from profilesmith.suggest.key_words import split_words
from profilesmith.suggest.lexicon import Lexicon

SHORTEST_PATTERN, LONGEST_SHORT_PATTERN = 3, 5  # letters of a shape's name that is cut short


def pattern_of(text: str, lexicon: Lexicon) -> str:
    """The shape that a word or the longest of a text's phrases names, or ""."""
    words = split_words(text)
    for length in range(len(words), 0, -1):
        named = [
            lexicon.patterns[form]
            for start in range(len(words) - length + 1)
            for phrase in (" ".join(words[start : start + length]),)
            for form in (phrase, phrase.rstrip("s"), f"{phrase}s")
            if form in lexicon.patterns
        ]
        if named:  # "crossed lines" are lines too
            return next((shape for shape in named if shape != "lines"), named[0])
    if len(words) == 1 and SHORTEST_PATTERN <= len(words[0]) <= LONGEST_SHORT_PATTERN:  # "gyr", "hex", "conc"
        begun = {shape for phrase, shape in lexicon.patterns.items() if phrase.startswith(words[0])}
        begun = begun or {shape for shape in lexicon.patterns.values() if _skeleton(shape).startswith(words[0])}
        return begun.pop() if len(begun) == 1 else ""
    return ""


def are_shapes(meanings: Mapping[str, str], lexicon: Lexicon) -> bool:
    """Whether what a key's values mean are shapes of lines."""
    return bool(meanings) and sum(bool(pattern_of(words, lexicon)) for words in meanings.values()) * 2 >= len(meanings)


def _skeleton(word: str) -> str:
    """A word without its vowels but the first letter: ``grd``."""
    return word[0] + "".join(letter for letter in word[1:] if letter not in "aeiou")
