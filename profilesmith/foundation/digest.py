"""SHA-256 of bytes, by which ledgers and records know a file again."""

from __future__ import annotations

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
