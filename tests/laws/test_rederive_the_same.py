"""Exact: re-deriving onto the same base, with no hand edit, writes the bytes and the ledger that deriving wrote.

Every number that a derivation hangs on goes through the ledger: facts and answers of every kind in every unit with as
many digits as somebody may type, values that no decimal can say (1000 mm/min), shares, several tools.
"""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from profilesmith.facts.facts import FactKind, fact_kinds, read_fact
from profilesmith.foundation.problem import Refused
from profilesmith.foundation.quantity import UNITS
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.rederive.rederive import rederive
from profilesmith.workflows.request import Request
from tests.laws.running import law, put, run
from tests.laws.strategies import Scenario, scenarios

MAP = 'format = 1\n[keymap]\nname = "all"\n'


def folder(name: str) -> Path:
    """A new folder of this run."""
    path = Path(put(f"{name}-made", "")).with_name(f"{name}-out")
    path.mkdir(exist_ok=True)
    for file in path.iterdir():
        file.unlink()
    return path


def both(request: Request, name: str) -> tuple[Path, dict[str, Any], dict[str, Any]]:
    """Derive, then re-derive what was written onto the same base, twice; the ledgers as JSON, without their history."""
    here = folder(name)
    out = here / "derived.cfg"
    write(derive(request), str(out))
    raw, ledger = out.read_bytes(), json.loads(Path(f"{out}.ledger.json").read_text(encoding="utf-8"))
    again: dict[str, Any] = {}
    for _ in range(2):
        made = rederive([str(out)], Request(bases=(), key_map=""), lambda decision: "").derivation
        assert made.outputs == (raw,)
        write(made._replace(inputs=()), str(out), overwrite=True)
        again = json.loads(Path(f"{out}.ledger.json").read_text(encoding="utf-8"))
    assert len(again.pop("history")) == 2
    return out, ledger, again


@law(25)
@given(scenarios())
def test_a_scenario(scenario: Scenario) -> None:
    outcome = run(scenario)
    if outcome.problems:
        return
    assert outcome.request is not None
    _, ledger, again = both(outcome.request, "scenario")
    assert again == ledger


QUANTITIES = [kind for kind in fact_kinds().values() if kind.kind in ("quantity", "window")]
DIGITS = st.integers(0, 10**6).map(lambda digits: Fraction(digits, 10**6))


def units_of(kind: str) -> list[str]:
    return [unit.name for unit in UNITS.values() if unit.kind == kind] or [""]


def text_in(kind: FactKind, at: Fraction, unit: str) -> str:
    """A quantity of a kind, some way between its plausible ends, as somebody types it in a unit: seven digits."""
    low, high = kind.low or Fraction(0), kind.high if kind.high is not None else Fraction(100)
    value = low + (high - low) * at
    if kind.unit_kind == "count":
        return str(int(value))
    number = UNITS[unit].from_canonical(value) if unit in UNITS else value
    return f"{float(number):.7f} {unit}"


def told(kind: FactKind, unit: str, one: Fraction, other: Fraction) -> str:
    if kind.kind == "window":
        return " to ".join(text_in(kind, at, unit) for at in sorted((one, other)))
    return text_in(kind, one, unit)


@law(4)
@given(DIGITS, DIGITS)
@pytest.mark.parametrize("turn", range(max(len(units_of(kind.unit_kind)) for kind in QUANTITIES)))
def test_every_fact_in_every_unit_is_read_back_exactly(turn: int, one: Fraction, other: Fraction) -> None:
    """All facts at once; each turn has each of them in the next of its units."""
    units = {kind: units_of(kind.unit_kind) for kind in QUANTITIES}
    texts = {kind.name: told(kind, units[kind][turn % len(units[kind])], one, other) for kind in QUANTITIES}
    texts |= {"machine.drive": "remote", "spool.hardness": "92.25 Shore A", "spool.material": 'soft, "92" to 5 mm'}
    request = Request(
        bases=(put("fact.cfg", "rim = 4.5\n"),),
        key_map=put("fact-map.toml", MAP + '[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\nunit = "in/min"\n'),
        answers=texts,
    )
    out, ledger, again = both(request, "fact")
    assert again == ledger
    facts = load_ledger(str(out)).ledger.facts
    assert {name: (fact.said, fact.value) for name, fact in facts.items()} == {
        name: (text, read_fact(fact_kinds()[name], text)) for name, text in texts.items()
    }


