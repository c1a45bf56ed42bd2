"""A ledger that an older version wrote is read, goes on, and says what it holds only as it was shown.

``tests/cases/ledger_format_1`` was written by version 0.1.0, before format 2: a flow of 15 cm³/h and an answer of
33.337 mm/s.
"""

from __future__ import annotations

import json
import shutil
from fractions import Fraction
from pathlib import Path

import pytest

from profilesmith.review.again_notes import again_notes
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.rederive.rederive import rederive
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import review_again

CASE = Path(__file__).parents[1] / "cases" / "ledger_format_1"


@pytest.fixture
def older(tmp_path: Path) -> Path:
    shutil.copytree(CASE, tmp_path / "older")
    return tmp_path / "older" / "derived.cfg"


def test_it_is_read(older: Path) -> None:
    stored = load_ledger(str(older))
    ledger = stored.ledger
    assert ledger.facts["machine.maximum_flow"].value == Fraction("4.167")
    assert ledger.recipes[0].answers["pace"].said == "33.337 mm/s"
    assert ledger.recipes[0].answers["window"].origin == "default"
    assert stored.rounded == ("machine.maximum_flow",)
    assert review_again(str(older)).edited == ()


def test_what_it_holds_rounded_is_said_until_it_is_said_again(older: Path) -> None:
    def again(**more: object) -> tuple[str, tuple[str, ...]]:
        made = rederive([str(older)], Request(bases=(), key_map="", **more), lambda decision: "")  # type: ignore[arg-type]
        return made.derivation.outputs[0].decode(), again_notes(made.not_as_then)

    text, notes = again()
    assert "v = 33.337\n" in text
    assert len(notes) == 1
    assert "rounded" in notes[0]
    assert "machine.maximum_flow" in notes[0]
    text, notes = again(facts=(str(older.with_name("machine.toml")),))
    assert notes == ()
    assert text == older.read_text(encoding="utf-8")
    assert again(answers={"machine.maximum_flow": "15 cm3/h"}) == (text, ())


def test_an_answer_without_its_call_is_rounded_too(older: Path) -> None:
    path = older.with_name("derived.cfg.ledger.json")
    data = json.loads(path.read_text(encoding="utf-8"))
    del data["call"]
    path.write_text(json.dumps(data), encoding="utf-8")
    stored = load_ledger(str(older))
    assert stored.ledger.recipes[0].answers["pace"].said == "33.34 mm/s"
    assert stored.rounded == ("machine.maximum_flow", "slow.pace")
