"""What a remark calls its key: the words of it, without units and without what single values mean.

``( F OUTER CONTOUR, MM/MIN )`` names an outer contour's F; ``FOOT 0 NOTHING 1 SKIRT 2 BRIM`` names a foot, and says
what its values mean. Knows no settings.
"""

import re
from collections.abc import Mapping

from profilesmith.foundation.quantity import find_unit
from profilesmith.suggest.key_words import fold
from profilesmith.suggest.remark_units import SIGNS

_CLOSED = {"(": ")", "[": "]", "{": "}", "<": ">", "«": "»", "<<": ">>", "((": "))", "(*": "*)", "{{": "}}"}
_CLOSED |= {"/*": "*/", "<!--": "-->", "|": "|"}
# "0 none 1 brim", "0 = none, 1 = brim", "0: none; 1: brim", "1 yes 0 no"
_MEANT = re.compile(
    r"(?<![\w.,])(\d{1,2})\s*(?:=|:|-|–|->|is|means|ist|heißt)?\s*([^\W\d_](?:[^\d,;:=()|]|(?<=[a-z])-)*)"
)
# "a straight, b crossed, c wavy", "A = straight; B = crossed; C = wavy"
_LETTERED = re.compile(r"(?:^|[,;:.(]\s*)([a-l]|[A-L])\s*(?:=|:|-|–|->|\s)\s*([^\W\d_]{2}[^,;:=()]*)")
# "L strokes, X crossing / T triangles", "A lines B grid C cubes": a letter of its own, and words up to the next
_CAPITAL = re.compile(r"(?<![\w.'’])([A-Z])(?:\s*[=:–-]\s*|\s+)([^\W\d_](?:(?!\s[A-Z]\s)[^,;:/=()|\d])*)")
# "c = crossed, t = three-cornered", "hx: honeycomb; wv: waves"
_CODED = re.compile(r"(?<![\w.])([^\W\d_]{1,3})\s*(?:=|:|->)\s*([^\W\d_]{2}[^,;:=()|/]*)")
FEWEST_MEANINGS, FEWEST_LETTERS = 2, 3
# "same numbers as R24", "Zahlen wie unter Innen": this points at another key's legend and names nothing itself.
_ELSEWHERE = re.compile(
    r"(?:\b(?:the |die |les )?(?:same |gleichen? |mêmes? )?(?:numbers?|kinds?|figures?|zahlen|ziffern|numéros|chiffres)"
    r" (?:as|like|wie|comme|que)|\bas)(?: (?:at|in|under|for|with|bei|unter|à|sous|pour))?"
    r" \S{1,12}(?=\s*(?:$|[,;)]))",
    re.I,
)
_PIECES = re.compile(r"[,;|()\[\]]")


def opened(text: str, mark: str) -> str:
    """A remark without its mark, and without the bracket that closes it."""
    body = text[len(mark) :].strip()
    close = _CLOSED.get(mark.strip())
    return body[: -len(close)].strip() if close and body.endswith(close) else body


def meanings(text: str) -> dict[str, str]:
    """What single values mean, as a remark says it: text of the value -> words. {} where it tells fewer than two."""
    texts = {number: words.strip(" .-–") for number, words in _MEANT.findall(text)}
    ordered = [int(number) for number in texts]
    close = bool(texts) and min(ordered) <= 1 and max(ordered) - min(ordered) < 2 * len(texts) + 2
    if len(texts) >= FEWEST_MEANINGS:
        return texts if close else {}
    lettered = {letter: words.strip(" .-–") for letter, words in _LETTERED.findall(text)}
    begun = "".join(sorted(lettered, key=str.casefold)).casefold()
    if len(lettered) > FEWEST_MEANINGS and begun in "abcdefghijkl":
        return lettered
    for pattern in (_CODED, _CAPITAL):
        signs = {sign: words.strip(" .-–") for sign, words in pattern.findall(text)}
        if len(signs) >= FEWEST_LETTERS and len({sign.islower() for sign in signs}) == 1:
            return signs
    return {}


def _first_meaning(text: str) -> re.Match[str] | None:
    """Where a text begins to tell what values mean."""
    if len(_MEANT.findall(text)) >= FEWEST_MEANINGS:
        return _MEANT.search(text)
    signs = meanings(text)
    firsts = (match for pattern in (_LETTERED, _CODED, _CAPITAL) for match in pattern.finditer(text))
    return min((match for match in firsts if match[1] in signs), key=lambda match: match.start(), default=None)


def name_in(text: str, units: Mapping[str, str]) -> str:
    """A remark's words for its key: less what values mean, numbers with units, and the names of units.

    units: phrases that name units, folded.
    """
    if meanings(text):
        first = _first_meaning(text)
        text = text[: first.start()] if first else text
    text = _ELSEWHERE.sub(" ", text)
    text = " ".join(piece for piece in _PIECES.split(SIGNS.sub(" ", text)) if not find_unit(piece.strip(" .")))
    words = [word for word in re.split(r"[\s,;|]+", text) if word]
    kept = [
        word for word in words if fold(word.strip("().:[]")) not in units and not re.fullmatch(r"[\d.,%°/-]+", word)
    ]
    return " ".join(kept)


def legend_in(text: str) -> str:
    """What a text tells of single values, without what it says before that; "" where it tells nothing of them."""
    if meanings(text):
        first = _first_meaning(text)
        return text[first.start() :].lstrip(",;:( ") if first else ""
    listed = re.search(r"(?:one of|:|\()\s*((?:[^\W\d_]+(?:\s*[,/|]\s*|\s+or\s+|\s+)){2,}[^\W\d_]+)\)?\s*\Z", text)
    return listed[1] if listed else ""
