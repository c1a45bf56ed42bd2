"""One line of a motion file as a block of words.

Comes in: a line without its end. Goes out: a ``Block``: codes, values, remarks, and what is wrong with the line. What
the words do is not known here. Source: NISTIR 6556 (The NIST RS274/NGC Interpreter), section 3.3, from a partial public
transcription and from memory;
``;`` remarks, free text of messages and checksums are common practice of desktop machines, no source.
"""

import re

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion.free_text import FREE_TEXT

_WORD = re.compile(r"([A-Z])[ \t]*([-+]?(?:[0-9][0-9 \t]*\.?[0-9 \t]*|\.[ \t]*[0-9][0-9 \t]*))?")
# Lengths and speeds beyond this are no machine's: ten kilometres.
LARGEST, LONGEST_NUMBER = 1e7, 7
_MEASURES = frozenset("XYZEFIJKR")
_CHECKSUM = re.compile(r"\*[ \t]*([0-9]+)[ \t]*$")
_FREE = re.compile(rf"\s*(?:N\s*[0-9]+\s*)?(M\s*0*(?:{'|'.join(FREE_TEXT)}))(?![0-9.])", re.IGNORECASE)
_AMOUNT = r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)"
# ``X10E-0.5`` is two words; ``E1e-05`` and ``X1e-05`` may be meant as one very small number.
_EXPONENT = re.compile(rf"(?:[Ee]{_AMOUNT}[eE]|[A-Z]{_AMOUNT}e)[-+]?[0-9]+(?![0-9.])")
_BLANK_INSIDE = re.compile(r"[0-9.][ \t]+[0-9.]")
_OPEN = re.compile(r"[(;]")


class BlockFault(NamedTuple):
    """What is wrong with a line. code: for wording; text: the spot as written."""

    code: str
    text: str = ""


class Block(NamedTuple):
    """One line. codes: ``G1``, ``M104``, ``G92.1``, in the order written; values: the other letters, None for a letter
    alone.

    remarks: without their marks and outer blanks; number: its N, None without one; skipped: it begins with a slash.
    """

    line: int
    codes: tuple[str, ...] = ()
    values: dict[str, float | None] = {}  # noqa: RUF012 - never written to
    remarks: tuple[str, ...] = ()
    faults: tuple[BlockFault, ...] = ()
    skipped: bool = False
    percent: bool = False


def read_block(text: str, line: int) -> Block:
    """A line's words. Nothing is raised: what cannot be read is a fault of the block."""
    bare = text.strip()
    if not bare:
        return Block(line)
    if bare[0] == "%":
        return Block(line, percent=True)
    free = _FREE.match(bare)
    if free:
        return _free_text(free, bare, line)
    words, remarks, faults = _without_remarks(bare)
    behind = _FREE.match(words)
    if behind:  # a remark, and then a message
        return _free_text(behind, words, line)._replace(remarks=tuple(remarks))
    words, sum_fault = _without_checksum(words)
    faults += sum_fault
    skipped = words.startswith("/")
    codes, values, more = _words(words[1:] if skipped else words)
    if faults:  # what is left of such a line means nothing
        more = ()
    return Block(line, codes, values, tuple(remarks), (*faults, *more), skipped)


def _free_text(free: re.Match[str], bare: str, line: int) -> Block:
    """A message: nothing in it is a word. A checksum behind it is taken off where it fits."""
    code = _code("M", free.group(1)[1:])
    _, fault = _without_checksum(bare)
    return Block(line, (code,), {}, (), fault)


def _without_remarks(text: str) -> tuple[str, list[str], tuple[BlockFault, ...]]:
    """The words of a line, its remarks, and faults of bracketing. A ``;`` inside brackets is part of the remark."""
    words = ""
    remarks: list[str] = []
    faults: list[BlockFault] = []
    rest = text
    while mark := _OPEN.search(rest):
        words += rest[: mark.start()] + " "
        if mark.group() == ";":
            remarks.append(rest[mark.end() :].strip())
            return words, remarks, tuple(faults)
        inside, closed, rest = rest[mark.end() :].partition(")")
        remarks.append(inside.strip())
        if "(" in inside:
            faults.append(BlockFault("nested-remark", f"({inside})"))
        if not closed:
            faults.append(BlockFault("open-remark", f"({inside}"))
    return words + rest, remarks, tuple(faults)


def _without_checksum(words: str) -> tuple[str, tuple[BlockFault, ...]]:
    """Words before ``*34``, where 34 is the exclusive or of all bytes before the star [common practice, no source]."""
    checksum = _CHECKSUM.search(words)
    if not checksum:
        return words, (BlockFault("star", "*"),) if "*" in words and "[" not in words else ()
    before = words[: checksum.start()]
    parity = 0
    for byte in before.encode("utf-8", "surrogateescape"):
        parity ^= byte
    right = str(parity) == checksum.group(1).lstrip("0") or (parity == 0 and not checksum.group(1).strip("0"))
    return before, () if right else (BlockFault("checksum", f"*{checksum.group(1)}"),)


def _words(text: str) -> tuple[tuple[str, ...], dict[str, float | None], tuple[BlockFault, ...]]:
    upper = text.upper().strip()
    if "#" in upper or "[" in upper:
        return (), {}, (BlockFault("expression", text.strip()),)
    faults: list[BlockFault] = []
    if exponent := _EXPONENT.search(text):
        faults.append(BlockFault("exponent", exponent.group()))
    codes: list[str] = []
    values: dict[str, float | None] = {}
    at = 0
    while at < len(upper):
        word = _WORD.match(upper, at)
        if not word:
            return (), {}, (BlockFault("unread", text.strip()),)
        at = word.end()
        while at < len(upper) and upper[at] in " \t":
            at += 1
        fault = _take(word.group(1), (word.group(2) or "").rstrip(), codes, values)
        faults += fault
    if exponent:
        faults = [fault for fault in faults if fault.code != "twice"]
    if len(values) > 1 and all(value is None for value in values.values()) and not codes:
        return (), {}, (BlockFault("unread", text.strip()),)  # a plain word, letter by letter
    return tuple(codes), values, tuple(faults)


def _take(letter: str, digits: str, codes: list[str], values: dict[str, float | None]) -> list[BlockFault]:
    """Put a word where it belongs. Returns what is wrong with it."""
    faults = []
    if _BLANK_INSIDE.search(digits):
        faults.append(BlockFault("blank-in-number", letter + digits))
    digits = digits.replace(" ", "").replace("\t", "")
    if letter in "GM":
        if not digits:
            return [*faults, BlockFault("no-number", letter)]
        codes.append(_code(letter, digits))
    elif letter in values:
        faults.append(BlockFault("twice", letter + digits))
    elif letter in _MEASURES and len(digits) > LONGEST_NUMBER and abs(float(digits)) > LARGEST:
        faults.append(BlockFault("unread", letter + digits[:20]))
    else:
        values[letter] = float(digits) if digits else None
    return faults


def _code(letter: str, digits: str) -> str:
    """``G01`` and ``G1.0`` as ``G1``."""
    whole, _, part = digits.strip().partition(".")
    part = part.rstrip("0")
    return letter + (whole.lstrip("+0") or "0") + (f".{part}" if part else "")
