"""The digest against NIST's example and the standard library."""

from __future__ import annotations

import hashlib

from hypothesis import given
from hypothesis import strategies as st

from profilesmith.foundation.digest import sha256_hex


def test_the_example_of_the_standard() -> None:
    """FIPS 180-4 example "abc" (NIST, Cryptographic Standards: SHA-256 examples)."""
    assert sha256_hex(b"abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


@given(st.binary(max_size=300))
def test_as_the_standard_library(raw: bytes) -> None:
    assert sha256_hex(raw) == hashlib.sha256(raw).hexdigest()
