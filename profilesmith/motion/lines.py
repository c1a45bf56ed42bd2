"""Bytes in any portions to texts of whole lines, always cut at the same places: so no portion's size shows in a figure.

Lines end with LF, CRLF or a lone CR.
"""

from collections.abc import Iterable, Iterator

PIECE = 1 << 17
LONGEST_LINE = 1 << 20


class LineTooLong(ValueError):
    """No line ends for a megabyte: this is no motion file."""


def pieces(portions: Iterable[bytes]) -> Iterator[str]:
    """Texts of whole lines, each but the last ended by ``\\n``, of PIECE bytes or a line's rest less."""
    held = bytearray()
    for portion in portions:
        held += portion
        while len(held) > PIECE:
            cut = _cut(held)
            if not cut:
                if len(held) > LONGEST_LINE:
                    raise LineTooLong
                break
            yield _text(bytes(held[:cut]))
            del held[:cut]
    if held:
        yield _text(bytes(held))


def _cut(held: bytearray) -> int:
    """Where the last line that ends within a piece ends; of a longer line, where that one does. 0: not yet known."""
    cut = held.rfind(b"\n", 0, PIECE) + 1
    if cut:
        return cut
    # A lone CR ends a line, but one at the very end may still be followed by LF.
    cut = held.rfind(b"\r", 0, PIECE) + 1
    if cut:
        return cut
    ends = [at + 1 for mark in (b"\n", b"\r") if (at := held.find(mark, PIECE)) >= 0 and at + 1 < len(held)]
    return min(ends, default=0)


def _text(raw: bytes) -> str:
    text = raw.decode("utf-8", "surrogateescape")
    return text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text
