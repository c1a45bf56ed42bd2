"""Edits of a whole text's form: line ends, the last line end, the encoding. The new base's form stands; they are
named.
"""

from collections.abc import Iterator

from profilesmith.ledger import Decision
from profilesmith.ledger.history import ENCODING, LAST_LINE_END, LINE_ENDS
from profilesmith.merge.decision import LEFT_OUT
from profilesmith.text.document import Document

ENDS = {"\n": "LF", "\r\n": "CRLF", "\r": "CR"}


def form_changes(old: Document, mine: Document) -> Iterator[Decision]:
    """One decision for each: a text saved with other line ends is not a hundred edits."""
    ends = [_ends(document.text) for document in (old, mine)]
    if ends[0] != ends[1] and all(ends):
        yield _named(LINE_ENDS, ends[0], ends[1], mine, "line-ends-of-base")
    last = ["there" if document.text.endswith(("\n", "\r")) else "missing" for document in (old, mine)]
    if last[0] != last[1] and old.text and mine.text:
        yield _named(LAST_LINE_END, last[0], last[1], mine, "end-of-base")
    # Plain ASCII is the same in most encodings.
    if old.codec != mine.codec and (old.codec.bom != mine.codec.bom or not old.text.isascii()):
        yield _named(ENCODING, str(old.codec), str(mine.codec), mine, "encoding-of-base")


def _named(what: str, was: str, hand: str, mine: Document, why: str) -> Decision:
    return Decision(what, "line", LEFT_OUT, was=was, hand=hand, why=why, file=mine.name)


def _ends(text: str) -> str:
    """``LF``, ``CRLF and LF``; "" for a text of one line."""
    crlf = text.count("\r\n")
    counts = {"\r\n": crlf, "\n": text.count("\n") - crlf, "\r": text.count("\r") - crlf}
    return " and ".join(sorted(ENDS[end] for end, count in counts.items() if count))
