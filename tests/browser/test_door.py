"""The page's door: what it hands out is what the command line writes, byte for byte, and strangers' text stays text."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

from profilesmith.browser import door
from profilesmith.browser.gather import gather
from profilesmith.foundation.problem import Refused
from profilesmith.library.find import shipped
from tests.browser.as_page import (
    Job,
    by_hand,
    calls,
    derived_files,
    files_of,
    jobs,
    later_calls,
    later_of_command_line,
    of_command_line,
)

Call = Callable[..., tuple[dict[str, Any], list[bytes]]]


@pytest.fixture
def desk() -> Call:
    """A fresh desk with what ships: ``desk("read", {...}, [bytes])``."""
    fresh = door.Desk()

    def call(
        name: str, asked: dict[str, Any] | None = None, raws: Sequence[bytes] = ()
    ) -> tuple[dict[str, Any], list[bytes]]:
        text, out = door.call(name, json.dumps(asked or {}), raws, fresh)
        return json.loads(text), out

    shelf = gather(None)
    call("begin", {"recipes": shelf.recipes, "maps": shelf.maps, "facts": shelf.facts, "troubles": shelf.troubles})
    return call


DEMO = shipped() / "demo"
LATER = {job.name for job in jobs()[::4]} | {"several-bases", "follow-literals", "share-of-a-key", "per-tool-lists"}


def test_the_map_that_knows_most_comes_first(desk: Call) -> None:
    read, _ = desk("read", {"names": ["base.settings"]}, [(DEMO / "base.settings").read_bytes()])
    assert read["fits"][0]["word"] == "keymap.toml"
    assert read["fits"][0]["known"] == read["fits"][0]["of"]
    assert read["texts"][0]["settings"] > 100


def test_a_text_that_is_none_is_refused_in_sentences(desk: Call) -> None:
    refused, _ = desk("read", {"names": ["photo.jpg"]}, [b"\x00\x01\x02"])
    assert [item["code"] for item in refused["refused"]] == ["no-settings"]
    assert refused["refused"][0]["hint"]


def test_a_text_too_large_is_refused(desk: Call) -> None:
    refused, _ = desk("read", {"names": ["a"]}, [b"a = 1\n" * 1_000_000])
    assert [item["code"] for item in refused["refused"]] == ["too-large"]


def test_proposals_are_answered_one_by_one(desk: Call) -> None:
    desk("read", {"names": ["base.settings"]}, [(DEMO / "base.settings").read_bytes()])
    found, _ = desk("suggest")
    assert found["check"]
    sure, _ = desk("answer", {"answers": {}})
    one = next(item for item in found["check"] if item["setting"] == "wall.count")  # a share would wait for its whole
    assert any(line["line"] == one["line"] for line in one["around"])
    more, [key_map] = desk("answer", {"answers": {one["setting"]: True}})
    assert len(more["values"]) == len(sure["values"]) + 1
    assert one["setting"] in {item["setting"] for item in more["values"]}
    again, _ = desk("use", {"name": "kept.toml"}, [key_map])
    assert again["values"] == more["values"], "a map that was saved reads the same"


def test_what_recipes_ask_is_data(desk: Call) -> None:
    asked, _ = desk("ask", {"recipes": ["flexible-pla", "long-tube"]})
    names = {item["name"]: item for item in asked["questions"]}
    assert names["machine.drive"]["values"] == ["direct", "remote"]
    assert not names["machine.drive"]["default"]
    window = next(item for item in asked["questions"] if item["kind"] == "window")
    assert window["unit"] == "°C"
    assert window["reasons"]
    assert "--" not in json.dumps(asked), "no word of a command line"


def test_a_wrong_answer_is_told_beside_its_field(desk: Call) -> None:
    answers = {"spool.maximum_flow": "fast", "machine.drive": "direct"}
    checked, _ = desk("check", {"recipes": ["flexible-pla"], "answers": answers})
    assert checked["wrong"]["machine.drive"] == ""
    assert "fast" in checked["wrong"]["spool.maximum_flow"]


def test_somebody_without_a_text_gets_a_checklist_with_their_answers(desk: Call) -> None:
    plain, [before] = desk("sheet", {"recipes": ["flexible-pla"], "answers": {}})
    _, [after] = desk("sheet", {"recipes": ["flexible-pla"], "answers": {"spool.nozzle_window": "205 °C to 216 °C"}})
    assert plain["names"] == ["flexible-pla-checklist.html"]
    assert before != after
    assert "216" in after.decode()


def test_conflicts_write_nothing_and_are_told(desk: Call) -> None:
    desk("read", {"names": ["base.settings"]}, [(DEMO / "base.settings").read_bytes()])
    desk("use", {"word": "keymap.toml"})
    asked = {"recipes": ["part-soft", "part-sandable"], "facts": [], "answers": {}, "follow": False, "shares": ""}
    made, _ = desk("derive", asked)
    assert made["conflicts"]
    assert not made["writes"]
    taken, _ = desk("take", {"name": "soft.settings"})
    assert "soft.settings" not in taken["names"]


@pytest.mark.parametrize("job", jobs(), ids=lambda job: job.name)
def test_the_same_bytes_as_the_command_line(job: Job, tmp_path: Path) -> None:
    """Derived texts, ledger and reports of every case; then, of the derived texts edited since, the review, what mend
    advises, and the mended texts with their ledger and review.
    """
    try:
        wanted = of_command_line(job, tmp_path)
    except Refused as refused:
        wanted = {problem.code: b"" for problem in refused.problems}
    taken = files_of(*by_hand(calls(job)))
    assert taken == wanted
    if job.outputs[0] not in taken or job.name not in LATER:  # tests.browser.same_bytes does it with all of them
        return
    derived = derived_files(job, taken)
    later = later_of_command_line(job, tmp_path, derived)
    assert [files_of(*by_hand(asked), asked[-1][0]) for asked in later_calls(job, derived)][: len(later)] == later


def test_a_text_of_several_tools_asks_which_carries_the_spool(desk: Call) -> None:
    """The question has a way for each tool and one for all; an answer changes that tool alone."""
    text = b"rim speed = 80\nnozzle temperature = 230/225\nlayer height = 0.2\n"
    key_map = b"""format = 1
[keymap]
name = "two"
[[binding]]
setting = "nozzle.temperature"
key = "nozzle temperature"
tools = true
list = "/"
"""
    desk("read", {"names": ["two.cfg"]}, [text])
    desk("use", {"name": "two.toml"}, [key_map])
    asked = {"recipes": ["flexible-pla"], "facts": [], "answers": {}, "follow": False, "shares": ""}
    made, _ = desk("derive", asked)
    (choice,) = [item for item in made["choices"] if item["name"] == "tool"]
    assert choice["ways"] == ["", "1", "2"]
    assert choice["about"] == ["nozzle.temperature"]
    second, _ = desk("derive", {**asked, "answers": {"spool.tool": "2"}})
    assert [item["name"] for item in second["choices"]] == ["tool"]  # it can be taken back
