"""A stored ledger shown again, and edits since then found and named with the rule that they overrule."""

import json
from pathlib import Path

import pytest

from profilesmith.foundation.problem import Refused
from profilesmith.review.render import RENDERERS, render
from profilesmith.workflows.demo import run_demo
from profilesmith.workflows.derive import write
from profilesmith.workflows.rederive.rederive import rederive
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import review_again
from tests.shipped import version


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
    before = [
        (group.title, [(change.setting, change.base, change.derived, change.reasons) for change in group.changes])
        for group in first.groups
    ]
    after = [
        (group.title, [(change.setting, change.base, change.derived, change.reasons) for change in group.changes])
        for group in again.groups
    ]
    assert before == after
    assert form in RENDERERS
    assert "support.density" in render(again, form)


def test_an_edit_is_named_with_the_rule_that_it_overrules(soft: Path) -> None:
    text = soft.read_text(encoding="utf-8")
    assert "feed = 2400" in text
    soft.write_text(
        text.replace("feed = 2400", "feed = 2700").replace("lid_lamp = 60", "lid_lamp = 61"), encoding="utf-8"
    )
    edited = review_again(str(soft)).edited
    wall = next(line for line in edited if line.startswith("outer_wall.speed"))
    assert "40 mm/s → 45 mm/s" in wall
    assert f"flexible-pla {version('flexible-pla')}, rule 1: at most 40 mm/s" in wall
    assert any("lid_lamp 60 → 61" in line for line in edited)


def test_an_edit_that_the_map_does_not_know(soft: Path) -> None:
    number = soft.read_bytes().count(b"\n") + 1
    soft.write_bytes(soft.read_bytes() + b"# a remark\n")
    assert review_again(str(soft)).edited == (f'1 line was put in ({soft}): {number} "# a remark"',)


def edit(soft: Path, *pairs: tuple[str, str]) -> tuple[str, ...]:
    text = soft.read_text(encoding="utf-8")
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    soft.write_text(text, encoding="utf-8")
    return review_again(str(soft)).edited


def test_lines_that_moved_down_are_not_edited(soft: Path) -> None:
    edited = edit(
        soft,
        ("# Heron workshop", "# mine\n# Heron workshop"),
        ("\npad_slabs = 3", "\npad_slabs = 4"),
        ("tags = ", "  tags = "),
    )
    assert list(edited) == [
        f"[foot] pad_slabs 3 → 4 ({soft}:84); to the map it means the same",
        f'1 line was put in ({soft}): 1 "# mine"',
        f'1 line was changed around their values ({soft}): 12 "tags = rigid,everyday,heron"',
    ]


def test_only_a_broken_rule_is_overruled_and_what_follows_says_so(soft: Path) -> None:
    edited = edit(
        soft,
        ("only_past = 1.5", "only_past = 2"),
        ("feed = 2400", "feed = 2700"),
        ("\npair = 215/65", "\npair = 215/60"),
    )
    told = {line.split()[0]: line for line in edited}
    assert "1.5 mm → 2 mm" in told["retraction.minimum_travel"]
    assert (
        f"it meets flexible-pla {version('flexible-pla')}, rule 14: at least 1.5 mm"
        in told["retraction.minimum_travel"]
    )
    assert f"it meets flexible-pla {version('flexible-pla')}, rule 6: 40 °C to 65 °C" in told["bed.temperature"]
    assert f"overrules flexible-pla {version('flexible-pla')}, rule 1: at most 40 mm/s" in told["inner_wall.speed"]
    assert told["inner_wall.speed"].endswith("it is written relative to outer_wall.speed")
    assert not any("210" in line or "first_pair" in line for line in edited)


def test_lines_taken_out_and_more_than_a_few(soft: Path) -> None:
    text = soft.read_text(encoding="utf-8")
    edited = edit(soft, ("lid_lamp = 60\n", ""), ("# Heron workshop", "# 1\n# 2\n# 3\n# 4\n# Heron workshop"))
    assert f'4 lines were put in ({soft}): 1 "# 1", 2 "# 2", 3 "# 3" and 1 more' in edited
    assert f'1 line was taken out ({soft}): {text.splitlines().index("lid_lamp = 60") + 1} "lid_lamp = 60"' in edited
    assert len(edited) == 2


def test_a_ledger_without_the_text_matches_keys_by_name(soft: Path) -> None:
    ledger = soft.with_name("soft.settings.ledger.json")
    data = json.loads(ledger.read_text(encoding="utf-8"))
    del data["made"]
    ledger.write_text(json.dumps(data), encoding="utf-8")
    edited = edit(
        soft,
        ("# Heron workshop", "# mine\n# Heron workshop"),
        ("lid_lamp = 60", "lid_lamp = 61"),
        ("edition = 14\n", "editor = 14\n"),
    )
    assert set(edited) == {
        f"[desk] lid_lamp 60 → 61 ({soft}:181)",
        f"[sheet] editor = 14 was put in ({soft}:8)",
        "[sheet] edition = 14 was taken out",
    }


def test_without_its_map_where_is_not_known(soft: Path) -> None:
    (soft.parent / "keymap.toml").unlink()
    soft.write_bytes(soft.read_bytes() + b"# a remark\n")
    assert review_again(str(soft)).edited == (f"{soft}; where is not known, as its key map cannot be read",)


def test_a_re_derived_file_is_held_against_its_own_text(soft: Path) -> None:
    edit(soft, ("\npad_slabs = 3", "\npad_slabs = 4"), ("lid_lamp = 60", "lid_lamp = 61"))
    again = soft.with_name("again.settings")
    write(rederive([str(soft)], Request((), ""), lambda decision: "").derivation, str(again))
    assert review_again(str(again)).edited == ()
    assert edit(again, ("lid_lamp = 61", "lid_lamp = 62")) == (f"[desk] lid_lamp 61 → 62 ({again}:180)",)


def test_gone_or_damaged(soft: Path) -> None:
    with pytest.raises(Refused, match="no ledger"):
        review_again(str(soft.parent / "base.settings"))
    ledger = soft.with_name("soft.settings.ledger.json")
    whole = ledger.read_text(encoding="utf-8")
    for broken in (
        whole[:200],
        whole.replace('"format": 2', '"format": 9', 1),
        whole.replace('"changed"', '"chnged"'),
        "[]",
    ):
        ledger.write_text(broken, encoding="utf-8")
        with pytest.raises(Refused):
            review_again(str(soft))
