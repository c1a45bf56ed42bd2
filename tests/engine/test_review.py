"""Review of bytes: the sentences are those of the command, whatever a hand did, with no file at hand."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from profilesmith.engine.review import review
from profilesmith.engine.source import Source
from profilesmith.foundation.problem import Refused
from profilesmith.library.find import shipped
from profilesmith.review.render import render
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import review_again

DEMO = shipped() / "demo"


@pytest.fixture
def soft(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A derived text with its ledger beside it."""
    for name in ("base.settings", "keymap.toml", "spool.toml"):
        shutil.copy(DEMO / name, tmp_path)
    monkeypatch.chdir(tmp_path)
    answers = {"machine.drive": "remote"}
    request = Request(("base.settings",), "keymap.toml", ("flexible-pla", "part-soft"), ("spool.toml",), answers)
    write(derive(request), "soft.settings")
    return Path("soft.settings")


def of(path: Path) -> Source:
    return Source(str(path), path.read_bytes())


def both(soft: Path) -> tuple[tuple[str, ...], tuple[str, ...]]:
    again = review(of(Path("soft.settings.ledger.json")), [of(soft)], of(Path("keymap.toml")))
    command = review_again("soft.settings")
    assert render(again.review, "page") == render(command.review, "page")
    return again.edited, command.edited


def test_a_text_as_it_was_written(soft: Path) -> None:
    assert both(soft) == ((), ())


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("share = 5", "share = 8"),  # against a rule
        ("feed = 2400", "feed = 2000"),  # within its bound
        ("lid_lamp = 60", "lid_lamp = 45"),  # a key that the map does not know
        ("[desk]", "[desk]\nnew_key = 1"),
    ],
)
def test_what_a_hand_did_is_told_as_by_the_command(soft: Path, old: str, new: str) -> None:
    text = soft.read_text(encoding="utf-8")
    assert old in text
    soft.write_text(text.replace(old, new, 1), encoding="utf-8")
    mine, theirs = both(soft)
    assert mine == theirs
    assert mine


def test_without_the_map_only_that_is_told(soft: Path) -> None:
    soft.write_text("a = 1\n", encoding="utf-8")
    again = review(of(Path("soft.settings.ledger.json")), [of(soft)])
    assert again.edited == ("soft.settings; where is not known without its key map",)


@pytest.mark.parametrize(
    ("raw", "code"), [(b"\xff", "not-utf8"), (b"{}", "no-ledger"), (b"[1", "not-json"), (b"", "not-json")]
)
def test_what_is_no_ledger_is_refused(raw: bytes, code: str) -> None:
    with pytest.raises(Refused) as refused:
        review(Source("l.json", raw), [Source("a", b"")])
    assert [item.code for item in refused.value.problems] == [code]


def test_a_ledger_of_other_texts_is_refused(soft: Path) -> None:
    ledger = of(Path("soft.settings.ledger.json"))
    assert json.loads(ledger.raw)["outputs"]
    with pytest.raises(Refused, match="of 1 texts, and 2"):
        review(ledger, [of(soft), of(soft)])
