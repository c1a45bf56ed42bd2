"""Compare, for values that are written as shares: the share, and what it comes to."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

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
