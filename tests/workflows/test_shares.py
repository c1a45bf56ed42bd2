"""Compare, for values that are written as shares: the share, and what it comes to."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]


def test_compare_shows_shares_and_what_they_come_to(program: Program, tmp_path: Path) -> None:
    names = {"map": tmp_path / "map.toml", "old": tmp_path / "old.cfg", "new": tmp_path / "new.cfg"}
    names["map"].write_text(
        'format = 1\n[keymap]\nname = "x"\n'
        '[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n'
        '[[binding]]\nsetting = "inner_wall.speed"\nkey = "inner"\nunit = "%"\nrelative_to = "outer_wall.speed"\n'
        '[[binding]]\nsetting = "infill.speed"\nkey = "fill"\nunit = "%"\nrelative_to = "outer_wall.speed"\n'
    )
    names["old"].write_text("rim = 40\ninner = 100\nfill = 50\n")
    names["new"].write_text("rim = 20\ninner = 120\nfill = 100\n")
    shown = " ".join(program("compare", names["old"], names["new"], "--keymap", names["map"], "--full").out.split())
    assert "40 mm/s (100 % of outer_wall.speed)" in shown
    assert "24 mm/s (120 % of outer_wall.speed)" in shown
    assert "infill.speed comes to the same: 50 % of outer_wall.speed, now 100 % of outer_wall.speed." in shown


RECIPE = (
    'format = 1\n[recipe]\nname = "slow"\nversion = "1.0.0"\n'
    '[[rule]]\nsetting = "outer_wall.speed"\ncap = "20 mm/s"\nwhy = "test"\n'
)
MAP = (
    'format = 1\n[keymap]\nname = "x"\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n'
    '[[binding]]\nsetting = "inner_wall.speed"\nkey = "inner"\nunit = "%"\nrelative_to = "outer_wall.speed"\n'
)


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for name, text in (("map.toml", MAP), ("slow.toml", RECIPE), ("old.cfg", "rim = 40\ninner = 100\n")):
        Path(name).write_text(text)


@pytest.mark.usefixtures("bench")
def test_explain_says_what_becomes_of_a_share_in_either_way(program: Program) -> None:
    order = ("explain", "inner_wall.speed", "old.cfg", "--keymap", "map.toml", "--recipe", "slow.toml")
    kept, followed = program(*order).out, program(*order, "--shares", "follow").out
    assert "its share was rewritten" in kept
    assert "result: 40 mm/s, as it was" in kept
    assert "its text was not touched" in followed
    assert "result: 40 mm/s → 20 mm/s" in followed


@pytest.mark.usefixtures("bench")
@pytest.mark.parametrize(("line", "inner"), [("", 200), ('shares = "keep"', 200), ('shares = "follow"', 100)])
def test_an_order_says_what_becomes_of_shares(program: Program, line: str, inner: int) -> None:
    head = f'format = 1\n[order]\nname = "club"\nkeymap = "map.toml"\nrecipes = ["slow.toml"]\nout = "out"\n{line}\n'
    Path("order.toml").write_text(f'{head}[[job]]\nbase = "old.cfg"\nfile = "soft.cfg"\n')
    ran = program("batch", "order.toml")
    assert ran.code == 0, ran.err
    made = Path("out", "soft.cfg")
    assert made.read_text() == f"rim = 20\ninner = {inner}\n"


@pytest.mark.usefixtures("bench")
def test_an_order_s_way_is_one_that_there_is(program: Program) -> None:
    head = 'format = 1\n[order]\nname = "club"\nkeymap = "map.toml"\nrecipes = ["slow.toml"]\nshares = "perhaps"\n'
    Path("order.toml").write_text(f'{head}[[job]]\nbase = "old.cfg"\nfile = "soft.cfg"\n')
    ran = program("batch", "order.toml")
    assert ran.code == 2
    assert 'Write "keep" or "follow".' in ran.err
