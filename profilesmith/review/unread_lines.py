"""Settings that were not read: said before anything else, with what to write."""

from collections.abc import Sequence

from profilesmith.foundation.toml_text import quoted
from profilesmith.foundation.words import plural
from profilesmith.ledger import Line
from profilesmith.ledger.judgement import Finding
from profilesmith.review.wording import visible
from profilesmith.text.document import Document
from profilesmith.text.unread import like_settings, likely_delimiter
from profilesmith.translation.document_to_profile import Translation

TITLE = "Lines that look like settings are not read"
SHOWN = 3


def unread_settings(documents: Sequence[Document]) -> list[Line]:
    """The lines of all texts that look like settings and are not read."""
    return [
        Line(visible(document.name), line.line, "", visible(document.text[line.start : line.end].strip()))
        for document in documents
        for line, _ in like_settings(document)
    ]


def unread_sentence(documents: Sequence[Document]) -> str:
    """How many, the first three, and what to write; "" where there are none."""
    lines = unread_settings(documents)
    if not lines:
        return ""
    shown = "; ".join(f"{line.file}:{line.line} {line.text}" for line in lines[:SHOWN])
    more = "; ..." if len(lines) > SHOWN else ""
    count = f"{plural(len(lines), 'line looks', 'lines look')} like {'a setting' if len(lines) == 1 else 'settings'}"
    return f"{count} and {'is' if len(lines) == 1 else 'are'} not read: {shown}{more}. {_what_to_write(documents)}"


def _what_to_write(documents: Sequence[Document]) -> str:

    sign = likely_delimiter(sign for document in documents for _, sign in like_settings(document))
    known = list(dict.fromkeys(document.delimiter for document in documents))
    marks = ", ".join(quoted(mark) for mark in (*known, sign))
    return f"Write delimiter = [{marks}] into [text] of the map, if {quoted(sign)} divides key and value there."


def unread_finding(translation: Translation) -> tuple[Finding, ...]:
    """The caution of a derivation: what it could not see, no check has judged."""
    sentence = unread_sentence(translation.documents)
    text = f"{sentence} No check could see them."
    return (Finding("unread-lines", "caution", TITLE, text, reason="unread-lines"),) if sentence else ()
