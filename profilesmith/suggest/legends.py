"""What single values mean where that is said elsewhere: ``letters as in B23``, ``weaves: A to and fro, B lattice``.

Comes in: what is said of each key, and lines of remarks. Goes out: for a value, texts of values -> words.
"""

import re
from collections.abc import Container, Iterable, Mapping
from functools import cached_property

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.key_words import split_words
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.modes import told_values
from profilesmith.suggest.remark_names import meanings, name_in
from profilesmith.suggest.shapes import are_shapes, pattern_of

LONGEST_SIGN, LONGEST_WORD, STEM = 3, 16, 5  # letters: of what stands for a shape, of a value, that tell words apart
MEASURED = frozenset(
    ("layer", "count", "width", "gap", "height", "speed", "acceleration", "density", "contact", "time")
)
_REFERS = re.compile(
    r"\b(?:as|like|see|of|in|at|for|under|with|wie|bei|unter|von|siehe|aus|comme|que|voir|de|en|à|pour|sous)\s+"
    r"(?:(?:in|at|for|under|with|on|key|line|bei|unter|zu|in|en|à|pour|sous)\s+)?\Z",
    re.I,
)
_SAID = re.compile(r"(\S+)\s*(?:=|:|->|–|—)\s+(\S.*)")
_TOKEN = re.compile(r"[^\s,;:()\[\]{}<>|]+")


class _NamedLine(NamedTuple):
    """A line, the words of the name of its legend, and the ideas of those that are the trade's."""

    line: str
    words: frozenset[str]
    ideas: frozenset[str]


class Legends:
    """The legends of one text. said: key -> all that is said of it; lines: its other remarks."""

    def __init__(self, said: Mapping[str, str], lines: Iterable[str], lexicon: Lexicon) -> None:
        lines = list(lines)
        known = {key: text for key, text in said.items() if text}
        self.lines = [line for line in lines if line]
        self.said, self.lexicon = {**_explained(said, lines), **known}, lexicon
        self.listed = [
            shapes for text in (*said.values(), *lines) if (shapes := meanings(text)) and are_shapes(shapes, lexicon)
        ]

    def of(self, key: str, value: str, remark: str, section: str = "") -> dict[str, str]:
        """What the values of a key mean by all that is said of it, by the legend that its remark points at, or by one
        of its name.
        """
        own = told_values(value, self.said.get(key, ""))
        if own or len(value) > LONGEST_WORD or not value.isalnum():
            return own
        for other in self._pointed_at(key, remark):
            listed = {**meanings(self.said[other]), **_added(value, remark)}
            if value in listed:
                return listed
            listed = told_values(value, self.said[other])
            if listed:
                return listed
        return self._named(value, f"{section} {key} {remark}")

    def _named(self, value: str, text: str) -> dict[str, str]:
        """A legend whose name the words of a key repeat: all of it for a sign, some of it for a word of its list.

        What a key's number counts or measures by its words the name of a legend must say, too.
        """
        words, is_word = self._words(text), value.isalpha()
        measured = frozenset[str]() if is_word else MEASURED & self._firm_ideas(text)
        for line, name, ideas in self._by_name:
            shared = name & words if measured <= ideas else frozenset[str]()
            values = told_values(value, line) if shared and (shared == name or is_word) else {}
            if values:
                return {text: self._further(text, meaning) for text, meaning in values.items()}
        return {}

    @cached_property
    def _by_name(self) -> list[_NamedLine]:
        names = map(_name_of, self.lines)
        return [
            _NamedLine(line, self._words(name), self._firm_ideas(name))
            for line, name in zip(self.lines, names, strict=True)
        ]

    def _firm_ideas(self, text: str) -> frozenset[str]:
        return frozenset(idea for term in self.lexicon.read(split_words(text)) if term.firm for idea in term.ideas)

    def _words(self, text: str) -> frozenset[str]:
        """The beginnings of a text's words that say something."""
        terms = ((word, self.lexicon.terms.get(word)) for word in split_words(text))
        return frozenset(word[:STEM] for word, term in terms if len(word) > 2 and not (term and term.small))

    def _further(self, text: str, meaning: str) -> str:
        """A meaning with what the text says of the word elsewhere: "lip = flat edge joined to the part"."""
        if text != meaning or not text.isalpha():
            return meaning
        said = (re.search(rf"(?<!\w){re.escape(text)}\s*(?:=|:)\s*([^,;:=]+)", line, re.I) for line in self.lines)
        further = next((match[1].strip() for match in said if match), "")
        return f"{meaning} ({further})" if further else meaning

    def shapes(self, value: str) -> dict[str, str]:
        """What a value means by the text's legends of shapes, where these agree."""
        known = [shapes for shapes in self.listed if value in shapes] if _is_sign(value) else []
        return known[0] if len({pattern_of(shapes[value], self.lexicon) for shapes in known}) == 1 else {}

    def _pointed_at(self, key: str, remark: str) -> list[str]:
        """The keys that a remark names as those whose legend holds."""
        named = []
        for match in _TOKEN.finditer(remark):
            word = match[0].strip(".'\"")
            if word in self.said and word != key and _REFERS.search(remark[: match.start()]):
                named.append(word)
        return named


def _name_of(line: str) -> str:
    """What a line calls the legend that it tells: all before a colon, or before the first sign."""
    head, colon, _ = line.partition(":")
    return head if colon else name_in(line, {})


def _explained(keys: Container[str], lines: Iterable[str]) -> dict[str, str]:
    """What lines that begin with a key and a sign say of it: ``foot = what lies under the part: 0 none, 1 brim``."""
    said = (_SAID.match(line) for line in lines)
    return {match[1]: match[2] for match in said if match and match[1] in keys}


def _is_sign(value: str) -> bool:
    return value.isalnum() and len(value) <= LONGEST_SIGN


def _added(value: str, remark: str) -> dict[str, str]:
    """What a remark itself adds to a legend: ``letters as in 29, s = side-by-side strokes``."""
    sign = rf"(?:^|[,;(]|\b(?:and|or|und|oder|et|ou|plus)\b)\s*{re.escape(value)}\s*[=:–]?\s+([^\W\d_][^,;:()]*)"
    own = re.search(sign, remark)
    return {value: own[1].strip()} if own else {}
