"""Tables that say what a text's keys stand for: ``§1  height of a layer, mm    §2 ...``, ``height of a layer .... P1``.

Comes in: lines. Goes out: key -> its name; which lines of a text only explain keys; which keys are codes. Knows no
settings.
"""

import re
from collections import defaultdict
from collections.abc import Container, Iterable, Mapping, Sequence

from profilesmith.foundation.named_tuple import NamedTuple

FEWEST_ENTRIES = 4  # lines that begin with a key, before they make a table of keys
_SIGNS = " \t=:|>.-–—"  # between a key and its name
_HEAD = re.compile(r"([^\s=|,;>]{1,40}?)(?:\s*(?:=|:(?!\S)|\||,|;|->|=>|–|—|\.\.)|\s|(?=:))[\s=:|>.\-–—]*(\S.*)")
_TAIL = re.compile(r"([^\W\d_].*?\S)\s*(?:=|:|->|=>|\.{2,}|(?:\. ){2,}|\s{2,}|\t|\()\s*([^\s=:|,;()]{1,12})\)?")
_BORDER = re.compile(r"\s{2,}|\s*\|\s*|\t")
_LETTER = re.compile(r"[^\W\d_]{2}")
_CODE = re.compile(
    r"(?=\S*\d)\S{1,8}|[^\W\d_]{1,2}|[^\w\s]\S{1,3}|[IVXLC]{1,6}(?:[.\-/:][^\W_]{1,2})?"
    r"|[^\W\d_]{1,2}(?:[.\-/:][^\W_]{1,2}){1,3}"
)
_NUMBER = re.compile(r"[-+]?[.,]?\d")
_VALUE = re.compile(r"[-+]?[\d.,]+(?=\s|\Z)")
_SAME = re.compile(
    r"(?:the |die |das |le |la )?(?:same(?: again)?|ditto|do\.|idem|likewise|as above|dito|ebenso"
    r"|desgl\.|dasselbe|dieselbe|gleiche[rs]?|wie oben|même(?: chose)?|pareil|comme ci-dessus"
    r"|[\"″〃]|'')(?=[\s,;:]|\Z)[\s,;:]*",
    re.I,
)
_HEAD_ENDS = re.compile(
    r"[,;:(]|\b(?:when|while|for|on|of|in|over|at|für|bei|beim|der|des|auf|im|pour|sur|de|du|dans|à)\b"
)


class ExplainedCodes(NamedTuple):
    """The keys that a text's own list explains, and the numbers (from 0) of the lines that only do so."""

    codes: frozenset[str]
    lines: frozenset[int]


def is_code(key: str) -> bool:
    """Whether a key is no word: a number with or without a sign or letters, or one or two letters."""
    return bool(_CODE.fullmatch(key))


def explained_codes(bodies: Sequence[str]) -> ExplainedCodes:
    """Codes that begin lines of words and lines of numbers, all the words above the numbers or all below."""
    said, given = defaultdict[str, list[int]](list), defaultdict[str, list[int]](list)
    for at, body in enumerate(bodies):
        head = _HEAD.match(body)
        code = head[1].rstrip(").:") if head else ""
        if head and is_code(code):
            (given if _NUMBER.match(head[2]) else said)[code].append(at)
    both = [code for code in said if code in given]
    above = [code for code in both if max(said[code]) < min(given[code])]
    below = [code for code in both if min(said[code]) > max(given[code])]
    if max(len(above), len(below)) < FEWEST_ENTRIES:
        return ExplainedCodes(frozenset(), frozenset())
    first = len(above) >= len(below)
    lines = {at for code in (above if first else below) for at in said[code]}
    for code in said:  # values that are words
        if code not in given and len(said[code]) > 1:
            lines |= set(said[code][:-1] if first else said[code][1:])
    edge = max(lines) if first else min(lines)
    codes = frozenset(
        code for code in (*said, *given) if any((at > edge) == first for at in (*said[code], *given[code]))
    )
    return ExplainedCodes(codes, frozenset(lines | _continued(bodies, lines)))


