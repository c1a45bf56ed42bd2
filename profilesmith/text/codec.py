"""Bytes to text and back, for any bytes: the decoding that encodes to the very same bytes is the one that counts."""

from profilesmith.foundation.binary_file import kind_of_file
from profilesmith.foundation.named_tuple import NamedTuple

_BOMS = ((b"\xef\xbb\xbf", "utf-8"), (b"\xff\xfe", "utf-16-le"), (b"\xfe\xff", "utf-16-be"))


class Codec(NamedTuple):
    """An encoding, what to do with bytes that it does not know, and the byte order mark that stood first."""

    encoding: str
    errors: str = "strict"
    bom: bytes = b""

    def encode(self, text: str) -> bytes:
        """The bytes of a text. Raises UnicodeEncodeError for characters that the encoding lacks."""
        return self.bom + text.encode(self.encoding, self.errors)

    def __str__(self) -> str:
        return self.encoding + (" with byte order mark" if self.bom else "")


def decode(raw: bytes, before: Codec | None = None) -> tuple[str, Codec]:
    """The text of any bytes, and the codec that gives the same bytes again.

    before: of the same text before an edit, which may have taken the one letter that told its encoding from another.
    """
    if before is not None and not before.bom and not raw.startswith(tuple(bom for bom, _ in _BOMS)):
        text = _decode(raw, before)
        if text is not None:
            return text, before
    for bom, encoding in _BOMS:
        if raw.startswith(bom):
            errors = "surrogateescape" if encoding == "utf-8" else "surrogatepass"
            codec = Codec(encoding, errors, bom)
            text = _decode(raw[len(bom) :], codec)
            if text is not None:
                return text, codec
    text = _decode(raw, Codec("utf-8"))
    if text is not None:
        return text, Codec("utf-8")
    # A stray byte in UTF-8 text must not turn its other letters into pairs of wrong ones.
    escaped = raw.decode("utf-8", "surrogateescape")
    if any(ord(char) > 0x7F and not 0xDC80 <= ord(char) <= 0xDCFF for char in escaped):
        return escaped, Codec("utf-8", "surrogateescape")
    text = _decode(raw, Codec("cp1252"))
    return (raw.decode("latin-1"), Codec("latin-1")) if text is None else (text, Codec("cp1252"))


def _decode(raw: bytes, codec: Codec) -> str | None:
    try:
        text = raw.decode(codec.encoding, codec.errors)
        return text if text.encode(codec.encoding, codec.errors) == raw else None
    except UnicodeError:
        return None


def seems_to_be(raw: bytes) -> str:
    """What a file seems to be when it is no settings text: ``a picture (PNG)``, ``JSON``; "" when not known."""
    kind = kind_of_file(raw)
    if kind:
        return kind
    head = raw.lstrip(b"\xef\xbb\xbf \t\r\n")[:1]
    if not head:
        return "empty"
    if head in b"{" and raw.rstrip()[-1:] == b"}":
        return "JSON"
    return "XML or a web page" if head == b"<" else ""
