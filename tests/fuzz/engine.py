"""A small mutation engine: inputs that showed new behaviour are kept and changed further.

What a target says of an input (which problems, how many entries) stands for coverage: it costs nothing. An input that
makes the target raise, or that takes longer than ``PATIENCE`` seconds of its own processor time, is a finding.
"""

from __future__ import annotations

import copy
import json
import random
import signal
import time
import traceback
from collections.abc import Callable, Iterator, Sequence
from types import FrameType
from typing import Any, NamedTuple

PATIENCE = 10.0  # seconds of processor time for one input
LARGEST = 4096  # bytes, or what the seeds have: small inputs are quick, and faults of size are looked for elsewhere
MOST_KEPT = 4000
EDGES = (
    b"\x00",
    b"\xef\xbb\xbf",
    b"\xff\xfe",
    b"\xfe\xff",
    b"\r",
    b"\r\n",
    b"\xe2\x80\xa8",
    b"\xe2\x80\xae",
    b"\xed\xa0\x80",
    b"\x1b[2J",
    b"\x85",
    b"\x0c",
    b"\xc2\xa0",
)


class Target(NamedTuple):
    """behaviour: runs one input, raises for a fault, and says in a word what the input did. seeds, tokens: to begin
    with.
    """

    name: str
    behaviour: Callable[[bytes], str]
    seeds: Callable[[], list[bytes]]
    tokens: Callable[[], list[bytes]]
    thorough: Callable[[bytes], object] | None = None

    def one_input(self, data: bytes) -> None:
        """Run one input in every way that the target has.

        Raises AssertionError, or whatever the program raised, for a fault.
        """
        (self.thorough or self.behaviour)(data)


class Finding(NamedTuple):
    """data: the input; told: the end of its traceback; mark: what tells one fault from another."""

    data: bytes
    told: str
    mark: str


class TooSlow(AssertionError):
    """An input took longer than it may."""


def _late(number: int, frame: FrameType | None) -> None:
    raise TooSlow(f"more than {PATIENCE} s")


def attempt(target: Target, data: bytes) -> tuple[str, Finding | None]:
    """Run one input. Returns its behaviour, or the finding that it is."""
    signal.signal(signal.SIGVTALRM, _late)
    signal.setitimer(signal.ITIMER_VIRTUAL, PATIENCE)
    try:
        return target.behaviour(data), None
    except Exception as error:
        frames = traceback.extract_tb(error.__traceback__)
        last = frames[-1]
        mark = f"{type(error).__name__} at {last.filename.rsplit('/', 2)[-1]}:{last.name}:{last.lineno}"
        return "", Finding(data, "".join(traceback.format_exception(error))[-3000:], mark)
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)


