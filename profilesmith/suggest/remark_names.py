"""What a remark calls its key: the words of it, without units and without what single values mean; and tables of such
names.

``( F OUTER CONTOUR, MM/MIN )`` names an outer contour's F; ``FOOT 0 NOTHING 1 SKIRT 2 BRIM`` names a foot, and says
what its values mean. Knows no settings.
"""

import re
from collections.abc import Container, Iterable, Mapping

from profilesmith.foundation.quantity import find_unit
from profilesmith.suggest.key_words import fold
from profilesmith.suggest.remark_units import SIGNS

FEWEST_ENTRIES = 4  # lines that begin with a key, before they make a table of keys
_ENTRY = re.compile(r"([^\s=:|,;]{1,40}?)\s*(?:\s|=|:|\||,|;|->|=>|–|—)[\s=:|>.\-–—]*([^\W\d_].*)")
_CLOSED = {"(": ")", "[": "]", "{": "}", "/*": "*/", "<!--": "-->", "|": "|"}
# "0 none 1 brim", "0 = none, 1 = brim", "0: none; 1: brim", "1 yes 0 no"
_MEANT = re.compile(
    r"(?<![\w.,])(\d{1,2})\s*(?:=|:|-|–|->|is|means|ist|heißt)?\s*([^\W\d_](?:[^\d,;:=()|]|(?<=[a-z])-)*)"
)
FEWEST_MEANINGS = 2
# "same numbers as R24", "Zahlen wie unter Innen": this points at another key's legend and names nothing itself.
_ELSEWHERE = re.compile(
    r"(?:\b(?:the |die |les )?(?:same |gleichen? |mêmes? )?(?:numbers?|kinds?|figures?|zahlen|ziffern|numéros|chiffres)"
    r" (?:as|like|wie|comme|que)|\bas)(?: (?:at|in|under|for|with|bei|unter|à|sous|pour))?"
    r" \S{1,12}(?=\s*(?:$|[,;)]))",
    re.I,
)
_BORDER = re.compile(r"\s{2,}|\s*\|\s*|\t")
_LETTER = re.compile(r"[^\W\d_]{2}")
_PIECES = re.compile(r"[,;|()\[\]]")


def opened(text: str, mark: str) -> str:
    """A remark without its mark, and without the bracket that closes it."""
    body = text[len(mark) :].strip()
    close = _CLOSED.get(mark.strip())
    return body[: -len(close)].strip() if close and body.endswith(close) else body


def tabled_names(lines: Iterable[str], keys: Container[str]) -> Mapping[str, str]:
    """Key -> its name, from lines that begin with a key and go on in words; none where few lines do.

    A line may hold several keys, in columns; what stands between a key and its name (a unit) is told with it.
    """
    names: dict[str, str] = {}
    for line in lines:
        for key, name in _columns(line, keys) or _entry(line, keys):
            names.setdefault(key, name)
    return names if len(names) >= FEWEST_ENTRIES else {}


def _entry(line: str, keys: Container[str]) -> list[tuple[str, str]]:
    entry = _ENTRY.match(line)
    return [(entry[1], entry[2].strip(" |\t"))] if entry and entry[1] in keys else []


def _columns(line: str, keys: Container[str]) -> list[tuple[str, str]]:
    """The keys of a line in columns, each with all that stands up to the next."""
    cells = [cell for cell in _BORDER.split(line.strip(" |\t")) if cell]
    if not cells or cells[0].rstrip(" :=") not in keys:
        return []
    names: list[tuple[str, list[str]]] = []
    for cell in cells:
        head, _, last = cell.rpartition(" ")
        if cell.rstrip(" :=") in keys:
            names.append((cell.rstrip(" :="), []))
        elif last in keys and head and len(cells) > 2 and cell is not cells[-1]:  # a long name touches the next key
            names[-1][1].append(head.strip())
            names.append((last, []))
        else:
            names[-1][1].append(cell)
    return [(key, " ; ".join(words)) for key, words in names if any(_LETTER.search(word) for word in words)]


def meanings(text: str) -> dict[str, str]:
    """What single values mean, as a remark says it: text of the value -> words. {} where it tells fewer than two."""
    texts = {number: words.strip(" .-–") for number, words in _MEANT.findall(text)}
    ordered = [int(number) for number in texts]
    close = bool(texts) and min(ordered) <= 1 and max(ordered) - min(ordered) < 2 * len(texts) + 2
    return texts if len(texts) >= FEWEST_MEANINGS and close else {}


def name_in(text: str, units: Mapping[str, str]) -> str:
    """A remark's words for its key: less what values mean, numbers with units, and the names of units.

    units: phrases that name units, folded.
    """
    if meanings(text):
        first = _MEANT.search(text)
        text = text[: first.start()] if first else text
    text = _ELSEWHERE.sub(" ", text)
    text = " ".join(piece for piece in _PIECES.split(SIGNS.sub(" ", text)) if not find_unit(piece.strip(" .")))
    words = [word for word in re.split(r"[\s,;|]+", text) if word]
    kept = [word for word in words if fold(word.strip("().:[]")) not in units and not re.fullmatch(r"[\d.,%°-]+", word)]
    return " ".join(kept)
