"""SHA-256 of bytes, by which ledgers and records know a file again."""

from __future__ import annotations

import json
from collections.abc import Mapping

# As the standard library's ``random`` does: hashlib loads OpenSSL, which takes longer than all that is hashed in a run.
try:
    from _sha2 import sha256  # type: ignore[import-not-found]
except ImportError:
    try:
        from _sha256 import sha256  # type: ignore[import-not-found]
    except ImportError:  # an interpreter without modules of its own for it
        from hashlib import sha256


def sha256_hex(raw: bytes) -> str:
    """In hexadecimal."""
    digest: str = sha256(raw).hexdigest()
    return digest


def content_id(content: Mapping[str, object]) -> str:
    """16 hexadecimal digits of the SHA-256 of a line's members, written in one way."""
    plain = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return sha256_hex(plain.encode("utf-8", "surrogatepass"))[:16]
