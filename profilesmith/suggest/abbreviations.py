"""Shortened words: ``temp``, ``spd``, ``NZ``, ``V``. A guess from letters alone, so it counts for little."""

from functools import cache

from profilesmith.vocabulary.load_vocabulary import knowledge

# What a single capital stands for in formulas and on drawings, and the initials of what a printer does.
LETTERS = {
    "v": "speed", "t": "height temperature time", "w": "width", "a": "acceleration", "n": "count nozzle",
    "d": "density diameter distance", "p": "pattern power", "q": "flow melt", "l": "distance layer", "g": "gap",
    "m": "margin least", "k": "on", "f": "fan first", "z": "lift upright", "x": "side", "h": "height",
    "o": "outer", "i": "inner infill", "b": "bed", "c": "contact count", "s": "support speed", "r": "retraction",
}  # fmt: skip
FIRM, LOOSE, INITIALS = 0.75, 0.45, 0.4


@cache
def _words() -> dict[str, list[tuple[str, str]]]:
    """The English words of the trade and their ideas, by first letter."""
    result: dict[str, list[tuple[str, str]]] = {}
    for idea, words in knowledge("vocabulary.en.toml")["trade"].items():
        for word in {*words, idea}:
            if " " not in word:
                result.setdefault(word[0], []).append((word, idea))
    return result


@cache
def shortened(word: str) -> dict[str, float]:
    """The ideas that a short word may abbreviate, with weights below those of words written out."""
    if not word.isascii() or not word.isalpha() or len(word) > 6:
        return {}
    if len(word) == 1:
        return _even(LETTERS.get(word, "").split(), INITIALS)
    ideas: dict[str, float] = {}
    for full, idea in _words().get(word[0], ()):
        if len(full) > len(word) and _is_short_for(word, full):
            weight = FIRM if len(word) >= 3 and full.startswith(word) else LOOSE
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


def _is_short_for(short: str, full: str) -> bool:
    """Whether a word's letters stand in the full word in order, the first first, and no vowel was kept in vain."""
    if full.startswith(short):
        return True
    at = 0
    for letter in short:
        at = full.find(letter, at) + 1
        if not at:
            return False
    return len(short) <= 4 and not any(vowel in short[1:] for vowel in "aeiou")
