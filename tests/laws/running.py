"""Runs a scenario through the public face and holds what came out; the settings of Hypothesis for all laws.

``PROFILESMITH_LAWS=search`` draws at random and four times as many; the default is the same examples in every run.
"""

from __future__ import annotations

import os
import re
import tempfile
from dataclasses import dataclass, field
from functools import cache, cached_property
from html import unescape
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, Phase, settings

from profilesmith.engine.derive import Derivation
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.review.render import Look, render
from profilesmith.workflows.derive import derive
from profilesmith.workflows.read import read
from profilesmith.workflows.request import Request
from tests.laws.layouts import Line
from tests.laws.spellings import Slot, Value
from tests.laws.strategies import Scenario

_CALM = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]
LAWS = os.environ.get("PROFILESMITH_LAWS")
"""``search``: more examples, others each time; ``quick``: an example that fails is not made smaller."""
_PHASES = (Phase.explicit, Phase.generate, *(() if LAWS == "quick" else (Phase.shrink,)))
settings.register_profile(
    "laws", derandomize=True, deadline=None, database=None, suppress_health_check=_CALM, phases=_PHASES
)
settings.register_profile("laws-search", deadline=None, database=None, suppress_health_check=_CALM, phases=_PHASES)
SEARCH = LAWS == "search"


def law(examples: int) -> settings:
    """The settings of one property."""
    profile = settings.get_profile("laws-search" if SEARCH else "laws")
    return settings(profile, max_examples=examples * (4 if SEARCH else 1))


@cache
def _folder(process: int) -> tempfile.TemporaryDirectory[str]:
    """One for each process: copies of this one may run beside it."""
    return tempfile.TemporaryDirectory(prefix="laws-")


def put(name: str, content: str | bytes) -> str:
    """Write a file into the folder of this run; returns its path."""
    path = Path(_folder(os.getpid()).name, name)
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return str(path)


@dataclass
class Outcome:
    """What a scenario came to. refused: why it could not be derived at all."""

    scenario: Scenario
    base: bytes
    derivation: Derivation | None
    refused: tuple[Problem, ...] = ()
    request: Request | None = None
    problems: tuple[Problem, ...] = field(init=False)

    def __post_init__(self) -> None:
        self.problems = self.refused or (self.derivation.problems if self.derivation else ())

    @property
    def data(self) -> Any:
        assert self.derivation is not None, self.refused
        return self.derivation.review.data

    @property
    def output(self) -> bytes:
        assert self.derivation is not None, self.problems
        assert self.derivation.outputs, self.problems
        return self.derivation.outputs[0]

    @cached_property
    def moved(self) -> set[str]:
        """The settings whose value the JSON says to differ."""
        base, derived = self.data["base"], self.data["derived"]
        return {name for name, value in derived.items() if base.get(name) != value}

    @cached_property
    def touched(self) -> set[str]:
        """The settings with a row that says that their text was changed or added."""
        return {row["setting"] for row in self.data["rows"] if row["old_text"] != row["new_text"]}

    @cached_property
    def pieces(self) -> list[tuple[Line, str]]:
        """Every line of the base with the raw value that stands in its place now."""
        return match_lines(self.scenario, self.scenario.page.decode(self.output), self.touched)

    def values(self, after: bool) -> dict[str, tuple[Value, ...]]:
        """All settings as an independent reader reads them, before or after."""
        raws = {id(line): raw for line, raw in self.pieces} if after else {}
        found: dict[str, tuple[Value, ...]] = {}
        for name, (line, slot) in self.scenario.page.slots().items():
            found[name] = slot.read(raws.get(id(line), line.raw), found)
        return found

    def told(self) -> list[str]:
        """The review as a person reads it, in two forms, each as one line of words."""
        assert self.derivation is not None
        look = Look(width=100, colour=False, full=True)
        texts = (render(self.derivation.review, form, look) for form in ("terminal", "markdown"))
        return [" ".join(unescape(text).replace("\\", "").split()) for text in texts]

    def slots(self) -> dict[str, tuple[Line, Slot]]:
        return self.scenario.page.slots()


