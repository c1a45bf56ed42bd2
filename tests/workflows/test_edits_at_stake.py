"""Writing over a derived file never destroys a hand edit in silence."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]
MAP = 'format = 1\n[keymap]\nname = "bench"\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n'
RECIPE = (
    'format = 1\n[recipe]\nname = "slow"\nversion = "1.0.0"\n[[rule]]\n'
    'setting = "outer_wall.speed"\ncap = "{cap} mm/s"\nwhy = "test"\n'
)
ORDER = (
    'format = 1\n[order]\nname = "club"\nkeymap = "map.toml"\nrecipes = ["slow.toml"]\n'
    'out = "out"\n[[job]]\nbase = "bases/*.cfg"\n'
)
DERIVE = ("derive", "bases/0.cfg", "--keymap", "map.toml", "--recipe", "slow.toml", "-o")


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("map.toml").write_text(MAP)
    Path("slow.toml").write_text(RECIPE.format(cap=40))
    Path("order.toml").write_text(ORDER)
    Path("bases").mkdir()
    for number in range(3):
        Path("bases", f"{number}.cfg").write_text(f"rim = {50 + number}\nlamp = {number}\n")


def edit(name: str, old: str, new: str) -> str:
    text = Path(name).read_text()
    assert old in text
    Path(name).write_text(text.replace(old, new))
    return Path(name).read_text()


def test_derive_keeps_an_edited_file_and_names_the_edits(program: Program) -> None:
    assert program(*DERIVE, "soft.cfg").code == 0
    edited = edit("soft.cfg", "rim = 40", "rim = 35")
    edit("slow.toml", "40 mm/s", "30 mm/s")
    ran = program(*DERIVE, "soft.cfg", "--overwrite")
    assert (ran.code, ran.codes) == (2, ("hand-edits",))
    assert "outer_wall.speed 40 mm/s → 35 mm/s" in ran.err.replace("\n", " ")
    assert "rederive soft.cfg" in ran.err
    assert Path("soft.cfg").read_text() == edited


def test_edits_are_discarded_on_purpose_and_named(program: Program) -> None:
    assert program(*DERIVE, "soft.cfg").code == 0
    edit("soft.cfg", "rim = 40", "rim = 35")
    ran = program(*DERIVE, "soft.cfg", "--overwrite", "--discard-edits")
    assert ran.code == 0
    assert "discarded: soft.cfg: outer_wall.speed" in ran.err
    assert Path("soft.cfg").read_text() == "rim = 40\nlamp = 0\n"
    assert program(*DERIVE, "soft.cfg", "--discard-edits").codes == ("exists",)


def test_unedited_files_are_replaced_as_ever(program: Program) -> None:
    assert program(*DERIVE, "soft.cfg").code == 0
    edit("slow.toml", "40 mm/s", "30 mm/s")
    ran = program(*DERIVE, "soft.cfg", "--overwrite")
    assert ran.code == 0
    assert "discarded" not in ran.err
    Path("plain.cfg").write_text("no ledger speaks of it\n")
    assert program(*DERIVE, "plain.cfg", "--overwrite").code == 0


def test_an_edit_that_the_new_text_has_too_is_not_lost(program: Program) -> None:
    assert program(*DERIVE, "soft.cfg").code == 0
    edit("soft.cfg", "rim = 40", "rim = 30")
    edit("slow.toml", "40 mm/s", "30 mm/s")
    assert program(*DERIVE, "soft.cfg", "--overwrite").code == 0


def test_edits_that_rederive_carried_over_are_edits_still(program: Program) -> None:
    assert program(*DERIVE, "soft.cfg").code == 0
    edit("soft.cfg", "rim = 40", "rim = 35")
    assert program("rederive", "soft.cfg", "-o", "next.cfg").code == 0
    assert Path("next.cfg").read_text().startswith("rim = 35")
    ran = program(*DERIVE, "next.cfg", "--overwrite")
    assert ran.codes == ("hand-edits",)
    assert "Kept: outer_wall.speed" in ran.err.replace("\n", " ")


def test_rederive_does_not_replace_another_edited_file(program: Program) -> None:
    assert program(*DERIVE, "soft.cfg").code == program(*DERIVE, "other.cfg").code == 0
    edited = edit("other.cfg", "lamp = 0", "lamp = 7")
    ran = program("rederive", "soft.cfg", "--overwrite", "-o", "other.cfg")
    assert ran.codes == ("hand-edits",)
    assert "lamp 0 → 7" in ran.err
    assert Path("other.cfg").read_text() == edited


def test_a_ledger_that_cannot_be_read_speaks_for_nothing(program: Program) -> None:
    assert program(*DERIVE, "soft.cfg").code == 0
    Path("soft.cfg.ledger.json").write_text("[")
    edit("soft.cfg", "lamp = 0", "lamp = 7")
    ran = program(*DERIVE, "soft.cfg", "--overwrite")
    assert ran.codes == ("hand-edits",)
    assert "is not known" in ran.err


def test_a_file_that_was_derived_together_with_others(program: Program) -> None:
    both = ("derive", "bases/0.cfg", "bases/1.cfg", "--keymap", "map.toml", "--recipe", "slow.toml", "-o", "machine/")
    Path("bases/0.cfg").write_text("rim = 50\n")
    Path("bases/1.cfg").write_text("lid = 1\n")
    assert program(*both).code == 0
    edit("machine/1.cfg", "lid = 1", "lid = 2")
    Path("bases/1.cfg").write_text("rim = 51\nlid = 1\n")
    ran = program(
        "derive", "bases/1.cfg", "--keymap", "map.toml", "--recipe", "slow.toml", "-o", "machine/1.cfg", "--overwrite"
    )
    assert ran.codes == ("hand-edits",)
    assert "lid 1 → 2" in ran.err


def test_batch_keeps_edited_files_and_writes_the_rest(program: Program) -> None:
    assert program("batch", "order.toml").code == 0
    edited = edit("out/1.cfg", "lamp = 1", "lamp = 9")
    edit("slow.toml", "40 mm/s", "30 mm/s")
    ran = program("batch", "order.toml", "--overwrite")
    assert ran.code == 2
    assert "rederive out/1.cfg" in ran.out
    assert Path("out/1.cfg").read_text() == edited
    assert [Path(f"out/{number}.cfg").read_text()[:8] for number in (0, 2)] == ["rim = 30"] * 2
    ran = program("batch", "order.toml", "--overwrite", "--discard-edits")
    assert ran.code == 0
    assert "discarded: out/1.cfg: lamp 1 → 9" in ran.out
    assert Path("out/1.cfg").read_text() == "rim = 30\nlamp = 1\n"
