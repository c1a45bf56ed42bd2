"""Files that somebody lays on the page after a print, in any order and under other names; what is missing is named."""

from __future__ import annotations

import json
from typing import Any

import pytest

from profilesmith.browser import door
from profilesmith.browser.gather import gather
from profilesmith.library.find import shipped

DEMO = shipped() / "demo"
BASE = (DEMO / "base.settings").read_bytes()
MAP = (DEMO / "keymap.toml").read_bytes()


class Table:
    """A desk with what ships, and the files of a derivation that was made on it."""

    def __init__(self) -> None:
        self.desk = door.Desk()
        shelf = gather(None)._asdict()
        self.call("begin", [], **{kind: shelf[kind] for kind in ("recipes", "maps", "facts", "troubles")})
        self.call("read", [BASE], names=["base.settings"])
        self.call("use", [MAP], name="own.toml")
        asked = {"recipes": ["flexible-pla"], "facts": [], "answers": {}, "follow": False, "shares": ""}
        self.call("derive", [], **asked)
        told, files = self.call("take", [], name="soft.settings")
        self.files = dict(zip(told["names"], files, strict=True))
        self.soft, self.ledger = self.files["soft.settings"], self.files["soft.settings.ledger.json"]

    def call(self, name: str, raws: list[bytes], /, **asked: Any) -> tuple[dict[str, Any], list[bytes]]:
        text, out = door.call(name, json.dumps(asked), raws, self.desk)
        return json.loads(text), out

    def lay(self, **files: bytes) -> dict[str, Any]:
        """Names are written with _ for a point."""
        named = {name.replace("__", "-").replace("_", "."): raw for name, raw in files.items()}
        return self.call("open", list(named.values()), names=list(named))[0]

    def refused(self, name: str, /, **asked: Any) -> list[str]:
        return [item["code"] for item in self.call(name, [], **asked)[0].get("refused", ())]


@pytest.fixture(scope="module")
def table() -> Table:
    return Table()


def test_a_map_of_ones_own_is_taken_along(table: Table) -> None:
    assert table.files["own.toml"] == MAP


def test_what_is_missing_is_named_one_after_the_other(table: Table) -> None:
    told = table.lay(soft_settings_ledger_json=table.ledger)
    assert told["missing"] == ["soft.settings"]
    told = table.lay(soft_settings_ledger_json=table.ledger, soft_settings=table.soft)
    assert (told["missing"], told["map"], told["bases"]) == ([], "own.toml", ["base.settings"])
    assert set(table.refused("advise", seen={"stringing": "poor"})) == {"no-map", "no-base"}
    told = table.lay(soft_settings_ledger_json=table.ledger, soft_settings=table.soft, own_toml=MAP, base_settings=BASE)
    assert (told["missing"], told["map"], told["bases"], told["edited"]) == ([], "", [], [])
    assert table.refused("advise", seen={"stringing": "poor"}) == []


def test_another_name_and_an_edit_do_not_hide_the_derived_text(table: Table) -> None:
    """As a browser saves it a second time; the base is the base, though it comes first."""
    edited = table.soft.replace(b"lid_lamp = 60", b"lid_lamp = 61")
    assert edited != table.soft
    told = table.lay(base_settings=BASE, soft__1_settings=edited, own_toml=MAP, soft_settings_ledger_json=table.ledger)
    assert told["name"] == "soft-1.settings"
    assert any("lid_lamp" in text for text in told["edited"])
    assert told["bases"] == []


def test_a_base_that_equals_the_derived_text_is_still_the_base(table: Table) -> None:
    told = table.lay(base_settings=BASE, soft_settings=BASE, own_toml=MAP, soft_settings_ledger_json=table.ledger)
    assert told["missing"] == []
    assert told["edited"], "somebody put the old values back"


@pytest.mark.parametrize("names", [["a.settings"], ["a.ledger.json", "b.ledger.json"]])
def test_no_ledger_and_several_are_refused(table: Table, names: list[str]) -> None:
    told, _ = table.call("open", [table.ledger] * len(names), names=names)
    assert [item["code"] for item in told["refused"]] == ["no-ledger"]


@pytest.mark.parametrize("raw", [b"\xff\xfe", b"{}", b"[", b'{"kind": "profilesmith ledger", "format": 2}'])
def test_a_damaged_ledger_is_told(table: Table, raw: bytes) -> None:
    assert "refused" in table.lay(soft_settings_ledger_json=raw)


def test_a_mend_is_taken_back(table: Table) -> None:
    """What is mended and taken back again is the text as it was."""
    table.lay(soft_settings_ledger_json=table.ledger, soft_settings=table.soft, own_toml=MAP, base_settings=BASE)
    assert table.refused("undo") == ["no-mend"]
    told, _ = table.call("advise", [], seen={"stringing": "poor"}, date="2030-01-31")
    assert told["writes"]
    assert told["changes"][0]["moves"]
    _, [mended, ledger, _] = table.call("take_mended", [], name="soft-2.settings")
    assert mended != table.soft
    told = table.lay(soft__2_settings=mended, soft__2_settings_ledger_json=ledger, own_toml=MAP, base_settings=BASE)
    assert (told["road"], told["edited"], told["proposed"]) == (1, [], "soft-3.settings")
    table.call("undo", [], last="worse", date="2030-02-01")
    assert table.call("take_mended", [], name="soft-3.settings")[1][0] == table.soft


def test_a_motion_file_without_a_ledger_is_read_too() -> None:
    table = Table()
    raw = (DEMO / "soft.motion").read_bytes()
    pieces = [raw[at : at + 4096] for at in range(0, len(raw), 4096)]
    whole, [one] = table.call("motion", [raw], name="soft.motion", words="")
    _, [many] = table.call("motion", pieces, name="soft.motion", words="")
    assert one == many
    assert whole["headline"]
    assert table.refused("motion", name="soft.motion", words="") == ["empty"]
    assert table.refused("motion", name="soft.motion", words="x = ") != []


def test_troubles_have_names_in_three_languages(table: Table) -> None:
    told, _ = table.call("troubles", [])
    stringing = next(item for item in told["troubles"] if item["name"] == "stringing")
    assert {"en", "de", "fr"} <= set(stringing["words"])
    assert "Fäden" in stringing["words"]["de"]
    names, _ = table.call("names", [], language="de")
    assert names["names"]["bottom.layers"] == "Bodenschichten"
