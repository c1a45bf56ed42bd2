"""A text's own words for on and off, as its remarks say them: ``drawn or blank``, ``wanted (x) or not (-)``.

Comes in: Documents and the lexicon. Goes out: the two words, on first, as the values write them.
"""

import re
from collections import Counter
from collections.abc import Iterator

from profilesmith.suggest.key_words import fold
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.text.document import Document

_BETWEEN = r"\s*(?:/|\bor\b|\boder\b|\bou\b)\s*"
_SAID = (
    re.compile(rf"(?<![\w/])([^\W\d_]{{1,12}}){_BETWEEN}([^\W\d_]{{1,12}}|-)(?![\w/])"),
    re.compile(rf"\(([^\s()]{{1,12}})\){_BETWEEN}[^\W\d_]{{2,6}}\s*\(([^\s()]{{1,12}})\)"),
)
LONGEST = 12  # signs of such a word
FEWEST = 2  # values that are one of the two


def said_switch_words(documents: tuple[Document, ...], lexicon: Lexicon) -> tuple[str, ...]:
    """The two words that most values are of; () where no remark names two that are met as values and known as none."""
    values = Counter(text for document in documents for text in _words(document) if _is_strange(text, lexicon))
    best: tuple[int, tuple[str, ...]] = (FEWEST - 1, ())
    for document in documents if values else ():
        for pattern in _SAID:
            for match in pattern.finditer(document.text):
                on, off = match[1], match[2]
                met = values[on] + values[off]
                if met > best[0] and on != off and ((values[on] and values[off]) or off == "-" or met > FEWEST):
                    best = met, (on, off)
    return best[1]


def _words(document: Document) -> Iterator[str]:
    for item in document.assignments:
        if item.end - item.start <= LONGEST:
            yield document.value(item).strip("\"' ")


def _is_strange(text: str, lexicon: Lexicon) -> bool:
    """Whether a value is a word that is neither a switch nor a shape in any language that is known."""
    plain = fold(text)
    known = plain in lexicon.on or plain in lexicon.off or plain in lexicon.patterns
    return not known and (text == "-" or text.isalpha())
