"""Key names to words: ``firstLayerTemp``, ``wall[0].speed_mm_s``, ``Tempo Außenwand`` split where a reader would.

Comes in: a key, a section or a remark. Goes out: folded words. Knows no meanings.
"""

import re
import unicodedata
from functools import lru_cache

_AND = (",", "/", "|", "&", "+", ":")  # what parts the names in a packed key, whatever parts the values
_LAST_WORD, _FIRST_WORD = re.compile(r"[^\W_]+$"), re.compile(r"^[^\W_]+")
_RUNS = re.compile(r"[^\W\d_]+|\d+")
# A capital after small letters begins a word, and so does the last capital of a run before small letters.
_HUMPS = re.compile(r"[Α-Ωα-ωϑ](?=[A-Za-z])|[A-ZÀ-ÖØ-Þ]+(?![a-zß-öø-ÿ])|[A-ZÀ-ÖØ-Þ]?[a-zß-öø-ÿ]+|.+")
# Figures and letters that are set low or high: ``v₀`` is ``v_0``.
_SET_LOW = {
    ord(low): f"_{plain}" for low, plain in zip("₀₁₂₃₄₅₆₇₈₉ₐₑₒₓₕₖₗₘₙₚₛₜᵢᵣᵤᵥ", "0123456789aeoxhklmnpstiruv", strict=True)
}
_WRITTEN_OUT = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue"})


@lru_cache(maxsize=65536)
def fold(word: str) -> str:
    """A word without case and accents: ``Düse`` and ``DUSE`` are one, ``ß`` is ``ss``, ``œ`` is ``oe``."""
    plain = word.casefold().replace("œ", "oe").replace("ø", "o")
    if plain.isascii():
        return plain
    return "".join(char for char in unicodedata.normalize("NFD", plain) if not unicodedata.combining(char))


LONGEST_NAME = 1000  # of key and section: what is longer names no setting, and its words would be work


def spellings(word: str) -> set[str]:
    """The folded forms in which a word may be met: without its umlauts, or with them written out."""
    return {fold(word), fold(word.casefold().translate(_WRITTEN_OUT))}


def raw_words(text: str) -> list[str]:
    """The words of a text as they are written; small raised and lowered figures are figures."""
    if not text.isascii():
        text = text.translate(_SET_LOW)
    words = []
    for run in _RUNS.findall(text):
        words += [run] if run.islower() else _HUMPS.findall(run)
    return words


def split_words(text: str) -> list[str]:
    """The folded words of a key, section or remark, in order."""
    return [fold(word) for word in raw_words(text)]


# Of three languages, the longest first, and how many letters they must leave: a "blower" is no "blow". Without "ed": to
# "heat plate" says a temperature, a "heated plate" none.
_ENDINGS = {"ing": 4, "ern": 5, "en": 4, "em": 5, "er": 5, "es": 4, "e": 4, "n": 4, "s": 4}


@lru_cache(maxsize=65536)
def stem(word: str) -> str:
    """A folded word without its endings: ``pulling`` and ``pulls`` are one, ``lagen`` and ``lage``, too."""
    for ending, fewest in _ENDINGS.items():
        if word.endswith(ending) and len(word) - len(ending) >= fewest:
            return stem(word[: -len(ending)])
    return word


def field_names(key: str, separator: str, fields: int) -> list[str]:
    """What a packed key says of each of its fields: ``Hitze Düse/Bett`` gives ``Hitze Düse`` and ``Hitze Bett``.

    The whole key for every field when it does not name them.
    """
    for mark in (separator, *_AND):
        parts = [part.strip() for part in key.split(mark)] if mark.strip() else [key]
        if len(parts) == fields and all(parts):
            return _spread(parts)
    return [key] * fields


def _spread(parts: list[str]) -> list[str]:
    """Each part with what stands before the first one and behind the last: ``heat[tip`` and ``plate][0]``."""
    head = _LAST_WORD.search(parts[0])
    tail = _FIRST_WORD.search(parts[-1])
    before = parts[0][: head.start()] if head else ""
    behind = (
        parts[-1][tail.end() :]
        if tail and (not before or before.endswith("[") or parts[-1][tail.end() :].lstrip()[:1] in ("[", "]"))
        else ""
    )
    return [f"{parts[0]}{behind}", *(f"{before}{part}{behind}" for part in parts[1:-1]), f"{before}{parts[-1]}"]
