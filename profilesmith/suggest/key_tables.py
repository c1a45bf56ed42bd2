"""Tables that say what a text's keys stand for: ``§1  height of a layer, mm    §2 ...``, ``height of a layer .... P1``.

Comes in: lines. Goes out: key -> its name; which lines of a text only explain keys; which keys are codes. Knows no
settings.
"""

import re
from collections import defaultdict
from collections.abc import Container, Iterable, Mapping, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import find_unit
from profilesmith.suggest.key_runs import RunHead, run_head

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
_OWNER = re.compile(r"(?:its|their|dessen|deren|ihre?|seine?|son|sa|leur)\b", re.I)
_THOSE = re.compile(
    r"\b(?:of|in|on|for|to|von|in|de)\s+(?:those|these|them|it|that|denen|ihnen|ceux-ci|celles-ci)\b", re.I
)
_IT = re.compile(
    r"\b(?:before|until|till|when|while|once|bevor|bis|wenn|avant qu['’]|quand)\s*(?:it|they|er|sie|es|il|elle)\b", re.I
)
_GENERIC = re.compile(r"(?:the )?(?:rate|amount|number|degree|kind|measure|gain|change)s? of\b", re.I)
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


class _Antecedent(NamedTuple):
    """What "same", "its" and "those" of the next name point at. head: its noun; unit: the one that it has."""

    words: str = ""
    head: str = ""
    unit: str = ""


def tabled_names(lines: Iterable[str], keys: Container[str]) -> Mapping[str, str]:
    """Key -> its name, from lines that begin with a key and go on in words; none where few lines do.

    A line may hold several keys, in columns; what stands between a key and its name (a unit) is told with it. A line
    that is set in below one key goes on with its name. "" ends a table's entry. What heads a run of keys ("d1..d9
    rates, mm/min") is said of each.
    """
    names: dict[str, str] = {}
    heads: list[RunHead] = []
    open_key, indent, before = "", 0, _Antecedent()
    for line in lines:
        body = line.strip()
        run = run_head(body)
        heads += [run] if run else []
        entries = [] if run else _columns(body, keys) or _behind(body, keys)
        inward = len(line) - len(line.lstrip())
        if not entries and not run and open_key and body and inward > indent and _LETTER.search(body):
            names[open_key] = f"{names[open_key]} {body}"
            continue
        for key, name in entries:
            name, before = _resolved(name, before)
            names.setdefault(key, name)
        alone = len(entries) == 1 and names[entries[0][0]].endswith(entries[0][1][-1:])
        open_key, indent = (entries[0][0], inward) if alone else ("", 0)
    if len(names) < FEWEST_ENTRIES:
        return {}
    return {key: ", ".join((name, *(head.words for head in heads if head.covers(key)))) for key, name in names.items()}


def _resolved(name: str, before: _Antecedent) -> tuple[str, _Antecedent]:
    """A name with what "same" or a pronoun in it points at, and what those of the next one would."""
    same = next((match for piece in _pieces(name) if (match := _SAME.match(name, piece))), None)
    if same and before.head:
        unit = f", {before.unit}" if before.unit and not _unit_of(name) else ""
        return f"{name[: same.start()]}{before.head}, {name[same.end() :]}{unit}", before
    _, _, words = name.rpartition(" ; ")
    if before.head and (_OWNER.match(words) or _IT.search(words)):
        return f"{name}, {before.head}", before
    if before.words and _THOSE.search(words):
        return f"{name}, {before.words}", before
    generic = _GENERIC.match(words)
    end = _HEAD_ENDS.search(words, generic.end() if generic else 1)
    own = words[: end.start()].strip() if end else words
    if not _LETTER.search(own):
        return name, before
    return name, _Antecedent(re.split(r"[,;:(]", words)[0].strip(), own, _unit_of(name))


def _unit_of(name: str) -> str:
    """The unit that stands between the commas of a name."""
    return next((piece.strip() for piece in re.split(r"[,;]", name) if find_unit(piece.strip())), "")


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
