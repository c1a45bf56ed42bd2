"""--record: the check stands in the ledger by the file's hash, and the ledger is otherwise as it was."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pytest

from profilesmith.foundation.problem import Refused
from profilesmith.ledger.read import Stored, read_ledger
from profilesmith.ledger.write import file_text
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.demo import run_demo
from profilesmith.workflows.motion.check import MotionOrder, check
from profilesmith.workflows.motion.suggest import suggest
from profilesmith.workflows.printed import printed_from_derived
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import review_again


def test_a_check_is_noted_once(tmp_path: Path) -> None:
    folder = tmp_path / "heron"
    run_demo(str(folder))
    ledger = folder / "soft.settings.ledger.json"
    before = read_ledger(ledger.read_text(encoding="utf-8"), "ledger", load_vocabulary())
    order = MotionOrder(str(folder / "soft.settings"), str(folder / "words.toml"))
    for _ in range(2):
        check(str(folder / "soft.motion"), order, record=True)
    text = ledger.read_text(encoding="utf-8")
    after = read_ledger(text, "ledger", load_vocabulary())
    assert isinstance(before, Stored)
    assert isinstance(after, Stored)
    assert after.ledger == before.ledger
    data = json.loads(text)
    (note,) = data.pop("motion")
    assert data == json.loads(file_text(before.file))
    assert note["sha256"] == hashlib.sha256((folder / "soft.motion").read_bytes()).hexdigest()
    assert note["found"] == ["first_layer.nozzle_temperature", "nozzle.temperature"]
    assert note["passed"] > 20
    assert review_again(str(folder / "soft.settings")).edited == ()


def test_without_a_ledger_there_is_nothing_to_note_it_in(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="no ledger to note it in"):
        check(str(tmp_path / "any.motion"), MotionOrder(), record=True)


def test_evidence_says_that_the_printed_file_was_checked(tmp_path: Path) -> None:
    folder = tmp_path / "heron"
    run_demo(str(folder))
    request, derived = Request((), ""), str(folder / "soft.settings")
    assert printed_from_derived(derived, request).motion == ""
    check(str(folder / "soft.motion"), MotionOrder(derived, str(folder / "words.toml")), record=True)
    assert printed_from_derived(derived, request).motion == "found"


@pytest.mark.parametrize("name", ["words.toml", "base.settings"])
def test_another_file_is_no_motion_file(name: str, tmp_path: Path) -> None:
    run_demo(str(tmp_path / "heron"))
    with pytest.raises(Refused, match="no motion file"):
        check(str(tmp_path / "heron" / name), MotionOrder())
    with pytest.raises(Refused, match="no motion file"):
        suggest(str(tmp_path / "heron" / name))


@pytest.mark.parametrize(
    ("raw", "kind"),
    [
        (b"\xff\xd8\xff\xe0", "a picture"),
        (b"PK\x03\x04", "a zip archive"),
        (b"%PDF-1.7", "a PDF document"),
        (b"\0", "a binary"),
    ],
)
def test_what_is_no_text_is_named_and_not_shown(raw: bytes, kind: str, tmp_path: Path) -> None:
    file = tmp_path / "a.motion"
    file.write_bytes(raw + b"\nG1 X1 Y1 E1\n")
    for order in (lambda: check(str(file), MotionOrder()), lambda: suggest(str(file))):
        with pytest.raises(Refused, match=f"no motion file: it seems to be {kind}"):
            order()
