"""A document as whole lines, each with what it is; and which lines of two documents are the same ones."""

from collections import defaultdict
from collections.abc import Sequence
from difflib import SequenceMatcher

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.text.document import Document
from profilesmith.text.read_document import LINES

Token = tuple[str, str, str]  # kind, section, key or text


class TextLine(NamedTuple):
    """One line, or an assignment with the lines that its value goes on over.

    kind: ``key``, ``heading``, ``blank`` or ``text`` (a comment, or a line that is not read). start, end: without the
    line end, which reaches to ``stop``. value_start, value_end: the value's span; of other kinds both are ``end``.
    """

    kind: str
    section: str
    name: str
    number: int
    start: int
    end: int
    stop: int
    value_start: int
    value_end: int

    @property
    def token(self) -> Token:
        """What makes it the same line as one of another document."""
        return (self.kind, self.section, self.name)


def text_lines(document: Document) -> list[TextLine]:
    """All lines of a document, in order; together they are the whole text."""
    text = document.text
    keys = {item.line: item for item in document.assignments}
    heads = {item.line: item.name for item in document.headings}
    lines: list[TextLine] = []
    section, stop = "", 0
    for number, match in enumerate(LINES.finditer(text), 1):
        if match.start() < stop:
            continue  # a value that goes on
        start, stop = match.span()
        end = _content_end(text, start, stop)
        item = keys.get(number)
        if item is not None:
            while item.end > end and stop < len(text):
                following = LINES.match(text, stop)
                assert following is not None
                stop = following.end()
                end = _content_end(text, following.start(), stop)
            lines.append(TextLine("key", item.section, item.key, number, start, end, stop, item.start, item.end))
            continue
        body = text[start:end].strip()
        section = heads.get(number, lines[-1].section if lines else "")
        kind = "heading" if number in heads else "text" if body else "blank"
        lines.append(
            TextLine(kind, section, section if kind == "heading" else body, number, start, end, stop, end, end)
        )
    return lines


def _content_end(text: str, start: int, stop: int) -> int:
    end = stop
    while end > start and text[end - 1] in "\r\n":
        end -= 1
    return end


class Alignment(NamedTuple):
    """pairs: index in the one -> index in the other. moved: those of them that stand in another order."""

    pairs: dict[int, int]
    moved: frozenset[int]


def align(one: Sequence[TextLine], other: Sequence[TextLine]) -> Alignment:
    """The longest runs of equal lines first; then keys and headings that merely moved."""
    a, b = [line.token for line in one], [line.token for line in other]
    head = 0
    while head < min(len(a), len(b)) and a[head] == b[head]:
        head += 1
    tail = 0
    while tail < min(len(a), len(b)) - head and a[-1 - tail] == b[-1 - tail]:
        tail += 1
    pairs = {at: at for at in range(head)}
    matcher = SequenceMatcher(None, a[head : len(a) - tail], b[head : len(b) - tail])
    for block in matcher.get_matching_blocks():
        pairs.update({head + block.a + at: head + block.b + at for at in range(block.size)})
    pairs.update({len(a) - 1 - at: len(b) - 1 - at for at in range(tail)})
    free = defaultdict(list)
    used = set(pairs.values())
    for at, token in enumerate(b):
        if at not in used and token[0] in ("key", "heading"):
            free[token].append(at)
    moved = {}
    for at, token in enumerate(a):
        if at not in pairs and free.get(token):
            moved[at] = free[token].pop(0)
    return Alignment({**pairs, **moved}, frozenset(moved))
