"""A trouble by what somebody calls it: its name, a word of it in English, German or French, or a part of one."""

from __future__ import annotations

import unicodedata

from profilesmith.mend.troubles import Knowledge, Trouble


def folded(text: str) -> str:
    """Small letters, accents and hyphens away, ae and ss for ä and ß: how words are compared."""
    text = text.casefold().replace("ä", "ae").replace("ö", "oe").replace("ü", "ue").replace("ß", "ss")
    plain = "".join(char for char in unicodedata.normalize("NFKD", text) if not unicodedata.combining(char))
    return " ".join(plain.replace("_", " ").replace("-", " ").replace("'", " ").split())


def words_of(trouble: Trouble) -> list[str]:
    """Everything that it is called."""
    return [trouble.name, *(word for words in trouble.words.values() for word in words)]


def find_troubles(text: str, known: Knowledge) -> list[Trouble]:
    """The troubles that a text may mean: one when it is a name or a word of it, else all that have it as a part of a
    word.
    """
    wanted = folded(text)
    exact = [item for item in known.troubles.values() if wanted in map(folded, words_of(item))]
    if exact or not wanted:
        return exact
    return [item for item in known.troubles.values() if any(wanted in folded(word) for word in words_of(item))]
