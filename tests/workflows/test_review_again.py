"""A stored ledger shown again, and edits since then found and named with the rule that they overrule."""

from pathlib import Path

import pytest

from profilesmith.foundation.problem import Refused
from profilesmith.review.render import RENDERERS, render
from profilesmith.workflows.demo import run_demo
from profilesmith.workflows.review import review_again


@pytest.fixture
def soft(tmp_path: Path) -> Path:
    run_demo(str(tmp_path / "heron"))
    return tmp_path / "heron" / "soft.settings"


def test_untouched(soft: Path) -> None:
    again = review_again(str(soft))
    assert again.edited == ()
    assert "as it was written" in again.review.notes[0]


@pytest.mark.parametrize("form", ["terminal", "markdown", "page"])
def test_shows_the_same_changes_as_before(soft: Path, form: str, tmp_path: Path) -> None:
    first = run_demo(str(tmp_path / "again")).review
    again = review_again(str(soft)).review
    before = [(group.title, [(change.setting, change.base, change.derived, change.reasons) for change in group.changes]) for group in first.groups]
    after = [(group.title, [(change.setting, change.base, change.derived, change.reasons) for change in group.changes]) for group in again.groups]
    assert before == after
    assert form in RENDERERS
    assert "support.density" in render(again, form)


def test_an_edit_is_named_with_the_rule_that_it_overrules(soft: Path) -> None:
    text = soft.read_text(encoding="utf-8")
    assert "feed = 2400" in text
    soft.write_text(text.replace("feed = 2400", "feed = 2700").replace("lid_lamp = 60", "lid_lamp = 61"), encoding="utf-8")
    edited = review_again(str(soft)).edited
    wall = next(line for line in edited if line.startswith("outer_wall.speed"))
    assert "40 mm/s → 45 mm/s" in wall
    assert "flexible-pla 1.0.0, rule 1: at most 40 mm/s" in wall
    assert any("lid_lamp = 61" in line for line in edited)


def test_an_edit_that_the_map_does_not_know(soft: Path) -> None:
    soft.write_bytes(soft.read_bytes() + b"# a remark\n")
    assert len(review_again(str(soft)).edited) == 1


def test_gone_or_damaged(soft: Path) -> None:
    with pytest.raises(Refused, match="no ledger"):
        review_again(str(soft.parent / "base.settings"))
    ledger = soft.with_name("soft.settings.ledger.json")
    whole = ledger.read_text(encoding="utf-8")
    for broken in (whole[:200], whole.replace('"format": 1', '"format": 9', 1), whole.replace('"changed"', '"chnged"'), "[]"):
        ledger.write_text(broken, encoding="utf-8")
        with pytest.raises(Refused):
            review_again(str(soft))
