"""Lines that could not be read although they look like settings: a name, something between, and a value."""

import re
from collections import Counter
from collections.abc import Iterable

from profilesmith.text.document import Document, Unread

# A name of a few words, a sign or a gap, and a number, a quoted text or a single word behind it.
_LIKE = (  # compiled when a text has such lines
    r"[^\W\d][\w.()/\[\]-]*(?: [\w.()/\[\]-]+){0,4}?(?P<sign>\s*(?:->|=>|:=|[=:|>~;,])\s*|\t+\s*| {2,})"
    r"(?:[-+]?[\d.,]+\s?[^\s\d]{0,6}|\"[^\"]*\"|'[^']*'|[\w.%-]+)\Z"
)
_LONGEST = 200  # signs of a line that is looked at


def like_settings(document: Document) -> list[tuple[Unread, str]]:
    """The unread lines that look like settings, each with the sign that seems to divide key and value."""
    settings = []
    for line in document.unread:
        text = document.text[line.start : line.end].strip()
        match = re.match(_LIKE, text) if len(text) <= _LONGEST else None
        if match is not None:
            settings.append((line, match.group("sign").strip() or " "))
    return settings


def likely_delimiter(signs: Iterable[str]) -> str:
    """The sign that most of them have."""
    counts = Counter(signs)
    return counts.most_common(1)[0][0] if counts else ""