def _continued(bodies: Sequence[str], lines: set[int]) -> set[int]:
    """The lines right below those that begin with no code: names that go on."""
    further: set[int] = set()
    for at in sorted(lines):
        while at + 1 < len(bodies) and at + 1 not in lines and bodies[at + 1] and not _coded(bodies[at + 1]):
            at += 1
            further.add(at)
    return further


def _coded(body: str) -> bool:
    head = _HEAD.match(body)
    return bool(head and is_code(head[1].rstrip(").:")))


def tabled_names(lines: Iterable[str], keys: Container[str]) -> Mapping[str, str]:
    """Key -> its name, from lines that begin with a key and go on in words; none where few lines do.

    A line may hold several keys, in columns; what stands between a key and its name (a unit) is told with it. A line
    that is set in below one key goes on with its name. "" ends a table's entry.
    """
    names: dict[str, str] = {}
    open_key, indent, head = "", 0, ""
    for line in lines:
        body = line.strip()
        entries = _columns(body, keys) or _behind(body, keys)
        inward = len(line) - len(line.lstrip())
        if not entries and open_key and body and inward > indent and _LETTER.search(body):
            names[open_key] = f"{names[open_key]} {body}"
            continue
        for key, name in entries:
            name, head = _resolved(name, head)
            names.setdefault(key, name)
        alone = len(entries) == 1 and names[entries[0][0]].endswith(entries[0][1][-1:])
        open_key, indent = (entries[0][0], inward) if alone else ("", 0)
    return names if len(names) >= FEWEST_ENTRIES else {}


def _resolved(name: str, head: str) -> tuple[str, str]:
    """A name with what "same" in it points at, and the head of it that the next one's "same" would."""
    same = next((match for piece in _pieces(name) if (match := _SAME.match(name, piece))), None)
    if same and head:
        return f"{name[: same.start()]}{head}, {name[same.end() :]}", head
    _, _, words = name.rpartition(" ; ")
    end = _HEAD_ENDS.search(words, 1)
    own = words[: end.start()].strip() if end else words
    return name, own if _LETTER.search(own) else head


def _pieces(name: str) -> list[int]:
    """Where what is said between borders begins."""
    return [0, *(match.end() for match in re.finditer(" ; ", name))]


def _key_at_head(cell: str, keys: Container[str]) -> tuple[str, str] | None:
    """A cell's key and the rest of it."""
    bare = cell.rstrip(" :=.)")
    if bare in keys:
        return bare, ""
    head = _HEAD.match(cell)
    key = next((key for key in (head[1], head[1].strip("().:")) if key in keys), None) if head else None
    return (key, head[2].strip(" |\t")) if head and key is not None else None


def _columns(line: str, keys: Container[str]) -> list[tuple[str, str]]:
    """The keys of a line in columns, each with all that stands up to the next."""
    cells = [cell for cell in _BORDER.split(line.strip(" |\t")) if cell]
    if not cells or _key_at_head(cells[0], keys) is None:
        return []
    names: list[tuple[str, list[str]]] = []
    for at, cell in enumerate(cells):
        head, _, last = cell.rpartition(" ")
        own = _key_at_head(cell, keys)
        if own is not None and (at == 0 or not own[1] or is_code(own[0])):
            names.append((own[0], [own[1]] if own[1] else []))
        elif last in keys and head and len(cells) > 2 and cell is not cells[-1]:  # a long name touches the next key
            names[-1][1].append(head.strip())
            names.append((last, []))
        else:
            names[-1][1].append(cell.lstrip(_SIGNS) or cell)
    return [(key, " ; ".join(words)) for key, words in names if _names(words)]


def _names(words: list[str]) -> bool:
    """Whether what stands behind a key is no value of it."""
    return any(_LETTER.search(word) for word in words) and not _VALUE.match(words[0])


def _behind(line: str, keys: Container[str]) -> list[tuple[str, str]]:
    """A name with its code behind it."""
    tail = _TAIL.fullmatch(line)
    return [(tail[2], tail[1])] if tail and tail[2] in keys and is_code(tail[2]) else []
