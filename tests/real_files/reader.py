"""An independent reader of ``key = value`` lines, for judging: it shares no code with the package and knows bytes only.

It reads less than the package does: a value counts when it stands alone in its line as a number, or as one word. What
the package must make of a change is worked out here, by replacing those bytes.
"""

from __future__ import annotations

import re
from typing import NamedTuple

NUMBER = re.compile(rb"[+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,2})?\Z")
WORD = re.compile(rb"[A-Za-z][A-Za-z0-9_-]{1,30}\Z")
LINE = re.compile(rb"([^\r\n]*)(\r\n|\r|\n|\Z)")
HEADING = re.compile(rb"[ \t]*\[([^\]\r\n]+)\][ \t]*\Z")
ENTRY = {
    sign: re.compile(
        rb"([ \t]*)([^\s=:#;\[][^=:#;\r\n]{0,80}?)[ \t]*" + re.escape(sign) + rb"[ \t]*([^\r\n]*?)[ \t]*\Z"
    )
    for sign in (b"=", b":")
}
REMARK = re.compile(rb"[ \t]+[#;].*\Z")
COMMENTS = (b"#", b";", b"//")
PAIRS = (("yes", "no"), ("true", "false"), ("on", "off"), ("enabled", "disabled"))
LARGEST, FEWEST = 1_000_000, 0.4


class Value(NamedTuple):
    """A value that stands alone in its line. start, end: its bytes, without quotes. texts: of all lines of its key."""

    section: str
    key: str
    line: int
    start: int
    end: int
    text: bytes
    texts: tuple[bytes, ...]


class Page(NamedTuple):
    """A file. sign: what divides keys from values; sections: whether keys stand in several."""

    raw: bytes
    sign: str
    numbers: tuple[Value, ...]
    words: tuple[Value, ...]


def read_page(raw: bytes) -> Page | None:
    """None for a file that is no settings text, or of which this reader can judge nothing."""
    if not raw or len(raw) > LARGEST or b"\0" in raw or not _is_text(raw):
        return None
    pages = [_entries(raw, sign) for sign in (b"=", b":")]
    entries, sign = max(((found, sign) for found, sign in zip(pages, "=:", strict=True)), key=lambda item: len(item[0]))
    lines = [line for line, _ in LINE.findall(raw) if line.strip() and not line.strip().startswith((*COMMENTS, b"["))]
    if not entries or len(entries) < FEWEST * len(lines):
        return None
    counts: dict[tuple[str, str], list[bytes]] = {}
    for item in entries:
        counts.setdefault((item.section, item.key), []).append(item.text)
    whole = [item._replace(texts=tuple(counts[item.section, item.key])) for item in entries]
    numbers = tuple(item for item in whole if NUMBER.match(item.text))
    words = tuple(item for item in whole if WORD.match(item.text))
    return Page(raw, sign, numbers, words) if numbers or words else None


def _is_text(raw: bytes) -> bool:
    try:
        raw.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


def _entries(raw: bytes, sign: bytes) -> list[Value]:
    found: list[Value] = []
    section, at, before = "", 0, b""
    for number, (line, end) in enumerate(LINE.findall(raw), 1):
        start, at = at, at + len(line) + len(end)
        heading = HEADING.match(line)
        if heading:
            section = heading[1].strip().decode()
        entry = None if heading or line.strip().startswith(COMMENTS) else ENTRY[sign].match(line)
        # A line that a backslash continues, or that stands indented below another, may be part of that one.
        if entry and not before.endswith(b"\\") and not entry[1] and entry[2].strip() and not _quoted(entry[2]):
            found.append(_value(entry, section, number, start))
        before = line.rstrip()
    return found


def _quoted(key: bytes) -> bool:
    return b'"' in key or b"'" in key or b"//" in key


def _value(entry: re.Match[bytes], section: str, number: int, start: int) -> Value:
    text, begin = entry[3], entry.start(3)
    if len(text) > 1 and text[:1] == text[-1:] and text[:1] in (b'"', b"'"):
        text, begin = text[1:-1], begin + 1
    elif NUMBER.match(REMARK.sub(b"", text)) or WORD.match(REMARK.sub(b"", text)):
        text = REMARK.sub(b"", text)
    begin += start
    return Value(section, entry[2].decode(), number, begin, begin + len(text), text, ())


def other_number(text: bytes) -> bytes:
    """Another number of the same style: its last digit before an exponent is another one."""
    mantissa = re.split(rb"[eE]", text)[0]
    at = max(place for place, char in enumerate(mantissa) if chr(char).isdigit())
    digit = b"4" if text[at : at + 1] != b"4" else b"6"
    return text[:at] + digit + text[at + 1 :]


def other_word(text: bytes) -> tuple[str, bytes] | None:
    """(on or off, the opposite in the same letters) for a switch's word; None for any other word."""
    for pair in PAIRS:
        for at, word in enumerate(pair):
            if text.lower().decode() == word:
                new = pair[1 - at]
                known = text.decode()
                new = new.upper() if known.isupper() else new.capitalize() if known[:1].isupper() else new
                return ("off" if at == 0 else "on"), new.encode()
    return None
