"""A map that a person keeps is brought up to a newer text without losing a letter of theirs."""

import tomllib
from pathlib import Path

import pytest

from profilesmith.suggest.update_map import GONE
from profilesmith.workflows.suggest import Order, Outcome, suggest, write

BASE = """\
layer height = 0.2
first layer height = 0.25
outer wall speed = 50
inner wall speed = 70
nozzle temperature = 205
bed temperature = 60
"""
KEPT = """\
format = 1

# our own words, by the north bench
[keymap]
name = "ours"   # not "base"

[text]
delimiter = "="

[[binding]]   # measured twice
setting = "layer.height"
key = 'layer height'
unit = "mm"

[[binding]]
setting = "bed.temperature"
key = "plate warmth"
unit = "C"
# [[binding]]
# setting = "inner_wall.speed"
# key = "inner wall speed"
"""


def run(base: str, out: Path, **more: bool) -> Outcome:
    text = out.parent / "base.txt"
    text.write_text(base, encoding="utf-8")
    order = Order((str(text),), out, **more)
    outcome = suggest(order)
    write(order, outcome)
    return outcome


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    path = tmp_path / "ours.toml"
    path.write_text(KEPT, encoding="utf-8")
    return path


def test_what_stood_there_stays_and_what_is_new_is_added(kept: Path) -> None:
    run(BASE, kept)
    text = kept.read_text(encoding="utf-8")
    lines = iter(text.split("\n"))
    assert all(line in lines for line in KEPT.rstrip("\n").split("\n"))  # every line of theirs, in their order
    settings = [one["setting"] for one in tomllib.loads(text)["binding"]]
    assert settings[:2] == ["layer.height", "bed.temperature"]
    assert {"first_layer.height", "outer_wall.speed", "nozzle.temperature"} <= set(settings)


def test_a_choice_of_theirs_is_not_overruled(kept: Path) -> None:
    """They bound the bed to a key that is gone, and left a block for the inner wall lying: neither is proposed anew."""
    run(BASE, kept)
    text = kept.read_text(encoding="utf-8")
    assert text.count('"bed.temperature"') == 1
    assert text.count('"inner_wall.speed"') == 1


def test_what_is_gone_is_marked_once_and_unmarked_when_it_is_back(kept: Path) -> None:
    run(BASE, kept)
    run(BASE, kept)
    text = kept.read_text(encoding="utf-8")
    assert text.count(GONE) == 1
    assert text.split(GONE)[1].split("\n")[1] == 'setting = "bed.temperature"'
    run(BASE + "plate warmth = 60\n", kept)
    assert GONE not in kept.read_text(encoding="utf-8")


def test_a_second_run_changes_nothing(kept: Path) -> None:
    run(BASE, kept)
    once = kept.read_bytes()
    run(BASE, kept)
    assert kept.read_bytes() == once


def test_what_a_newer_text_has_more_is_added(tmp_path: Path) -> None:
    out = tmp_path / "new.toml"
    run(BASE, out)
    before = out.read_text(encoding="utf-8")
    run(BASE + "travel speed = 150\n", out)
    after = out.read_text(encoding="utf-8")
    assert after.startswith(before.rstrip("\n"))
    assert [one["setting"] for one in tomllib.loads(after)["binding"]][-1] == "travel.speed"


def test_overwrite_begins_anew(kept: Path) -> None:
    run(BASE, kept, overwrite=True)
    assert "north bench" not in kept.read_text(encoding="utf-8")


def test_the_words_of_an_existing_map_hold(tmp_path: Path) -> None:
    out = tmp_path / "ours.toml"
    out.write_text(
        'format = 1\n[keymap]\nname = "o"\n[text]\non = "ja"\noff = "nein"\n[[binding]]\nsetting = "layer.height"\nkey = "layer height"\nunit = "mm"\n'
    )
    run(BASE + "support = fitted\nsupport speed = 50\nbrim = left out\nbrim width = 4\nraft = ja\nraft layers = 3\nraft speed = 30\n", out, accept_checks=True)
    bindings = {one["setting"]: one for one in tomllib.loads(out.read_text(encoding="utf-8"))["binding"]}
    assert (bindings["support.on"]["on"], bindings["support.on"]["off"]) == ("fitted", "left out")
    assert "on" not in bindings["raft.on"]
