"""Shortened words: ``temp``, ``spd``, ``NZ``, ``V``. A guess from letters alone, so it counts for little."""

import re
from functools import cache

from profilesmith.suggest.key_words import spellings
from profilesmith.vocabulary.load_vocabulary import knowledge

# What a single capital stands for in formulas and on drawings, and the initials of what a printer does.
LETTERS = {
    "v": "speed",
    "t": "height temperature time",
    "w": "width",
    "a": "acceleration",
    "n": "count nozzle",
    "d": "density diameter distance",
    "p": "pattern power",
    "q": "flow melt",
    "l": "distance layer",
    "g": "gap",
    "m": "margin least",
    "k": "on",
    "f": "fan first",
    "z": "lift upright",
    "x": "side",
    "h": "height",
    "o": "outer",
    "i": "inner infill",
    "b": "bed",
    "c": "contact count",
    "s": "support speed",
    "r": "retraction",
}
FIRM, LOOSE, FOREIGN, INITIALS = 0.75, 0.45, 0.25, 0.4
LANGUAGES = ("en", "de", "fr")
SHORTEST_PLURAL = 3
_UMLAUTS = re.compile("ae|oe|ue")  # an umlaut that is written out counts as one letter


@cache
def _words() -> dict[str, list[tuple[str, str, bool]]]:
    """The words of the trade and their ideas, and whether they are English, by first letter."""
    result: dict[str, list[tuple[str, str, bool]]] = {}
    for language in LANGUAGES:
        for idea, words in knowledge(f"vocabulary.{language}.toml")["trade"].items():
            forms = {form for word in words if " " not in word for form in spellings(word)}
            for word in {*forms, idea} if language == "en" else forms:
                result.setdefault(word[0], []).append((word, idea, language == "en"))
    return result


@cache
def shortened(word: str, english: bool = False) -> dict[str, float]:
    """The ideas that a short word may abbreviate, with weights below those of words written out.

    english: of English words only.
    """
    if not word.isascii() or not word.isalpha() or len(word) > 6:
        return {}
    if len(word) == 1:
        return _even(LETTERS.get(word, "").split(), INITIALS)
    ideas: dict[str, float] = {}
    forms = {word, _UMLAUTS.sub(lambda match: match[0][0], word)}
    if len(word) > SHORTEST_PLURAL and word.endswith("s"):
        forms.add(word[:-1])
    for form in forms:
        for full, idea, own in _words().get(form[0], ()):
            if (own or not english) and len(full) > len(form) and is_short_for(form, full):
                weight = (
                    FIRM if len(form) >= 3 and full.startswith(form) else LOOSE if own or len(form) >= 3 else FOREIGN
                )
                ideas[idea] = max(ideas.get(idea, 0.0), weight)
    share = max(len(ideas), 1) ** 0.5
    ideas = {idea: weight / share for idea, weight in ideas.items()}
    if len(word) == 2:
        for letter in word:
            for idea, weight in _even(LETTERS.get(letter, "").split(), INITIALS * 0.75).items():
                ideas[idea] = max(ideas.get(idea, 0.0), weight)
    return ideas


def _even(ideas: list[str], weight: float) -> dict[str, float]:
    return {idea: weight / max(len(ideas), 1) ** 0.5 for idea in ideas}


def is_short_for(short: str, full: str) -> bool:
    """Whether a word's letters stand in the full word in order, the first first, and no vowel was kept in vain."""
    if full.startswith(short):
        return True
    at = 0
    for letter in short:
        at = full.find(letter, at) + 1
        if not at:
            return False
    return len(short) <= 4 and not any(vowel in short[1:] for vowel in "aeiou")
