"""Short signs that stand for units, as a text explains them once: ``R degrees C   W mm``, ``'um thousandths of a mm``.

Comes in: the lines of a text that hold no values, and the signs that stand behind its values or end its keys.
"""

import re
from collections.abc import Iterable, Iterator, Sequence

from profilesmith.foundation.quantity import find_unit
from profilesmith.foundation.units_in_words import with_signs
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.remark_units import named_units

FEWEST = 2  # signs that are explained
LONGEST_SIGN = 6
_MEANS = r"\s+(?:is|are|means|stands for|says|ist|sind|heißt|est|sont)\b"
_TAIL = re.compile(r"(?<=[\w)])\s?(['’:|~^·_/\\@!]\s?[^\W_]{1,5}\d?)\Z")
_LEADING = re.compile(r"([A-Z]{1,2})(?=[-/. ]?[\dA-F]*\d)")


def ending_sign(key: str) -> str:
    """The sign behind a key's words: ``'um`` of ``mouth'um``; "" for none."""
    match = _TAIL.search(key)
    return match[1] if match else ""


def leading_sign(key: str) -> str:
    """The letters that a code begins with: ``H`` of ``H-10/1``."""
    match = _LEADING.match(key)
    return match[1] if match else ""


def sign_behind(behind: str) -> str:
    """The short word that stands right behind a value."""
    word = behind.split(None, 1)[0] if behind.strip() else ""
    return word if len(word) <= LONGEST_SIGN else ""


def unit_signs(lines: Sequence[str], signs: Iterable[str], lexicon: Lexicon) -> dict[str, str]:
    """Sign -> the name of its unit, "" for one that is said to be a plain number or a switch; {} for fewer than two."""
    wanted = sorted({sign for sign in signs if sign}, key=len, reverse=True)
    if len(wanted) < FEWEST:
        return {}
    sign = re.compile(r"(?<!\S)(" + "|".join(map(re.escape, wanted)) + r")(?=[\s=:,;.]|\Z)")
    said = re.compile(sign.pattern + _MEANS)
    if len({match[1] for line in lines for match in said.finditer(line)}) > FEWEST:
        sign = said  # in sentences an "a" may be one
    units: dict[str, str] = {}
    for line in _joined(lines):
        matches = list(sign.finditer(line))
        ends = [*(match.start() for match in matches[1:]), len(line)] if matches else []
        for match, end in zip(matches, ends, strict=True):
            words = " ".join(line[match.end() : end].strip(" =:,;.–—-").split())
            unit = _unit(words, lexicon) if words else _own(match[1])
            if unit or (words and len(words.split()) <= 12):
                units.setdefault(match[1], unit)
    return units if sum(map(bool, units.values())) >= FEWEST else {}


def _joined(lines: Sequence[str]) -> Iterator[str]:
    """Lines with those that begin in the middle of a sentence."""
    whole = ""
    for line in lines:
        if whole.rstrip().endswith(","):
            whole = f"{whole.rstrip()} {line.strip()}"
            continue
        if whole:
            yield whole
        whole = line
    yield whole


def _own(sign: str) -> str:
    unit = find_unit(sign.strip("'’:|~^·_/\\@! "))
    return unit.name if unit else ""


def _unit(words: str, lexicon: Lexicon) -> str:
    """The unit that some words name: the last of several."""
    words = with_signs(words)
    unit = find_unit(words)
    names = [unit.name] if unit else named_units(words, lexicon.units)
    return max(names, key=len) if names else _own(words.rpartition(" ")[2])
