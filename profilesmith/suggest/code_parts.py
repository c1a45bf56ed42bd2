"""Parts of explanations and of codes: "above / below", the ``e`` of ``VII.e``. Knows no settings."""

import re

from profilesmith.suggest.borrowed_words import completed


def parts_of(text: str, count: int) -> list[str]:
    """A text in so many parts; [] where it has no such number of them."""
    for border in (r"\s*;\s*", r"\s+/\s+", r"\s*\|\s*", r"\s*,\s*", r",?\s+(?:and|und|et)\s+"):
        parts = [part.strip(" .") for part in re.split(border, text) if part.strip(" .")]
        if len(parts) == count:
            return parts
    return [text] if count == 1 else []


def with_heads(parts: list[str]) -> list[str]:
    """The parts, with the head of the first where they cannot stand alone."""
    return [part if at == 0 else completed(part, parts[0]) for at, part in enumerate(parts)]


def ending_of(key: str) -> str:
    """The last letter or number of a code: ``VII.e``, ``14b``."""
    match = re.search(r"(?<=[.\-_/: \d])([^\W\d_]|\d{1,2})\Z", key)
    return match[1] if match else key


def is_no_word(word: str) -> bool:
    """Whether a key cannot be a word of a sentence."""
    return any(map(str.isdigit, word)) or (word.isupper() and len(word) > 2) or not word[0].isalnum()