class Mutator:
    """Makes inputs from those that are kept. The same seed makes the same inputs."""

    def __init__(self, seeds: Sequence[bytes], tokens: Sequence[bytes], seed: int) -> None:
        self.kept = list(seeds)
        self.largest = max([LARGEST, *(len(seed) + LARGEST // 8 for seed in seeds)])  # what is cut off is no JSON
        self.tokens = [*tokens, *EDGES]
        self.chance = random.Random(seed)
        self.ways = (
            self.lines,
            self.lines,
            self.token,
            self.token,
            self.token,
            self.splice,
            self.cut,
            self.double,
            self.number,
            self.byte,
        )
        if any(seed[:1] == b"{" for seed in seeds):  # most other ways leave no JSON, and only its reader is looked at
            self.ways += (self.node,) * 40

    def next(self) -> bytes:
        """A new input."""
        data = self.chance.choice(self.kept)
        for _ in range(self.chance.choice((1, 1, 1, 2, 2, 3, 5, 8))):
            data = self.chance.choice(self.ways)(data)
        return data[: self.largest]

    def keep(self, data: bytes) -> None:
        """Remember an input that did something new."""
        if len(self.kept) < MOST_KEPT:
            self.kept.append(data)
        else:
            self.kept[self.chance.randrange(len(self.kept))] = data

    def span(self, data: bytes) -> tuple[int, int]:
        start = self.chance.randrange(len(data) + 1)
        return start, min(len(data), start + self.chance.choice((0, 0, 1, 1, 2, 4, 8, 30)))

    def lines(self, data: bytes) -> bytes:
        """Drop, repeat, move or borrow a line."""
        lines = data.split(b"\n")
        at, to = self.chance.randrange(len(lines)), self.chance.randrange(len(lines))
        way = self.chance.randrange(4)
        if way == 0:
            del lines[at]
        elif way == 1:
            lines.insert(to, lines[at])
        elif way == 2:
            lines[at], lines[to] = lines[to], lines[at]
        else:
            other = self.chance.choice(self.kept).split(b"\n")
            lines.insert(to, self.chance.choice(other))
        return b"\n".join(lines)

    def token(self, data: bytes) -> bytes:
        """A word of the dictionary in the place of a word, or between."""
        start, end = self.span(data)
        if self.chance.random() < 0.5:
            while end < len(data) and data[end : end + 1].isalnum():
                end += 1
            while start > 0 and data[start - 1 : start].isalnum():
                start -= 1
        return data[:start] + self.chance.choice(self.tokens) + data[end:]

    def splice(self, data: bytes) -> bytes:
        other = self.chance.choice(self.kept)
        return data[: self.span(data)[0]] + other[self.span(other)[0] :]

    def cut(self, data: bytes) -> bytes:
        start, end = self.span(data)
        return data[:start] + data[end:]

    def double(self, data: bytes) -> bytes:
        start, end = self.span(data)
        return data[:end] + data[start:end] * self.chance.choice((1, 2, 8, 40)) + data[end:]

    def number(self, data: bytes) -> bytes:
        """Another number in the place of a digit."""
        digits = [at for at, byte in enumerate(data[:LARGEST]) if 48 <= byte <= 57]
        if not digits:
            return self.byte(data)
        at = self.chance.choice(digits)
        numbers = (
            b"0",
            b"9",
            b"-1",
            b"00",
            b"1e9",
            b"1e99",
            b"1e-99",
            b"999999999999",
            b"0.0000000000001",
            b".",
            b"1_000",
            b"inf",
            b"nan",
            b"7",
            b"33.3333333",
            b"1" * 50,
        )
        return data[:at] + self.chance.choice(numbers) + data[at + 1 :]

    def node(self, data: bytes) -> bytes:
        """Of a JSON text: another node, a word, or nothing in the place of a node; so that the rest still reads."""
        if data[:1] != b"{":
            return self.token(data)
        try:
            whole = json.loads(data)
        except (ValueError, RecursionError):
            return self.token(data)
        places = list(_nodes(whole))
        if not places:
            return data
        holder, key = self.chance.choice(places)
        way = self.chance.randrange(3)
        if way == 0:
            del holder[key]
        elif way == 1:
            other, name = self.chance.choice(places)
            holder[key] = copy.deepcopy(other[name])
        else:
            holder[key] = self.word()
        return json.dumps(whole, ensure_ascii=False).encode("utf-8", "surrogatepass")

    def word(self) -> Any:
        """A token as JSON reads it, else as a string."""
        text = self.chance.choice(self.tokens).decode("utf-8", "surrogateescape")
        try:
            return json.loads(text)
        except (ValueError, RecursionError):
            return text

    def byte(self, data: bytes) -> bytes:
        at = self.chance.randrange(len(data) + 1)
        return data[:at] + bytes([self.chance.randrange(256)]) + data[at + self.chance.randrange(2) :]


def _nodes(value: Any, depth: int = 0) -> Iterator[tuple[Any, Any]]:
    """Where the nodes of a JSON value stand: what holds them, and their key in it."""
    if depth > 40:
        return
    for key, inner in value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ():
        yield value, key
        yield from _nodes(inner, depth + 1)


class Run(NamedTuple):
    """executions, seconds: of this run. kept: inputs that showed something new."""

    executions: int
    seconds: float
    kept: int
    findings: tuple[Finding, ...]


class Session:
    """A target with what its inputs showed so far; goes on where it stopped."""

    def __init__(self, target: Target, seed: int) -> None:
        self.target, self.mutator = target, Mutator(target.seeds(), target.tokens(), seed)
        self.inputs = _inputs(self.mutator)
        self.seen: set[str] = set()
        self.findings: dict[str, Finding] = {}
        self.count, self.seconds = 0, 0.0

    def go(self, executions: int | None = None, seconds: float | None = None) -> list[Finding]:
        """So many executions more, or as many as so many seconds hold. Returns the findings that are new."""
        begun, last, fresh = time.monotonic(), self.count + (executions or 0), []
        while executions is None or self.count < last:
            if seconds is not None and time.monotonic() - begun >= seconds:
                break
            data = next(self.inputs)
            self.count += 1
            behaviour, finding = attempt(self.target, data)
            if finding is not None and finding.mark not in self.findings:
                self.findings[finding.mark] = finding
                fresh.append(finding)
            elif finding is None and behaviour not in self.seen:
                self.seen.add(behaviour)
                self.mutator.keep(data)
        self.seconds += time.monotonic() - begun
        return fresh

    def run(self) -> Run:
        """All so far."""
        return Run(self.count, self.seconds, len(self.seen), tuple(self.findings.values()))


def fuzz(target: Target, seed: int, executions: int | None = None, seconds: float | None = None) -> Run:
    """Run a target until there were so many executions, or so many seconds are over."""
    session = Session(target, seed)
    session.go(executions, seconds)
    return session.run()


def _inputs(mutator: Mutator) -> Iterator[bytes]:
    yield from list(mutator.kept)
    while True:
        yield mutator.next()


def shrunk(target: Target, finding: Finding, tries: int = 400) -> Finding:
    """The finding with as many lines and bytes taken away as leave the same fault."""
    best, size = finding, max(1, len(finding.data) // 2)
    while size >= 1 and tries > 0:
        at, smaller = 0, False
        while at < len(best.data) and tries > 0:
            tries -= 1
            _, found = attempt(target, best.data[:at] + best.data[at + size :])
            if found is not None and found.mark == finding.mark:
                best, smaller = found, True
            else:
                at += size
        size = size if smaller else size // 2
    return best
