"""Document and edits to a new text: spans are spliced, everything else is copied."""

from __future__ import annotations

from collections.abc import Iterable
from operator import itemgetter

from profilesmith.text.cuts import BEFORE_NUMBER, COLUMNS
from profilesmith.text.document import Assignment, Document, Edit

_place = itemgetter(0, 1)  # start and end


def in_order(edits: Iterable[Edit]) -> list[Edit]:
    """Edits by where they stand; insertions at one place stay in the order in which they were made."""
    return sorted(edits, key=_place)


def edit_text(text: str, edits: Iterable[Edit]) -> str:
    """The text with every span replaced. Raises ValueError when two edits overlap."""
    parts: list[str] = []
    at = 0
    for edit in in_order(edits):
        if edit.start < at or edit.end < edit.start or edit.end > len(text):
            raise ValueError(f"edit {edit} overlaps another or leaves the text")
        parts += (text[at : edit.start], edit.new)
        at = edit.end
    parts.append(text[at:])
    return "".join(parts)


def edit_document(document: Document, edits: Iterable[Edit]) -> bytes:
    """The bytes of the edited document. Raises UnicodeEncodeError when the encoding lacks a new character."""
    return document.codec.encode(edit_text(document.text, edits))


def insertion(document: Document, section: str, key: str, value: str, headed: bool = False) -> Edit:
    """The edit that adds ``key = value`` below the last assignment of a section, written like its neighbours.

    A section that the text does not have is begun at its end; headed: an earlier insertion has begun it.
    """
    home = [item for item in document.assignments if item.section == section]
    heading = next((item for item in document.headings if item.name == section), None)
    model = home[-1] if home else (document.assignments[-1] if document.assignments else None)
    line = _like(document, model, key, value)
    at = home[-1].end if home else (heading.end if heading else None)
    if at is None and not section and document.headings:
        start = _line_start(document.text, document.headings[0].end)
        return Edit(start, start, f"{line}{document.newline}")
    if at is None:
        at = len(document.text)
        before = "" if not document.text or document.text.endswith(("\n", "\r")) else document.newline
        prefix = f"{before}[{section}]{document.newline}" if section and not headed else "" if section else before
        # A text without a last line end stays so.
        return Edit(at, at, f"{prefix}{line}{document.newline}" if not before else f"{prefix or before}{line}")
    at = _line_end(document.text, at)
    return Edit(at, at, f"{document.newline}{line}")


def _line_end(text: str, at: int) -> int:
    ends = [end for end in (text.find("\n", at), text.find("\r", at)) if end >= 0]
    return min(ends, default=len(text))


def _line_start(text: str, at: int) -> int:
    return max(text.rfind("\n", 0, at), text.rfind("\r", 0, at)) + 1


def _like(document: Document, model: Assignment | None, key: str, value: str) -> str:
    """A line of its own with the signs, blanks and edges that the model line has around key and value."""
    if model is None:
        between = document.delimiter if document.delimiter in (" ", COLUMNS) else f" {document.delimiter.strip()} "
        return f"{key}{' ' if document.delimiter == BEFORE_NUMBER else between}{value}"
    text = document.text
    start, end = _line_start(text, model.start), _line_end(text, model.end)
    at = text.rfind(model.key, start, model.start)
    if at < 0:  # the key stands behind its value
        between = text[model.end : text.index(model.key, model.end)]
        return f"{_edge(text[start : model.start])}{value}{between}{key}"
    closing = " |" if text[start:end].lstrip().startswith("|") else ""
    return f"{_edge(text[start:at])}{key}{text[at + len(model.key) : model.start]}{value}{closing}"


def _edge(head: str) -> str:
    """The blanks before a key, and the edge of a table; not the keys that stand before it in its line."""
    body = head.lstrip()
    indent = head[: len(head) - len(body)]
    return f"{indent}| " if body.startswith("|") else indent