@law(25)
@given(DIGITS, DIGITS, st.data())
def test_every_answer_counts_to_its_last_digit(one: Fraction, other: Fraction, data: st.DataObject) -> None:
    """An input of the kind of a setting, asked as a cap; the text holds six decimals, so that each digit is seen."""
    settings = [item for item in load_vocabulary().settings.values() if item.is_number and item.kind != "count"]
    setting = data.draw(st.sampled_from(settings))
    unit = data.draw(st.sampled_from(units_of(setting.kind)))
    assert setting.low is not None
    assert setting.high is not None
    kind = FactKind("x", "quantity", "", "", setting.kind, (), setting.low, setting.high)
    answer, base = told(kind, unit, one, other), text_in(kind, other, "")
    rules = (
        f'[inputs.pace]\nkind = "{setting.kind}"\nask = "How much?"\n'
        f'[[rule]]\nsetting = "{setting.id}"\ncap = {{ input = "pace" }}\nwhy = "generated"\n'
    )
    request = Request(
        bases=(put("answer.cfg", f"key = {base.strip()}\n"),),
        key_map=put("answer-map.toml", MAP + f'[[binding]]\nsetting = "{setting.id}"\nkey = "key"\n'),
        recipes=(put("answer.toml", f'format = 1\n[recipe]\nname = "a"\nversion = "1.0.0"\ntitle = "A"\n{rules}'),),
        answers={"pace": answer},
    )
    try:
        assume(not derive(request).problems)
    except Refused:
        assume(False)  # beyond what the setting may be, or a number too long
    _, ledger, again = both(request, "answer")
    assert again == ledger


def test_what_was_added_stands_in_the_same_order() -> None:
    """A rule's own order and the map's are two; a ledger has the one in which settings are worked out."""
    bindings = "".join(
        f'[[binding]]\nsetting = "{setting}"\nkey = "{key}"\n{more}'
        for setting, key, more in (
            ("infill.density", "fill", ""),
            ("support.density", "prop", "add = true\n"),
            ("raft.on", "foot", "add = true\n"),
        )
    )
    rules = (
        '[[rule]]\nsetting = "raft.on"\naim = "off"\nwhy = "x"\n'
        '[[rule]]\nsetting = "support.density"\nset = "5 %"\nwhy = "x"\n'
    )
    request = Request(
        bases=(put("added.cfg", "fill = 10\n"),),
        key_map=put("added-map.toml", MAP + bindings),
        recipes=(put("added.toml", f'format = 1\n[recipe]\nname = "a"\nversion = "1.0.0"\ntitle = "A"\n{rules}'),),
    )
    _, ledger, again = both(request, "added")
    assert again["patch"] == ledger["patch"]
    assert again == ledger


def test_the_two_that_were_seen() -> None:
    """Answers came back as shown (33.337 as 33.34), and a cap of 15 cm³/h as 4.17 mm³/s, past what was said."""
    bindings = "".join(
        f'[[binding]]\nsetting = "{setting}"\nkey = "{key}"\n'
        for setting, key in (
            ("outer_wall.speed", "v"),
            ("layer.height", "h"),
            ("bead.width", "w"),
            ("infill.speed", "f"),
        )
    )
    rules = (
        '[inputs.pace]\nkind = "speed"\nask = "How fast?"\n'
        '[[rule]]\nsetting = "outer_wall.speed"\ncap = { input = "pace" }\nwhy = "x"\n'
        '[[rule]]\nsetting = "infill.speed"\ncap = { flow = { fact = "machine.maximum_flow" } }\nwhy = "x"\n'
    )
    request = Request(
        bases=(put("seen.cfg", "v = 80.000\nf = 80.00\nh = 0.2\nw = 0.45\n"),),
        key_map=put("seen-map.toml", MAP + bindings),
        recipes=(put("seen.toml", f'format = 1\n[recipe]\nname = "a"\nversion = "1.0.0"\ntitle = "A"\n{rules}'),),
        facts=(put("seen-facts.toml", 'format = 1\n[machine]\nmaximum_flow = "15 cm3/h"\n'),),
        answers={"pace": "33.337 mm/s"},
    )
    out, ledger, again = both(request, "seen")
    assert "v = 33.337\n" in out.read_text(encoding="utf-8")
    assert again == ledger
    assert ledger["facts"]["machine.maximum_flow"]["said"] == "15 cm3/h"
    assert Fraction(ledger["facts"]["machine.maximum_flow"]["value"]["exact"]) == Fraction(25, 6)
