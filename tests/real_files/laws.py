"""The laws on one page: identity, one edit, set back, words. What is right is worked out from the bytes alone."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import NamedTuple

from profilesmith.engine.derive import derive
from profilesmith.engine.read import Source
from profilesmith.foundation.problem import Refused
from tests.real_files.reader import Page, Value, other_number, other_word

# A duration may be anything from nothing to ten minutes, so that most numbers of other programs fit.
NUMBER, UNITS = "layer.minimum_time", (("s", 600), ("ms", 600_000))
SWITCH, CHOICE = "raft.on", "infill.pattern"
HEAD = 'format = 1\n[{}]\nname = "real"\n'


class Tally(NamedTuple):
    """What came of a law: right, refused with a reason that the reader sees too, wrong. told: of the last two, in
    words.
    """

    right: Counter[str]
    refused: Counter[str]
    wrong: Counter[str]
    told: list[str]


def new_tally() -> Tally:
    return Tally(Counter(), Counter(), Counter(), [])


def _lines(raw: bytes, end: bytes) -> bytes:
    return raw.replace(b"\r\n", b"\n").replace(b"\r", b"\n").replace(b"\n", end)


TRANSFORMS: dict[str, Callable[[bytes], bytes]] = {
    "as it is": lambda raw: raw,
    "CRLF": lambda raw: _lines(raw, b"\r\n"),
    "CR": lambda raw: _lines(raw, b"\r"),
    "UTF-8 with mark": lambda raw: b"\xef\xbb\xbf" + raw.removeprefix(b"\xef\xbb\xbf"),
    "UTF-16": lambda raw: b"\xff\xfe" + raw.decode("utf-8").encode("utf-16-le"),
    "no last line end": lambda raw: raw.rstrip(b"\r\n"),
}


class Change(NamedTuple):
    """A value, how the map binds it, and what the recipe sets: there and back."""

    value: Value
    binding: str
    there: str
    back: str
    new: bytes

    @property
    def setting(self) -> str:
        return self.binding.split('"')[1]


def changes(page: Page) -> Iterator[tuple[str, Change]]:
    """One number, one switch's word and one other word of a page, from its middle, with the law that they are for."""
    for value in _from_the_middle(page.numbers):
        change = _number(value)
        if change is not None:
            yield "one edit", change
            break
    switches = [item for item in page.words if other_word(item.text)]
    others = [item for item in page.words if not other_word(item.text)]
    for value in _from_the_middle(switches)[:1]:
        state, new = other_word(value.text) or ("", b"")
        back = "off" if state == "on" else "on"
        yield "words", Change(value, f'setting = "{SWITCH}"\n', state, back, new)
    for value in _from_the_middle(others)[:1]:
        choices = f'choices = {{ gyroid = "another", grid = {json.dumps(value.text.decode())} }}\n'
        yield "words", Change(value, f'setting = "{CHOICE}"\n{choices}', "gyroid", "grid", b"another")


def _from_the_middle(values: tuple[Value, ...] | list[Value]) -> list[Value]:
    half = len(values) // 2
    return [*values[half:], *values[:half]]


def _number(value: Value) -> Change | None:
    """A number that lies in the setting's range in one of its units."""
    new = other_number(value.text)
    now, then = Fraction(value.text.decode()), Fraction(new.decode())
    unit = next((name for name, most in UNITS if max(now, then) <= most and len(value.text) < 20), "")
    if not unit:
        return None
    binding = f'setting = "{NUMBER}"\nunit = "{unit}"\n'
    return Change(value, binding, f"{_decimal(then)} {unit}", f"{_decimal(now)} {unit}", new)


def _decimal(number: Fraction) -> str:
    places = next(places for places in range(120) if (number * 10**places).denominator == 1)
    return f"{number.numerator * 10**places // number.denominator}e-{places}" if places else str(number)


def hold(page: Page, name: str, transform: Callable[[bytes], bytes], tally: Tally) -> None:
    """Lay all laws over one page under one transformation."""
    base = transform(page.raw)
    found = list(changes(page))
    if found:
        _law("identity", found[0][1], base, (base,), (), page, name, tally)
    for law, change in found:
        there = transform(_spliced(page, change))
        steps = (change.there, change.back)
        _law(law, change, base, (there, base), steps, page, name, tally)


def _law(
    law: str,
    change: Change,
    base: bytes,
    wanted: tuple[bytes, ...],
    steps: tuple[str, ...],
    page: Page,
    name: str,
    tally: Tally,
) -> None:
    """Derive once for each step, each from the last one's bytes; the first is the law itself, the second sets back."""
    raw = base
    for number, right in enumerate(wanted):
        named = law if not number else f"{law}, set back"
        try:
            made = derive([Source(name, raw)], _map(change, page), _recipe(change, steps[number : number + 1]))
            problems = made.problems
        except Refused as refused:
            problems = tuple(refused.problems)
        if problems:
            codes = "+".join(sorted({problem.code for problem in problems}))
            true = all(_seen(problem.code, change, page) for problem in problems)
            (tally.refused if true else tally.wrong)[named] += 1
            tally.told.append(f"{name}:{change.value.line} {named}: {codes}: {problems[0].message[:120]}")
            return
        if made.outputs != (right,):
            tally.wrong[named] += 1
            tally.told.append(f"{name}:{change.value.line} {named}: other bytes than the reader's")
            return
        tally.right[named] += 1
        raw = made.outputs[0]


def _spliced(page: Page, change: Change) -> bytes:
    """The page with the value replaced in every line of its key that says the same."""
    same = [
        item
        for item in (*page.numbers, *page.words)
        if (item.section, item.key, item.text) == (change.value.section, change.value.key, change.value.text)
    ]
    raw = page.raw
    for item in sorted(same, key=lambda item: -item.start):
        raw = raw[: item.start] + change.new + raw[item.end :]
    return raw


def _map(change: Change, page: Page) -> Source:
    where = f"key = {json.dumps(change.value.key)}\nsection = {json.dumps(change.value.section)}\n"
    head = HEAD.format("keymap") + f'[text]\ndelimiter = "{page.sign}"\n'
    return Source("map.toml", f"{head}[[binding]]\n{change.binding}{where}".encode())


def _recipe(change: Change, steps: tuple[str, ...]) -> list[Source]:
    if not steps:
        return []
    head = HEAD.format("recipe") + 'version = "1.0.0"\n'
    rule = f'[[rule]]\nsetting = "{change.setting}"\nset = "{steps[0]}"\nwhy = "a test"\n'
    return [Source("recipe.toml", f"{head}{rule}".encode())]


def _seen(code: str, change: Change, page: Page) -> bool:
    """Whether the reader sees the reason of a refusal, too: unequal lines of a key, or a key that no map can name."""
    if code == "control-character":
        return "\t" in change.value.key
    key = re.escape(change.value.key.encode())
    lines = re.findall(rb"(?m)^[ \t]*" + key + rb"[ \t]*[=:][ \t]*([^\r\n]*)", page.raw)
    return code == "two-lines" and len({line.strip() for line in lines}) > 1
