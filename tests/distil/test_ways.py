"""Shares in pairs: a machine on which they were held, one on which they followed; switches that share a key."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from profilesmith.distil.distil import distil
from profilesmith.distil.sample import Sample, world_of
from profilesmith.review.distilled.reasons import way_text
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

Read = Callable[..., Any]
Text = Callable[..., str]


def lines(bind: Text) -> str:
    return bind("infill.speed", "core") + "".join(
        bind(name, key, 'relative_to = "infill.speed"')
        for name, key in (("outer_wall.speed", "rim"), ("first_layer.speed", "sole"), ("top.speed", "lid"))
    )


def sample(machine: str, before: str, after: str, read_text: Read, bindings: str) -> Sample:
    base, tuned = (read_text(bindings, text).profile for text in (before, after))
    return Sample(machine, machine, base, tuned, {})


def text(*numbers: int) -> str:
    return "".join(f"{key} = {number}\n" for key, number in zip(("core", "rim", "sole", "lid"), numbers, strict=True))


def test_one_cap_explains_machines_of_both_ways(read_text: Read, bind: Text) -> None:
    """Cap 40 mm/s on the printing speeds: held on three machines (the share is rewritten), followed on two."""
    bindings = lines(bind)
    pairs = [
        ("held-1", text(80, 25, 20, 40), text(40, 50, 40, 80)),
        ("held-2", text(100, 30, 20, 35), text(40, 75, 50, 88)),
        ("held-3", text(60, 40, 30, 60), text(40, 60, 45, 90)),
        ("free-1", text(80, 50, 25, 40), text(40, 50, 25, 40)),
        ("free-2", text(100, 60, 20, 45), text(40, 60, 20, 45)),
    ]
    found = distil([sample(*pair, read_text, bindings) for pair in pairs], load_vocabulary())
    assert {way.machine: way.kept > way.followed for way in found.ways} == {
        "held-1": True,
        "held-2": True,
        "held-3": True,
        "free-1": False,
        "free-2": False,
    }
    assert all("of 3" in way_text(way) for way in found.ways)
    assert [(item.law.operation, item.exceptions) for item in found.findings] == [("cap", ())]
    assert not found.tweaks
    assert not found.no_rule


def test_of_switches_that_share_a_key_only_what_went_on_is_learnt(read_text: Read, bind: Text) -> None:
    bindings = bind("brim.on", "under", 'on = "2"\noff = "0"') + bind("raft.on", "under", 'on = "3"\noff = "0"')
    pair = sample("bench", "under = 2\n", "under = 3\n", read_text, bindings)
    seen = world_of([pair], load_vocabulary()).seen
    assert set(seen) == {"raft.on"}
    off = sample("bench", "under = 2\n", "under = 0\n", read_text, bindings)
    assert "brim.on" in world_of([off], load_vocabulary()).seen
