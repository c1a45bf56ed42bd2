"""A ledger's text is made at once, member by member; it is the text of its data, whatever stands in it."""

from fractions import Fraction
from types import UnionType
from typing import Any, Union, get_args, get_origin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.engine.derive import Derivation, derive
from profilesmith.engine.read import Source
from profilesmith.ledger.cause import Asked, Cause, Note
from profilesmith.ledger.json_text import json_text
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.ledger.ledger import Line, Row
from profilesmith.ledger.plain_forms import Texts
from profilesmith.ledger.write import file_bytes, file_json, file_text
from profilesmith.library.find import shipped


def record(kind: Any, *first: st.SearchStrategy[Any], **own: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Records of a type; what is not named may be all that its annotation allows."""
    named = {**dict(zip(kind._fields, first, strict=False)), **own}
    return st.builds(
        kind,
        **{name: named[name] if name in named else member(hint) for name, hint in kind.__annotations__.items()},
    )


def member(hint: Any) -> st.SearchStrategy[Any]:
    """All that an annotation allows."""
    if hasattr(hint, "_fields"):
        return record(hint)
    if hasattr(hint, "said"):  # Annotated of ledger/form.py
        return member(hint.kind)
    origin, parts = get_origin(hint), get_args(hint)
    if origin is tuple:
        return st.lists(member(parts[0]), max_size=2).map(tuple)
    return st.one_of(*map(member, parts)) if origin in (Union, UnionType) else st.from_type(hint)


TEXT = st.text(st.characters(), max_size=12)  # lone surrogates, controls and marks that turn text among them
NUMBER = st.fractions(max_denominator=1000) | st.integers(-(10**40), 10**40).map(Fraction)
VALUES = st.lists(NUMBER | st.booleans() | TEXT, max_size=3).map(tuple)
ASKED = record(Asked, TEXT, VALUES)
CAUSES = record(Cause, st.just("rule"), TEXT, rule=st.integers(0, 9), asked=st.lists(ASKED, max_size=2).map(tuple))
NOTES = record(Note, st.just("style"), st.lists(TEXT, max_size=2).map(tuple), st.none() | CAUSES)
ROWS = record(Row, TEXT, st.just("changed"), CAUSES, VALUES, VALUES, TEXT, notes=st.lists(NOTES, max_size=2).map(tuple))
AMOUNTS = record(Amount, TEXT, st.floats(), st.floats() | st.integers(), TEXT)
FINDINGS = record(Finding, TEXT, st.just("note"), TEXT, amounts=st.lists(AMOUNTS, max_size=2).map(tuple))


@pytest.fixture(scope="module")
def derivation() -> Derivation:
    demo = shipped() / "demo"

    def source(name: str) -> Source:
        return Source(name, (demo / name).read_bytes())

    recipe = Source("soft.toml", (shipped() / "flexible-pla.toml").read_bytes())
    facts = [source(f"{name}.toml") for name in ("machine", "spool", "part")]
    return derive([source("base.settings")], source("keymap.toml"), [recipe], facts)


def test_the_demo(derivation: Derivation) -> None:
    assert len(derivation.file.rows) > 20
    assert len(derivation.file.figures) > 3
    assert file_text(derivation.file) == json_text(file_json(derivation.file))


@pytest.fixture(scope="module")
def texts() -> Texts:
    """Of all ledgers of a run: what one holds must say nothing of another."""
    return Texts()


@given(
    name=TEXT,
    rows=st.lists(ROWS, max_size=3).map(tuple),
    lines=st.lists(record(Line, TEXT, st.integers(0, 9), TEXT, TEXT), max_size=2).map(tuple),
    findings=st.lists(FINDINGS, max_size=2).map(tuple),
)
def test_whatever_stands_in_it(
    name: str,
    rows: tuple[Row, ...],
    lines: tuple[Line, ...],
    findings: tuple[Finding, ...],
    derivation: Derivation,
    texts: Texts,
) -> None:
    file = derivation.file._replace(key_map=name, rows=rows, unmapped=lines, findings=findings)
    assert file_text(file) == json_text(file_json(file)) == file_bytes(file, texts).decode()


def test_equal_values_with_other_texts(derivation: Derivation, texts: Texts) -> None:
    """1 and true are equal, and so are a ledger's rows that hold them: a text goes by which object it is of."""
    row = derivation.file.rows[0]
    for values, text in (((Fraction(1),), '"base": 1,'), ((True,), '"base": true,'), ((Fraction(1),), '"base": 1,')):
        file = derivation.file._replace(rows=(row._replace(base=values),))
        assert text in file_bytes(file, texts).decode()
