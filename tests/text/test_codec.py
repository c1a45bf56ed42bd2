"""Bytes to text and back for any bytes. Outside check: Python's own codecs say what a text in an encoding is."""

from __future__ import annotations

import random

import pytest

from profilesmith.text.codec import decode, seems_to_be

WORDS = "höhe = 0,2 ; grün\r\n"


@pytest.mark.parametrize(
    ("raw", "text", "name"),
    [
        (WORDS.encode(), WORDS, "utf-8"),
        (b"\xef\xbb\xbf" + WORDS.encode(), WORDS, "utf-8 with byte order mark"),
        (b"\xff\xfe" + WORDS.encode("utf-16-le"), WORDS, "utf-16-le with byte order mark"),
        (b"\xfe\xff" + WORDS.encode("utf-16-be"), WORDS, "utf-16-be with byte order mark"),
        (WORDS.encode("cp1252"), WORDS, "cp1252"),
        ("“weich” €".encode("cp1252"), "“weich” €", "cp1252"),
        (b"a\x81\xfc", "a\x81ü", "latin-1"),
        (b"", "", "utf-8"),
        (b"a\x00b", "a\x00b", "utf-8"),
        (b"\xef\xbb\xbf", "", "utf-8 with byte order mark"),
    ],
)
def test_encodings(raw: bytes, text: str, name: str) -> None:
    found, codec = decode(raw)
    assert (found, str(codec)) == (text, name)
    assert codec.encode(found) == raw


def test_a_stray_byte_leaves_the_letters_beside_it_right() -> None:
    found, codec = decode("grün ".encode() + b"\xff" + " höhe".encode())
    assert found == "grün \udcff höhe"
    assert codec.encoding == "utf-8"


def test_a_stray_byte_behind_a_mark() -> None:
    raw = b"\xef\xbb\xbfa\xffb"
    found, codec = decode(raw)
    assert found == "a\udcffb"
    assert codec.encode(found) == raw


@pytest.mark.parametrize(
    "raw", [b"\xff\xfea", b"\xfe\xff\x00", b"\xff\xfe\x00\xd8", b"\xfe\xff\xdc\x00", b"\xff\xfe", b"\xfe\xff"]
)
def test_marks_before_what_is_no_utf_16_lose_nothing(raw: bytes) -> None:
    found, codec = decode(raw)
    assert codec.encode(found) == raw


def test_any_bytes_come_back() -> None:
    chance = random.Random(7)
    pool = [
        b"\xef\xbb\xbf",
        b"\xff\xfe",
        b"\xfe\xff",
        "ü".encode(),
        b"\xfc",
        b"\x81",
        b"\x00",
        b"=",
        b"\r",
        b"\n",
        b"\xed\xa0\x80",
        b"\xf4\x90\x80\x80",
    ]
    for _ in range(3000):
        raw = b"".join(chance.choice(pool) for _ in range(chance.randrange(12)))
        found, codec = decode(raw)
        assert codec.encode(found) == raw


@pytest.mark.parametrize(
    ("raw", "word"),
    [
        (b"\x89PNG\r\n\x1a\n", "PNG"),
        (b"\xff\xd8\xff\xe0", "JPEG"),
        (b"GIF89a", "GIF"),
        (b"%PDF-1.7", "PDF"),
        (b"PK\x03\x04", "zip"),
        (b"\x1f\x8b\x08", "gzip"),
        (b"\x7fELF", "program"),
        (b"SQLite format 3\x00", "database"),
        (b"", "empty"),
        (b" \n", "empty"),
        (b' {"a": 1}\n', "JSON"),
        (b"\xef\xbb\xbf{}", "JSON"),
        (b"<html>", "web page"),
        (b"\x00\x01\x02" * 100, "binary"),
    ],
)
def test_what_a_file_seems_to_be(raw: bytes, word: str) -> None:
    """First bytes after the formats' own publications (PNG, RFC 1952 for gzip, RFC 8259 for JSON)."""
    assert word in seems_to_be(raw)


@pytest.mark.parametrize("raw", [b"a = 1\n", b"{a} = 1\n", b"\xff\xfea\x00=\x001\x00"])
def test_settings_seem_to_be_nothing_else(raw: bytes) -> None:
    assert seems_to_be(raw) == ""
