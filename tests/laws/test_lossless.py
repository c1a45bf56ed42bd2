"""Lossless: outside the value spans that the ledger names every byte stays, and inside them all that is not the
number.
"""

from __future__ import annotations

import configparser

import pytest
from hypothesis import given

from profilesmith.audit import audit
from profilesmith.text.document import Edit
from profilesmith.text.edit_document import edit_document
from profilesmith.workflows.read import read
from profilesmith.workflows.request import Request
from tests.laws.layouts import Line
from tests.laws.running import law, plain, put, run
from tests.laws.spellings import NUMBERS, skeleton
from tests.laws.strategies import Scenario, scenarios


@law(110)
@given(scenarios())
def test_only_values_that_the_ledger_names_differ(scenario: Scenario) -> None:
    outcome = run(scenario)
    if outcome.problems:
        return
    # match_lines asserts every byte of every line: comments, blanks, headings, line ends, mark, missing last newline.
    for line, raw in outcome.pieces:
        if raw != line.raw:
            _habits_stay(line, raw)
            _neighbours_stay(line, raw, outcome.touched)


def _habits_stay(line: Line, raw: str) -> None:
    """Quotes, separators, unit suffixes and blanks inside the value are as they were."""
    if all(slot.setting in NUMBERS for slot in line.slots):
        assert skeleton(raw) == skeleton(line.raw)
        for slot in line.slots:
            before, after = slot.pieces(line.raw), slot.pieces(raw)
            for old, new in zip(before, after, strict=True):
                assert _decimals(new, slot.decimal) >= _decimals(old, slot.decimal), (
                    "a text's own decimals were dropped"
                )


def _decimals(piece: str, mark: str) -> int:
    digits = piece.partition(mark)[2]
    return len(digits) - len(digits.lstrip("0123456789"))


def _neighbours_stay(line: Line, raw: str, touched: set[str]) -> None:
    """In a value that several settings share, those that did not change keep their text."""
    for slot in line.slots:
        if slot.setting not in touched and not slot.sharers:
            assert slot.pieces(raw) == slot.pieces(line.raw)


def test_a_missing_last_line_end_stays_missing() -> None:
    """A key is added: where its section is, at the end, and in a section that the text does not have."""
    for home in ("", 'section = "x"\n', 'section = "new"\n'):
        bindings = (
            '[[binding]]\nsetting = "wall.count"\nkey = "rings"\n'
            f'[[binding]]\nsetting = "support.density"\nkey = "fill"\nadd = true\n{home}'
        )
        derivation = plain(
            "rings = 3\n[x]\nsole = 4", bindings, '[[rule]]\nsetting = "support.density"\nset = "30 %"\n'
        )
        (out,) = derivation.outputs
        assert out.count(b"fill = 30") == 1, out
        assert not out.endswith(b"\n"), out


@pytest.mark.parametrize("end", ["", "\n"], ids=["without last line end", "with it"])
def test_keys_added_at_one_place_keep_to_their_sections(end: str) -> None:
    """The last section of the text and two new ones, in the map's order and against it: never refused as a fault."""
    homes = {"infill.density": "y", "wall.count": "x", "support.density": "z", "top.layers": "y", "bottom.layers": "x"}
    sets = {"infill.density": "30 %", "support.density": "20 %"}
    rules = "".join(f'[[rule]]\nsetting = "{name}"\nset = "{sets.get(name, "3")}"\n' for name in homes)
    binding = '[[binding]]\nsetting = "raft.on"\nkey = "base"\nsection = "x"\n'
    for names in (list(homes), list(homes)[::-1]):
        adds = "".join(
            f'[[binding]]\nsetting = "{name}"\nkey = "{name}"\nsection = "{homes[name]}"\nadd = true\n'
            for name in names
        )
        (out,) = plain(f"a = 1\n[x]\nbase = 0{end}", binding + adds, rules).outputs
        parser = configparser.RawConfigParser(strict=True)
        parser.read_string("[top]\n" + out.decode())
        assert {name: next(at for at in parser.sections() if parser.has_option(at, name)) for name in homes} == homes


def test_the_audit_sees_an_edit_beside_a_value() -> None:
    """Only configparser counts the words behind a value as part of it, so only that reader can see them change."""
    key_map = put(
        "audit-map.toml", 'format = 1\n[keymap]\nname = "audit"\n[[binding]]\nsetting = "wall.count"\nkey = "rings"\n'
    )
    translation = read(Request(bases=(put("audit.cfg", b"rings = 3 ; a note\n[x]\nsole = 4\n"),), key_map=key_map))
    document = translation.documents[0]
    at = document.text.index("note")
    edits = [Edit(at, at + 4, "nope")]
    written = [edit_document(document, edits)]
    assert audit(translation, [edits], written, translation.profile)
    assert not audit(translation, [[]], [edit_document(document, ())], translation.profile)
