"""Texts as words of a ledger: as large as is kept and no larger, whoever wrote the word."""

from __future__ import annotations

from binascii import b2a_base64
from zlib import compress

import pytest

from profilesmith.ledger.packed import LARGEST, pack, unpack


def word(raw: bytes) -> str:
    return b2a_base64(compress(raw, 1), newline=False).decode()


@pytest.mark.parametrize("raw", [b"", b"a = 1\n", bytes(range(256)), bytes(LARGEST)])
def test_a_text_comes_back(raw: bytes) -> None:
    assert unpack(pack(raw)) == raw


def test_one_byte_more_is_neither_kept_nor_unpacked() -> None:
    assert pack(bytes(LARGEST + 1)) == ""
    assert unpack(word(bytes(LARGEST + 1))) is None
    assert unpack(word(bytes(3 * LARGEST))) is None


@pytest.mark.parametrize("item", [None, 5, [], "", "!", "ü", word(b"a = 1\n")[:-4], b2a_base64(b"a = 1\n").decode()])
def test_whatever_is_no_such_word_is_no_text(item: object) -> None:
    assert unpack(item) is None
