"""A map that a person keeps is brought up to a newer text without losing a letter of theirs."""

import tomllib
from pathlib import Path

import pytest

from profilesmith.engine.suggest import SuggestedMap, answered
from profilesmith.reports.key_map import suggestion_text
from profilesmith.suggest.update_map import GONE
from profilesmith.workflows.suggest import MapOrder, suggest, write

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


def run(base: str, out: Path, **more: bool) -> SuggestedMap:
    text = out.parent / "base.txt"
    text.write_text(base, encoding="utf-8")
    order = MapOrder((str(text),), out, **more)
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
        'format = 1\n[keymap]\nname = "o"\n[text]\non = "ja"\noff = "nein"\n[[binding]]\n'
        'setting = "layer.height"\nkey = "layer height"\nunit = "mm"\n'
    )
    run(
        BASE
        + (
            "support = fitted\nsupport speed = 50\nbrim = left out\nbrim width = 4\nraft = ja\n"
            "raft layers = 3\nraft speed = 30\n"
        ),
        out,
        accept_checks=True,
    )
    bindings = {one["setting"]: one for one in tomllib.loads(out.read_text(encoding="utf-8"))["binding"]}
    assert (bindings["support.on"]["on"], bindings["support.on"]["off"]) == ("fitted", "left out")
    assert "on" not in bindings["raft.on"]


def test_a_rejected_key_stays_away(tmp_path: Path) -> None:
    """Its block deleted and the key named in not_bound: no later run proposes it, for that setting or for another."""
    out = tmp_path / "new.toml"
    run(BASE + "[Pace]\nPushPace = 30\n", out)
    text = out.read_text(encoding="utf-8")
    assert "not_bound = []" in text
    assert "PushPace" in text
    head, _, tail = text.partition('key = "PushPace"')
    start = head.rindex("\n\n") + 2
    left = (text[:start] + tail.partition("\n\n")[2]).replace("not_bound = []", 'not_bound = ["PushPace"]')
    out.write_text(left, encoding="utf-8")
    outcome = run(BASE + "[Pace]\nPushPace = 30\n", out)
    assert out.read_text(encoding="utf-8") == left
    assert outcome.suggestion.left_alone == ("[Pace] PushPace",)
    assert not [item for item in outcome.suggestion.proposals if item.key == "PushPace"]
    assert "[Pace] PushPace" not in outcome.suggestion.leftover


def test_one_of_two_equal_keys_may_be_left_alone(kept: Path) -> None:
    kept.write_text(KEPT.replace("[keymap]", '[keymap]\nnot_bound = ["[Spool] travel speed"]'), encoding="utf-8")
    outcome = run(BASE + "[Spool]\ntravel speed = 150\n[Way]\ntravel speed = 160\n", kept)
    assert [item.section for item in outcome.suggestion.proposals if item.key == "travel speed"] == ["Way"]


def test_the_screen_shows_only_what_the_map_does_not_say(kept: Path) -> None:
    outcome = run(BASE, kept)
    shown = suggestion_text(outcome, str(kept), None, False)
    assert "New, and sure" in shown
    assert "In the map already: 2 bindings" in shown
    assert 'Waiting in it behind "# ": 1\n  inner_wall.speed' in shown
    assert "layer height = 0.2" not in shown.partition("first_layer.height")[0]
    assert not {"layer.height", "bed.temperature"} & {item.setting for item in outcome.suggestion.proposals}
    assert not {"layer.height", "bed.temperature"} & {*outcome.suggestion.missing}


def test_a_waiting_block_that_a_person_takes_is_made_active_in_its_place(kept: Path) -> None:
    order = MapOrder((str(kept.parent / "base.txt"),), kept)
    (kept.parent / "base.txt").write_text(BASE, encoding="utf-8")
    outcome = answered(suggest(order), {"inner_wall.speed": True})
    update = write(order, outcome)
    assert update is not None
    assert update.accepted == ("inner_wall.speed",)
    text = kept.read_text(encoding="utf-8")
    assert text.count('key = "inner wall speed"') == 1
    assert tomllib.loads(text)["binding"][2]["setting"] == "inner_wall.speed"
