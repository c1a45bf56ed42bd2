"""Key names to words: ``firstLayerTemp``, ``wall[0].speed_mm_s``, ``Tempo Außenwand`` split where a reader would.

Comes in: a key, a section or a remark. Goes out: folded words. Knows no meanings.
"""

import re
import unicodedata
from functools import lru_cache

_RUNS = re.compile(r"[^\W\d_]+|\d+")
# A capital after small letters begins a word, and so does the last capital of a run before small letters.
_HUMPS = re.compile(r"[A-ZÀ-ÖØ-Þ]+(?![a-zß-öø-ÿ])|[A-ZÀ-ÖØ-Þ]?[a-zß-öø-ÿ]+|.+")
_WRITTEN_OUT = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue"})


@lru_cache(maxsize=65536)
def fold(word: str) -> str:
    """A word without case and accents: ``Düse`` and ``DUSE`` are one, ``ß`` is ``ss``, ``œ`` is ``oe``."""
    plain = word.casefold().replace("œ", "oe").replace("ø", "o")
    if plain.isascii():
        return plain
    return "".join(char for char in unicodedata.normalize("NFD", plain) if not unicodedata.combining(char))


def spellings(word: str) -> set[str]:
    """The folded forms in which a word may be met: without its umlauts, or with them written out."""
    return {fold(word), fold(word.casefold().translate(_WRITTEN_OUT))}


def split_words(text: str) -> list[str]:
    """The folded words of a key, section or remark, in order."""
    words = []
    for run in _RUNS.findall(text):
        words += [fold(part) for part in _HUMPS.findall(run)] if not run.islower() else [fold(run)]
    return words


def field_names(key: str, separator: str, fields: int) -> list[str]:
    """What a packed key says of each of its fields: ``Hitze Düse/Bett`` gives ``Hitze Düse`` and ``Hitze Bett``.

    The whole key for every field when it does not name them.
    """
    parts = [part.strip() for part in key.split(separator)] if separator.strip() else [key]
    if len(parts) != fields or not all(parts):
        return [key] * fields
    shared = parts[0].split()[:-1]
    return [parts[0], *(" ".join([*shared, part]) for part in parts[1:])]


def is_latin(text: str) -> bool:
    """Whether most letters of a text are ones that the word lists are written in."""
    letters = [char for char in text if char.isalpha()]
    return sum(char < "\u0250" for char in letters) * 2 >= len(letters)
