"""Texts as words of a ledger: zlib, then base64. A text of 150 keys takes some 2 kB of a ledger of 40 kB.

A ledger keeps each output's text as the recipes alone made it (``made``). Only against that text can an added line, a
lost comment or a changed key that the map does not know be told from the base's own; and it stays the recipes' text
when a re-derived file carries hand edits, so that they are carried on the next time too. Texts beyond 2 MB are left
out; then settings are merged from the ledger's values and what cannot be told is named.
"""

from binascii import Error, a2b_base64, b2a_base64
from zlib import compress, decompressobj, error

LARGEST = 2_000_000  # bytes of a text that is kept


def pack(raw: bytes) -> str:
    """A text as a word of a ledger; "" for one that is too large."""
    return "" if len(raw) > LARGEST else b2a_base64(compress(raw, 6), newline=False).decode("ascii")


def unpack(word: object) -> bytes | None:
    """The text again; None for anything that is no such word, or that would unpack to more than is ever packed."""
    if not isinstance(word, str):
        return None
    try:
        work = decompressobj()
        raw = work.decompress(a2b_base64(word.encode("ascii"), strict_mode=True), LARGEST + 1)
    except (Error, error, ValueError):
        return None
    return raw if work.eof and len(raw) <= LARGEST else None
