"""Units that a remark names: ``lengths in microns``, ``; mm3/s``, ``in, in/s, F unless marked``."""

import re
from collections.abc import Mapping

from profilesmith.foundation.quantity import find_unit
from profilesmith.suggest.key_words import fold, split_words
from profilesmith.suggest.lexicon import Lexicon

SIGNS = re.compile(
    r"(?:mm|cm|m|in|µm|um)/(?:s2|s²|s\^2|s/s|sec|s|min)\b²?|mm[3³]/s|g/cm[3³]|°[CF]\b|µm\b|μm\b"
    r"|\bMM/(?:S2|MIN|S)\b|\bMM3/S\b|\b(?:DEG|deg|degrees?) C\b"
)
# Short signs are words too ("in", "a", "s"): they count only alone between commas, brackets or the ends of a remark.
_ALONE = re.compile(r"(?:^|[,;(\[|])\s*(mm|cm|um|mil|thou|in|m|s|ms|min|C|F|K|%|deg|rad|°)\s*(?=$|[,;)\]|]|unless|\.$)")
_PER_CENT_OF = re.compile(r"%\s+(?:of|von|vom|der|des|de|du)\b", re.I)
_PLAIN = re.compile(r"\b(mm|cm|um|ms|rad|mm/s2)\b")


def named_units(text: str, phrases: Mapping[str, str]) -> list[str]:
    """The names of the units in a remark, each once."""
    units: list[str] = []
    for match in SIGNS.finditer(text):
        unit = find_unit(match[0])
        units += [unit.name] if unit else []
    bare = SIGNS.sub(" ", text)
    for match in _ALONE.finditer(bare):
        unit = find_unit(match[1])
        units += [unit.name] if unit else []
    folded = " ".join(fold(word) for word in re.findall(r"[\w%°µ/]+", bare))
    spans: list[tuple[int, int]] = []
    for phrase in sorted(phrases, key=len, reverse=True):
        at = folded.find(phrase)
        if at < 0 or not _whole(folded, at, at + len(phrase)):
            continue
        if not any(start < at + len(phrase) and at < end for start, end in spans):
            spans.append((at, at + len(phrase)))
            units.append(phrases[phrase])
    for match in _PLAIN.finditer(bare):
        start = folded.find(match[1])
        if not any(begin <= start < end for begin, end in spans):
            units.append(match[1])
    return list(dict.fromkeys(units))


def _whole(text: str, start: int, end: int) -> bool:
    return (start == 0 or not text[start - 1].isalnum()) and (end == len(text) or not text[end].isalnum())


def speaks_of_share(text: str, lexicon: Lexicon) -> bool:
    """Whether a remark says that numbers are shares of something: ``times the outer wall's``."""
    words = f" {' '.join(split_words(text))} "
    return bool(_PER_CENT_OF.search(text)) or any(f" {phrase} " in words for phrase in lexicon.share)
