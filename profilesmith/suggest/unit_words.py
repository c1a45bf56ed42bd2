"""Words of keys whose unit a remark states: ``pace = cm/min, push = mm/s2``, ``heat in F``.

Comes in: remarks. Goes out: folded word -> the name of its unit, and which units keys of such words are in. Knows no
settings.
"""

import re
from collections.abc import Iterable, Mapping

from profilesmith.foundation.quantity import find_unit
from profilesmith.suggest.key_words import split_words
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.remark_names import name_in
from profilesmith.suggest.remark_units import named_units

_PIECES = re.compile(r"[,;.](?=\s|\Z)|[|·()]|\s(?:and|und|et)\s|\s[-–—]+\s|\s{3,}")
_SAID = re.compile(
    r"(?:all |the |alle |les )?([^\W\d_]{2,20})\s*(?:=|:|->|\b(?:is |are |always |ist |sind |est |sont )?(?:in|en)\b|"
    r"\b(?:is|are|ist|sind|est|sont)\b)\s*(\S.*)",
    re.I,
)


def unit_of_words(text: str, lexicon: Lexicon) -> str:
    """The unit that all of a text names; "" for words that name more, or none."""
    words = text.strip(" .:")
    unit = find_unit(words)
    if unit is not None:
        return unit.name
    names = named_units(words, lexicon.units)
    further = lexicon.read(split_words(name_in(words, lexicon.units)))
    return names[0] if len(names) == 1 and all(term.small for term in further) else ""


def unit_words(remarks: Iterable[str], lexicon: Lexicon) -> dict[str, str]:
    """Word -> the name of its unit."""
    units: dict[str, str] = {}
    for remark in remarks:
        for piece in _PIECES.split(remark):
            said = _SAID.fullmatch(piece.strip())
            unit = unit_of_words(said[2], lexicon) if said else ""
            if said and unit:
                units.setdefault(_stem(split_words(said[1])[-1]), unit)
    return units


def units_by_word(key: str, units: Mapping[str, str]) -> list[str]:
    """The units that are stated for the words of a key."""
    return [units[_stem(word)] for word in split_words(key) if _stem(word) in units] if units else []


def _stem(word: str) -> str:
    return word.removesuffix("s")
