"""What a file is that is no text at all, by how it begins."""

# The signatures as the formats' own standards give them, from memory: ISO 15948 (PNG), ISO 10918 (JPEG), ISO 32000
# (PDF), RFC 1952 (gzip).
_SIGNATURES = (
    (b"\x89PNG", "a picture (PNG)"),
    (b"\xff\xd8\xff", "a picture (JPEG)"),
    (b"GIF8", "a picture (GIF)"),
    (b"%PDF", "a PDF document"),
    (b"PK\x03\x04", "a zip archive (or an office document)"),
    (b"\x1f\x8b", "a gzip archive"),
    (b"\x7fELF", "a program"),
    (b"MZ", "a program"),
    (b"SQLite format", "a database"),
)
_UTF_16 = (b"\xff\xfe", b"\xfe\xff")


def kind_of_file(raw: bytes) -> str:
    """By its first bytes: ``a picture (PNG)``, ``a binary file``; "" for what may be text."""
    for signature, word in _SIGNATURES:
        if raw.startswith(signature):
            return word
    head = raw[:4096]
    return "a binary file" if head.count(0) > len(head) // 20 and not head.startswith(_UTF_16) else ""