def run(scenario: Scenario, base: bytes | None = None, refusable: bool = False) -> Outcome:
    """Derive a scenario, from its own text or another. A refusal is a fault of the package unless it is looked for."""
    raw = scenario.page.raw if base is None else base
    recipes = tuple(put(f"recipe-{at}.toml", text) for at, text in enumerate(scenario.recipes))
    request = Request(
        bases=(put("base.cfg", raw),),
        key_map=put("map.toml", scenario.key_map),
        recipes=recipes,
        facts=(put("facts.toml", scenario.facts),),
    )
    try:
        return Outcome(scenario, raw, derive(request), request=request)
    except Refused as refused:
        if not refusable:
            raise
        return Outcome(scenario, raw, None, refused.problems, request)


def plain(base: str | bytes, bindings: str, rules: str, facts: str = "") -> Derivation:
    """Derive one small text from TOML written out, for cases worked by hand."""
    request = Request(
        bases=(put("plain.cfg", base),),
        key_map=put("plain-map.toml", f'format = 1\n[keymap]\nname = "plain"\n{bindings}'),
        recipes=(put("plain-recipe.toml", f'format = 1\n[recipe]\nname = "plain"\nversion = "1.0.0"\n{rules}'),),
        facts=(put("plain-facts.toml", f"format = 1\n{facts}"),),
    )
    return derive(request)


def read_again(outcome: Outcome) -> dict[str, tuple[Value, ...]]:
    """The exported bytes through the package's own reader, as a user would read them."""
    assert outcome.request is not None
    again = read(Request(bases=(put("again.cfg", outcome.output),), key_map=outcome.request.key_map))
    return {name: entry.values for name, entry in again.profile.entries.items()}


def match_lines(scenario: Scenario, text: str, touched: set[str]) -> list[tuple[Line, str]]:
    """Walk the new text along the old lines. Only the raw values of touched settings may differ; added lines are
    skipped.

    Raises AssertionError where any other byte differs.
    """
    found, at = [], 0
    added = [
        binding["key"]
        for binding in scenario.page.bindings
        if binding["setting"] in scenario.addable and binding["setting"] in touched
    ]
    for line in scenario.page.lines:
        loose = any(slot.setting in touched for slot in line.slots)
        start = at + len(line.before)
        fits = text.startswith(line.before + ("" if loose else line.raw + line.after), at)
        assert fits, f"{text[at : at + 60]!r} should be {line.text!r}"
        if loose:
            at = _line_end(text, start)
            stop = at - len(line.after)
            assert text[stop:at] == line.after, (
                f"what stood behind the value of {line.text!r} is lost in {text[start:at]!r}"
            )
            raw = text[start:stop]
        else:
            raw, at = line.raw, start + len(line.raw + line.after)
        found.append((line, raw))
        at = _past_added(text, at, added, line.end)
        assert text.startswith(line.end, at), f"the line end behind {line.text!r} is lost"
        at += len(line.end)
    at = _past_added(text, at, added, "")
    assert at == len(text), f"left over: {text[at:]!r}"
    assert not added
    return found


def _line_end(text: str, at: int) -> int:
    return min((stop for stop in (text.find("\n", at), text.find("\r", at)) if stop >= 0), default=len(text))


_LINE_END = re.compile(r"\A(?:\r\n|\r|\n)")


def _past_added(text: str, at: int, added: list[str], end: str) -> int:
    """The offset behind lines that stand here newly, each of which must begin with an added key."""
    while added:
        # One line end at most: a blank line that stood here before is no part of what was added.
        head = _LINE_END.sub("", text[at:], count=1)
        lead = _LINE_END.sub("", head[len("[new part]") :], count=1) if head.startswith("[new part]") else head
        key = next((key for key in added if lead.lstrip(" \t").startswith(key) and at < len(text)), None)
        if key is None:
            return at
        added.remove(key)
        body = at + text[at:].index(key)
        at = _line_end(text, body)
        if not end and at < len(text):
            at += 2 if text.startswith("\r\n", at) else 1
    return at
