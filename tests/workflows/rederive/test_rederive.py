"""Re-deriving from files to files: hand edits kept, conflicts told, chains of ledgers, older ledgers, which are stale.

Outside check: the order of versions is the example of Semantic Versioning 2.0.0, item 11; ledgers against jsonschema.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from profilesmith.foundation.problem import Refused
from profilesmith.ledger import Decision
from profilesmith.ledger.file import ledger_schema
from profilesmith.ledger.not_as_then import AnswerLeftOut, NotAsThen
from profilesmith.ledger.packed import LARGEST, pack, unpack
from profilesmith.merge.decision import AGREED, CONFLICT, KEPT, LEFT_OUT
from profilesmith.review.again_notes import again_notes
from profilesmith.review.cause_reasons import notes_words
from profilesmith.review.decisions import decision_sentence
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.rederive.check import check_all, exit_code
from profilesmith.workflows.rederive.rederive import Rederivation, rederive
from profilesmith.workflows.rederive.version import newer
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import review_again

MAP = """format = 1
[keymap]
name = "bench"
[text]
list = ","
[[binding]]
setting = "outer_wall.speed"
key = "rim"
[[binding]]
setting = "inner_wall.speed"
key = "inner"
unit = "%"
relative_to = "outer_wall.speed"
[[binding]]
setting = "infill.density"
key = "share"
[[binding]]
setting = "nozzle.temperature"
key = "pair"
split = "/"
field = 1
[[binding]]
setting = "bed.temperature"
key = "pair"
split = "/"
field = 2
[[binding]]
setting = "retraction.distance"
key = "pull"
tools = true
[[binding]]
setting = "raft.layers"
key = "pad"
[[binding]]
setting = "raft.on"
key = "pad"
on_when = "> 0"
on = "3"
off = "0"
[[binding]]
setting = "layer.height"
key = "rise"
unit = "mm"
[[binding]]
setting = "support.density"
key = "prop"
add = true
"""
RECIPE = """format = 1
[recipe]
name = "slow"
version = "1.0.0"
title = "Slow"
[inputs.least]
kind = "ratio"
default = "10 %"
ask = "How dense?"
[[rule]]
setting = "printing speeds"
cap = "40 mm/s"
why = "test"
[[rule]]
setting = "infill.density"
raise_to = { input = "least" }
why = "test"
"""
BASE = (
    "# head\nrim = 80\ninner = 100\nshare = 15\npair = 205/65\npull = 2,2\npad = 0\n"
    "rise = 0.2\nlamp = 60\nnotes = none\n"
)


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    lay_out(Path())
    return tmp_path


def lay_out(folder: Path) -> None:
    (folder / "map.toml").write_text(MAP)
    (folder / "slow.toml").write_text(RECIPE)
    (folder / "base.cfg").write_text(BASE)
    request = Request(
        bases=(str(folder / "base.cfg"),), key_map=str(folder / "map.toml"), recipes=(str(folder / "slow.toml"),)
    )
    write(derive(request), str(folder / "soft.cfg"), overwrite=True)


def edit(name: str, *pairs: tuple[str, str], to: str = "") -> None:
    text = Path(name).read_text()
    for old, new in pairs:
        assert old in text, (old, text)
        text = text.replace(old, new, 1)
    Path(to or name).write_text(text)


def merge(prefer: str = "", base: str = "new.cfg", derived: str = "soft.cfg", **more: Any) -> Rederivation:
    return rederive([derived], Request(bases=(base,), key_map="", **more), lambda decision: prefer)


def text(made: Rederivation) -> str:
    return made.derivation.outputs[0].decode()


def told(made: Rederivation) -> dict[str, str]:
    return {item.what: item.outcome for item in made.decisions}


def one(made: Rederivation, what: str) -> Decision:
    return next(item for item in made.decisions if item.what == what)


def test_nothing_changed_gives_the_same_bytes() -> None:
    made = merge(base="base.cfg")
    assert made.derivation.outputs[0] == Path("soft.cfg").read_bytes()
    assert made.decisions == ()


def test_without_hand_edits_it_is_a_plain_derivation() -> None:
    edit("base.cfg", ("rim = 80", "rim = 35"), ("# head", "# better"), to="new.cfg")
    plain = derive(Request(("new.cfg",), "map.toml", ("slow.toml",)))
    made = merge()
    assert made.derivation.outputs == plain.outputs
    assert made.derivation.ledger.rows == plain.ledger.rows


def test_hand_edits_go_onto_the_new_base() -> None:
    edit("soft.cfg", ("share = 15", "share = 25"), ("lamp = 60", "lamp = 61"), ("rise", "# finer\nrise"))
    edit("base.cfg", ("rim = 80", "rim = 30"), ("notes = none", "notes = june"), to="new.cfg")
    made = merge()
    assert text(made) == BASE.replace("rim = 80", "rim = 30").replace("share = 15", "share = 25").replace(
        "lamp = 60", "lamp = 61"
    ).replace("rise", "# finer\nrise").replace("none", "june")
    assert told(made) == {"infill.density": KEPT, "lamp": KEPT, "the line '# finer'": KEPT}
    # Lines that no binding knows are told as they are now: the next edit of one is looked for there.
    assert [(line.key, line.text, line.line) for line in made.derivation.file.unmapped] == [
        ("lamp", "61", 10),
        ("notes", "june", 11),
    ]


def test_a_conflict_is_refused_until_a_side_is_named() -> None:
    edit("soft.cfg", ("rim = 40", "rim = 45"))
    edit("base.cfg", ("rim = 80", "rim = 39"), to="new.cfg")
    with pytest.raises(Refused, match=r"Conflict: outer_wall\.speed") as refused:
        merge()
    assert refused.value.exit_code == 3
    for prefer, wanted in (("base", "rim = 39"), ("derived", "rim = 45")):
        made = merge(prefer)
        assert wanted in text(made).splitlines()
        assert (one(made, "outer_wall.speed").outcome, one(made, "outer_wall.speed").chosen) == (CONFLICT, prefer)
    assert one(merge("derived"), "outer_wall.speed").overrules == "slow 1.0.0, rule 1: at most 40 mm/s"
    assert one(merge("base"), "outer_wall.speed").overrules == ""


def test_two_edits_that_mean_the_same_do_not_conflict() -> None:
    edit("soft.cfg", ("rise = 0.2", "rise = 160 um"))
    edit("base.cfg", ("rise = 0.2", "rise = 0.16"), to="new.cfg")
    made = merge()
    assert told(made) == {"layer.height": AGREED}
    assert "rise = 0.16\n" in text(made)


def test_an_edit_in_another_unit_is_written_in_the_base_s() -> None:
    edit("soft.cfg", ("rise = 0.2", "rise = 160 um"))
    made = merge(base="base.cfg")
    assert "rise = 0.16\n" in text(made)
    assert told(made) == {"layer.height": KEPT}


def test_another_spelling_is_kept_where_the_base_s_text_stayed() -> None:
    edit("soft.cfg", ("share = 15", "share = 15.0"), ("pair = 205/65", "pair = 205/65 "))
    edit("base.cfg", ("lamp = 60", "lamp = 59"), to="june.cfg")
    first = carry("", "june.cfg", "soft.cfg", "soft-june.cfg")
    second = merge(base="june.cfg", derived="soft-june.cfg")
    for made in (first, second):
        assert told(made)["share"] == KEPT
        assert "share = 15.0\n" in text(made)
    edit("base.cfg", ("share = 15", "share = 18"), to="july.cfg")
    made = merge(base="july.cfg")
    assert told(made)["share"] == LEFT_OUT
    assert "share = 18\n" in text(made)


def test_a_respelled_number_that_another_edit_moves_stays_inside_its_bounds() -> None:
    edit("soft.cfg", ("rim = 40", "rim = 50"), ("inner = 100", "inner = 100.0"))
    made = merge(base="base.cfg")
    assert "inner = 80\n" in text(made)
    assert told(made)["inner"] == LEFT_OUT


NUMBERED = '[[binding]]\nsetting = "support.on"\nkey = "props"\non_when = "> 0"\non = "3"\noff = "0"\n'


def numbered(text_before: str = "0") -> None:
    """A base with a number that is bound as a switch alone; the recipe turns it on."""
    Path("map.toml").write_text(MAP + NUMBERED)
    Path("slow.toml").write_text(RECIPE + '[[rule]]\nsetting = "support.on"\nset = "on"\nwhy = "test"\n')
    Path("base.cfg").write_text(BASE + f"props = {text_before}\n")
    write(derive(Request(("base.cfg",), "map.toml", ("slow.toml",))), "soft.cfg", overwrite=True)
    assert Path("soft.cfg").read_text().endswith("props = 3\n")


def test_a_number_that_the_map_reads_as_a_switch_is_kept_as_written() -> None:
    numbered()
    edit("soft.cfg", ("props = 3", "props = 4"))
    edit("base.cfg", ("lamp = 60", "lamp = 61"), to="june.cfg")
    first = carry("", "june.cfg", "soft.cfg", "soft-june.cfg")
    assert told(first) == {"support.on": KEPT}
    assert 'on ("3") → on ("4")' in decision_sentence(one(first, "support.on"))
    assert one(first, "support.on").overrules == ""
    assert text(first).endswith("props = 4\n")
    assert {row.new_text for row in first.derivation.ledger.rows if row.setting == "support.on" and row.new_text} == {
        "4"
    }
    second = carry("", "june.cfg", "soft-june.cfg", "soft-july.cfg")
    assert told(second) == {"support.on": KEPT}
    assert text(second).endswith("props = 4\n")
    assert review_again("soft-july.cfg").edited == ()


def test_a_number_read_as_a_switch_that_both_changed_is_a_conflict() -> None:
    numbered()
    edit("soft.cfg", ("props = 3", "props = 4"))
    edit("base.cfg", ("props = 0", "props = 2"), to="new.cfg")
    assert text(merge("derived")).endswith("props = 4\n")
    assert text(merge("base")).endswith("props = 2\n")
    with pytest.raises(Refused, match=r"Conflict: support\.on"):
        merge()
    edit("base.cfg", ("props = 0", "props = 4"), to="new.cfg")
    assert told(merge()) == {"support.on": AGREED}


def test_a_number_put_where_a_switch_was_off_is_kept_as_written() -> None:
    Path("map.toml").write_text(MAP + NUMBERED)
    Path("base.cfg").write_text(BASE + "props = 0\n")
    write(derive(Request(("base.cfg",), "map.toml", ("slow.toml",))), "soft.cfg", overwrite=True)
    edit("soft.cfg", ("props = 0", "props = 4"))
    edit("base.cfg", ("lamp = 60", "lamp = 61"), to="june.cfg")
    first = carry("", "june.cfg", "soft.cfg", "soft-june.cfg")
    assert text(first).endswith("props = 4\n")
    assert told(merge(base="june.cfg", derived="soft-june.cfg")) == {"support.on": KEPT}


def test_what_stands_beside_values_is_kept_where_the_base_s_text_stayed() -> None:
    text_then = BASE.replace("205/65", "205/65/9")
    Path("base.cfg").write_text(text_then)
    write(derive(Request(("base.cfg",), "map.toml", ("slow.toml",))), "soft.cfg", overwrite=True)
    edit("soft.cfg", ("205/65/9", "210/65/8"))
    assert "pair = 210/65/8\n" in text(merge(base="base.cfg"))
    edit("base.cfg", ("205/65/9", "205/60/9"), to="new.cfg")
    made = merge()
    assert "pair = 210/60/9\n" in text(made)
    assert told(made) == {"nozzle.temperature": KEPT, "pair": LEFT_OUT}


def test_only_a_rule_that_an_edit_breaks_is_overruled() -> None:
    Path("slow.toml").write_text(
        RECIPE + '[[rule]]\nsetting = "retraction.distance"\nraise_to = "2.5 mm"\nwhy = "test"\n'
    )
    write(derive(Request(("base.cfg",), "map.toml", ("slow.toml",))), "soft.cfg", overwrite=True)
    for hand, status, note in (("3,3", "kept", "met by a hand edit"), ("1,3", "overruled", "a hand edit was kept")):
        edit("soft.cfg", ("pull = 2.5,2.5", f"pull = {hand}"), to="hand.cfg")
        Path("hand.cfg.ledger.json").write_bytes(Path("soft.cfg.ledger.json").read_bytes())
        made = merge(base="base.cfg", derived="hand.cfg")
        row = next(
            row for row in made.derivation.ledger.rows if row.setting == "retraction.distance" and row.cause.rule == 3
        )
        assert (row.status, notes_words(row, load_vocabulary().settings[row.setting])) == (status, note)
        assert bool(one(made, "retraction.distance").overrules) == (status == "overruled")


def test_each_tool_on_its_own() -> None:
    edit("soft.cfg", ("pull = 2,2", "pull = 3,2"))
    edit("base.cfg", ("pull = 2,2", "pull = 2,1"), to="new.cfg")
    made = merge()
    assert "pull = 3,1\n" in text(made)
    assert told(made) == {"retraction.distance": KEPT}


def test_another_number_of_tools_takes_the_line() -> None:
    edit("soft.cfg", ("pull = 2,2", "pull = 3,2,1"))
    edit("base.cfg", ("lamp = 60", "lamp = 50"), to="new.cfg")
    made = merge()
    assert "pull = 3,2,1\n" in text(made)
    assert "lamp = 50\n" in text(made)
    assert told(made) == {"retraction.distance": KEPT}


def test_two_settings_in_one_value() -> None:
    edit("soft.cfg", ("205/65", "212/65"))
    edit("base.cfg", ("205/65", "205/60"), to="new.cfg")
    assert "pair = 212/60\n" in text(merge())


def test_a_number_that_is_a_switch_too() -> None:
    edit("soft.cfg", ("pad = 0", "pad = 4"))
    made = merge(base="base.cfg")
    assert "pad = 4\n" in text(made)
    assert told(made) == {"raft.layers": KEPT}


def test_what_follows_an_edit_is_no_edit_and_stays_inside_its_bounds() -> None:
    edit("soft.cfg", ("rim = 40", "rim = 50"))
    made = merge(base="base.cfg")
    assert told(made) == {"outer_wall.speed": KEPT}
    assert "inner = 80\n" in text(made)  # 100 % of 50 mm/s would be past 40 mm/s
    assert made.derivation.ledger.derived.entries["inner_wall.speed"].value == 40


def test_a_hand_edited_share_keeps_its_value_where_shares_are_kept() -> None:
    """24 mm/s, written as 60 % of 40, is 80 % of the new base's 30."""
    edit("soft.cfg", ("inner = 100", "inner = 60"))
    edit("base.cfg", ("rim = 80", "rim = 30"), to="new.cfg")
    made = merge()
    assert told(made) == {"inner_wall.speed": KEPT}
    assert "inner = 80\n" in text(made)
    assert made.derivation.ledger.derived.entries["inner_wall.speed"].value == 24
    decision = one(made, "inner_wall.speed")
    assert (decision.was, decision.hand) == (
        "40 mm/s (100 % of outer_wall.speed)",
        "24 mm/s (60 % of outer_wall.speed)",
    )


def test_a_hand_edited_share_stays_a_share_where_shares_follow() -> None:
    edit("soft.cfg", ("inner = 100", "inner = 60"))
    edit("base.cfg", ("rim = 80", "rim = 30"), to="new.cfg")
    made = merge(shares="follow")
    assert told(made) == {"inner_wall.speed": KEPT}
    assert "inner = 60\n" in text(made)
    assert made.derivation.ledger.derived.entries["inner_wall.speed"].value == 18


def test_two_shares_that_come_to_the_same_agree() -> None:
    """A hand wrote 60 % of 40 mm/s; the new base comes to 24 mm/s as 80 % of 30."""
    edit("soft.cfg", ("inner = 100", "inner = 60"))
    edit("base.cfg", ("rim = 80", "rim = 30"), ("inner = 100", "inner = 80"), to="new.cfg")
    made = merge()
    assert told(made) == {"inner_wall.speed": AGREED}
    assert "inner = 80\n" in text(made)


def test_one_key_of_several_switches_is_one_decision() -> None:
    switches = "".join(
        f'[[binding]]\nsetting = "{name}"\nkey = "foot"\non = "{on}"\noff = "0"\n'
        for name, on in (("raft.on", "3"), ("brim.on", "2"))
    )
    kept = MAP[: MAP.index('[[binding]]\nsetting = "raft.layers"')] + switches
    Path("map.toml").write_text(kept + MAP[MAP.index('[[binding]]\nsetting = "layer.height"') :])
    Path("base.cfg").write_text(BASE + "foot = 0\n")
    write(derive(Request(("base.cfg",), "map.toml", ("slow.toml",))), "soft.cfg", overwrite=True)
    edit("soft.cfg", ("foot = 0", "foot = 2"))
    Path("new.cfg").write_text(BASE + "foot = 3\n")
    with pytest.raises(Refused) as refused:
        merge()
    assert len(refused.value.problems) == 1
    for side, foot in (("base", 3), ("derived", 2)):
        made = merge(side)
        assert f"foot = {foot}\n" in text(made)
        assert len([item for item in made.decisions if item.outcome == CONFLICT]) == 1
    entries = merge("derived").derivation.ledger.derived.entries
    assert (entries["brim.on"].value, entries["raft.on"].value) == (True, False)


def test_a_key_taken_out_and_a_key_put_in() -> None:
    edit("soft.cfg", ("share = 15\n", ""), ("lamp", "prop = 35\nlamp"))
    edit("base.cfg", ("rise = 0.2", "rise = 0.25"), to="new.cfg")
    made = merge()
    assert text(made) == BASE.replace("rim = 80", "rim = 40").replace("share = 15\n", "").replace(
        "0.2", "0.25"
    ).replace("lamp", "prop = 35\nlamp")
    assert told(made) == {"infill.density": KEPT, "support.density": KEPT}


def test_taken_out_by_hand_and_changed_by_the_base() -> None:
    edit("soft.cfg", ("share = 15\n", ""))
    edit("base.cfg", ("share = 15", "share = 18"), to="new.cfg")
    assert "share = 18\n" in text(merge("base"))
    assert "share" not in text(merge("derived"))


def test_edited_by_hand_and_taken_out_by_the_base() -> None:
    edit("soft.cfg", ("share = 15", "share = 20"), ("lamp = 60", "lamp = 61"))
    edit("base.cfg", ("share = 15\n", ""), ("lamp = 60\n", ""), to="new.cfg")
    assert told(merge("base")) == {"infill.density": CONFLICT, "lamp": CONFLICT}
    kept = text(merge("derived"))
    assert "share = 20\n" in kept
    assert "lamp = 61\n" in kept
    assert "share" not in text(merge("base"))


def test_a_newer_recipe_with_the_answers_of_then() -> None:
    request = Request(("base.cfg",), "map.toml", ("slow.toml",), answers={"least": "20 %"})
    write(derive(request), "soft.cfg", overwrite=True)
    Path("slow.toml").write_text(RECIPE.replace("1.0.0", "1.1.0").replace("40 mm/s", "38 mm/s"))
    edit("base.cfg", ("lamp = 60", "lamp = 59"), to="new.cfg")
    lines = text(merge()).splitlines()
    assert {"rim = 38", "share = 20", "lamp = 59"} <= set(lines)
    Path("slow.toml").write_text(RECIPE.replace("least", "fewest"))
    made = merge()
    assert "share = 15" in text(made).splitlines()
    assert made.not_as_then == NotAsThen((AnswerLeftOut("slow", "least", "20 %"),))
    assert "slow.least = 20 %" in again_notes(made.not_as_then)[0]


def test_facts_of_then_stay_unless_a_file_says_otherwise() -> None:
    Path("hot.toml").write_text('format = 1\n[machine]\nmaximum_nozzle_temperature = "215 °C"\n')
    Path("slow.toml").write_text(
        RECIPE
        + (
            '[[rule]]\nsetting = "nozzle.temperature"\nraise_to = "210 °C"\n'
            'when = { "machine.drive" = "direct" }\nwhy = "test"\n'
        )
    )
    write(
        derive(Request(("base.cfg",), "map.toml", ("slow.toml",), answers={"machine.drive": "direct"})),
        "soft.cfg",
        overwrite=True,
    )
    assert "pair = 210/65" in text(merge(base="base.cfg"))
    assert "pair = 205/65" in text(merge(base="base.cfg", answers={"machine.drive": "remote"}))
    facts = merge(base="base.cfg", facts=("hot.toml",)).derivation.ledger.facts
    assert {name: fact.said for name, fact in facts.items()} == {
        "machine.drive": "direct",
        "machine.maximum_nozzle_temperature": "215 °C",
    }


def carry(prefer: str, base: str, derived: str, out: str) -> Rederivation:
    made = merge(prefer, base, derived)
    write(made.derivation, out, overwrite=True)
    return made


def test_a_chain_keeps_edits_and_takes_no_consequence_for_one() -> None:
    edit("soft.cfg", ("rim = 40", "rim = 50"), ("lamp = 60", "lamp = 61"), ("# head", "# head\n# mine"))
    edit("base.cfg", ("notes = none", "notes = june"), to="june.cfg")
    first = carry("", "june.cfg", "soft.cfg", "soft-june.cfg")
    edit("june.cfg", ("notes = june", "notes = july"), ("inner = 100", "inner = 60"), to="july.cfg")
    second = carry("", "july.cfg", "soft-june.cfg", "soft-july.cfg")
    assert told(first) == told(second) == {"outer_wall.speed": KEPT, "lamp": KEPT, "the line '# mine'": KEPT}
    assert "inner = 60\n" in text(second)
    ledger = json.loads(Path("soft-july.cfg.ledger.json").read_text())
    assert [len(item["decisions"]) for item in ledger["history"]] == [3, 3]
    assert ledger["history"][0]["files"][0]["name"] == "base.cfg"
    schema = ledger_schema()
    jsonschema.Draft202012Validator(schema).validate(ledger)
    again = review_again("soft-july.cfg")
    assert again.edited == ()
    others = [item for item in second.decisions if item.what != "outer_wall.speed"]
    assert again.review.edits == tuple(map(decision_sentence, others))
    (broken,) = (change for change in again.review.edited() if change.breaks)
    assert (broken.setting, broken.recipe_value, broken.derived) == ("outer_wall.speed", "40 mm/s", "50 mm/s")


def test_a_decided_conflict_is_an_edit_the_next_time() -> None:
    edit("soft.cfg", ("rim = 40", "rim = 45"))
    edit("base.cfg", ("rim = 80", "rim = 39"), to="june.cfg")
    carry("derived", "june.cfg", "soft.cfg", "soft-june.cfg")
    assert told(merge(base="june.cfg", derived="soft-june.cfg")) == {"outer_wall.speed": KEPT}
    carry("base", "june.cfg", "soft.cfg", "soft-june.cfg")
    assert told(merge(base="june.cfg", derived="soft-june.cfg")) == {}


def test_an_older_ledger_keeps_settings_and_names_what_it_cannot_tell() -> None:
    path = Path("soft.cfg.ledger.json")
    data = json.loads(path.read_text())
    del data["made"], data["call"]
    path.write_text(json.dumps(data))
    edit("base.cfg", ("notes = none", "notes = june"), to="new.cfg")
    assert text(merge(recipes=("slow.toml",))) == Path("soft.cfg").read_text().replace("none", "june")
    edit("soft.cfg", ("share = 15", "share = 25"), ("rim = 40", "rim = 50"), ("# head", "# head\n# mine"))
    made = merge(recipes=("slow.toml",))
    assert "share = 25\n" in text(made)
    assert told(made) == {"infill.density": KEPT, "outer_wall.speed": KEPT, "the line '# mine'": LEFT_OUT}
    with pytest.raises(Refused, match="no recipe called 'slow'"):
        merge()


def test_files_of_one_machine_go_together() -> None:
    Path("a").mkdir()
    Path("b").mkdir()
    Path("a/one.cfg").write_text("rim = 80\nlamp = 1\n")
    Path("a/two.cfg").write_text("share = 15\nlid = 1\n")
    write(derive(Request(("a/one.cfg", "a/two.cfg"), "map.toml", ("slow.toml",))), "out")
    edit("out/two.cfg", ("lid = 1", "lid = 2"), ("share = 15", "share = 17"))
    edit("a/one.cfg", ("lamp = 1", "lamp = 3"), to="b/one.cfg")
    edit("a/two.cfg", to="b/two.cfg")
    made = rederive(["out/one.cfg"], Request(("b/one.cfg", "b/two.cfg"), ""), lambda decision: "")
    assert made.derivation.outputs == (b"rim = 40\nlamp = 3\n", b"share = 17\nlid = 2\n")
    with pytest.raises(Refused, match="2 derived files"):
        rederive(["out/one.cfg"], Request(("b/one.cfg",), ""), lambda decision: "")
    with pytest.raises(Refused, match="not this file's"):
        rederive(["out/one.cfg", "soft.cfg"], Request(("b/one.cfg", "b/two.cfg"), ""), lambda decision: "")


def test_inputs_are_never_written_to(program: Callable[..., Any]) -> None:
    edit("base.cfg", to="new.cfg")
    before = Path("soft.cfg").read_bytes()
    for out in ("soft.cfg", "new.cfg", "map.toml"):
        assert program("rederive", "soft.cfg", "--onto", "new.cfg", "-o", out, "--overwrite").code == 2
    assert Path("soft.cfg").read_bytes() == before


def test_the_command(program: Callable[..., Any]) -> None:
    edit("soft.cfg", ("rim = 40", "rim = 45"))
    edit("base.cfg", ("rim = 80", "rim = 39"), to="new.cfg")
    assert "rim = 45" in program("rederive", "soft.cfg", "-o", "same.cfg").out + Path("same.cfg").read_text()
    Path("base.cfg").rename("away.cfg")
    assert program("rederive", "soft.cfg").codes == ("no-file",)
    Path("away.cfg").rename("base.cfg")
    assert program("rederive", "soft.cfg", "--onto", "new.cfg", "--prefer", "mine").codes == ("prefer",)
    refused = program("rederive", "soft.cfg", "--onto", "new.cfg", "-o", "x.cfg")
    assert (refused.code, refused.codes) == (3, ("merge-conflict",))
    assert not Path("x.cfg").exists()
    done = program(
        "rederive", "soft.cfg", "--onto", "new.cfg", "--prefer", "derived", "-o", "x.cfg", "--report", "x.md"
    )
    assert done.code == 0
    assert (
        "Conflict: outer_wall.speed (soft.cfg:2): 40 mm/s → 45 mm/s by hand, → 39 mm/s with the new base"
        in " ".join(done.out.split())
    )
    assert "Conflict" in Path("x.md").read_text(encoding="utf-8")
    assert (
        program("rederive", "soft.cfg", "--onto", "new.cfg", "--prefer", "base", "-q", "--report", "x.html").code == 0
    )
    assert "Conflict: outer_wall.speed" in Path("x.html").read_text(encoding="utf-8")
    assert "Conflict: outer_wall.speed" in program("review", "x.cfg").out
    assert "rim = 45\n" in Path("x.cfg").read_text()


def test_that_nothing_is_written_is_said_before_the_review(
    program: Callable[..., Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    for way in ("say", "say_error"):
        monkeypatch.setattr(f"profilesmith.cli.commands.rederive.{way}", said.append)
    assert program("rederive", "soft.cfg", "--onto", "base.cfg").code == 0
    assert said[0].startswith("Nothing was written: name the new file with -o OUT.")
    assert len(said) == 2, "and then the review"


def test_which_are_stale(program: Callable[..., Any]) -> None:
    write(derive(Request(("base.cfg",), "map.toml", ("slow.toml",))), "other.cfg")
    assert program("rederive", "soft.cfg", "other.cfg", "--check").code == 0
    Path("slow.toml").write_text(RECIPE.replace("1.0.0", "1.0.1"))
    ran = program("rederive", "soft.cfg", "other.cfg", "--check")
    assert (ran.code, ran.out.splitlines()) == (
        1,
        [
            *(f"{name}.cfg: stale: recipe slow 1.0.0 → 1.0.1" for name in ("soft", "other")),
            "",
            "slow 1.0.0 → 1.0.1: no difference.",
        ],
    )
    edit("base.cfg", ("lamp = 60", "lamp = 61"))
    found = json.loads(program("rederive", "soft.cfg", "--check", "--as", "json").out)
    assert found["files"] == [
        {
            "file": "soft.cfg",
            "state": "stale",
            "behind": ["the base base.cfg has changed", "recipe slow 1.0.0 → 1.0.1"],
            "unknown": [],
            "edited": False,
            "changes": ["slow 1.0.0 → 1.0.1: no difference."],
        }
    ]
    Path("base.cfg").unlink()
    gone = program("rederive", "soft.cfg", "nothing.cfg", "--check")
    assert gone.code == 2
    assert "base.cfg cannot be read" in gone.out
    assert "nothing.cfg: unknown: There is no such file" in gone.out
    assert program("rederive", "soft.cfg", "--check", "--onto", "map.toml").code == 1


def test_of_a_newer_recipe_a_check_tells_what_changed_once_for_all_files(program: Callable[..., Any]) -> None:
    write(derive(Request(("base.cfg",), "map.toml", ("slow.toml",))), "other.cfg")
    Path("slow.toml").write_text(RECIPE.replace("1.0.0", "1.1.0").replace('cap = "40 mm/s"', 'cap = "30 mm/s"'))
    told = program("rederive", "soft.cfg", "other.cfg", "--check").out
    assert told.count("slow 1.0.0 → 1.1.0: 1 rule changed.") == 1
    assert "asks: at most 30 mm/s; was: at most 40 mm/s (tighter now)" in told


def test_an_older_ledger_keeps_no_recipe_and_is_judged_all_the_same(program: Callable[..., Any]) -> None:
    ledger = Path("soft.cfg.ledger.json")
    data = json.loads(ledger.read_text(encoding="utf-8"))
    assert all(use.pop("text") for use in data["recipes"])
    ledger.write_text(json.dumps(data), encoding="utf-8")
    Path("slow.toml").write_text(RECIPE.replace("1.0.0", "1.1.0"))
    ran = program("rederive", "soft.cfg", "--check")
    assert ran.out.splitlines() == ["soft.cfg: stale: recipe slow 1.0.0 → 1.1.0"]


def test_a_check_from_another_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "elsewhere").mkdir()
    monkeypatch.chdir(tmp_path / "elsewhere")
    assert exit_code(check_all(["../soft.cfg"], [], None)) == 0


def test_versions_in_the_order_of_the_standard() -> None:
    order = [
        "1.0.0-alpha",
        "1.0.0-alpha.1",
        "1.0.0-alpha.beta",
        "1.0.0-beta",
        "1.0.0-beta.2",
        "1.0.0-beta.11",
        "1.0.0-rc.1",
        "1.0.0",
        "1.0.1",
        "1.10.0",
        "2.0.0",
    ]
    for at, low in enumerate(order):
        for place, high in enumerate(order):
            assert newer(high, low) == (place > at), (low, high)
    assert not newer("1.0.0+build.2", "1.0.0+build.1")


@given(st.binary(max_size=300))
def test_texts_are_kept_to_the_byte(raw: bytes) -> None:
    assert unpack(pack(raw)) == raw


@pytest.mark.parametrize("word", [None, 3, "", "a", "x" * 400, pack(b"whole")[:-8], "é"])
def test_a_damaged_copy_is_none(word: object) -> None:
    assert unpack(word) is None


def test_a_copy_is_bounded() -> None:
    import zlib
    from binascii import b2a_base64

    assert pack(b"a" * (LARGEST + 1)) == ""
    assert unpack(b2a_base64(zlib.compress(b"a" * (LARGEST + 1))).decode().strip()) is None


VALUES = {
    "rim": ("30", "36", "45", "90"),
    "inner": ("50", "90"),
    "share": ("5", "15", "22"),
    "pair": ("205/65", "210/65", "210/60"),
    "pull": ("2,2", "3,2", "3,1"),
    "pad": ("0", "2"),
    "rise": ("0.2", "0.16"),
    "lamp": ("60", "61", "62"),
    "notes": ("none", "some", "many"),
}
CHANGES = st.dictionaries(st.sampled_from(sorted(VALUES)), st.integers(0, 3), max_size=4)
REMARKS = st.lists(st.integers(0, 8), unique=True, max_size=2)


def changed(text: str, changes: dict[str, int], remarks: list[int], name: str) -> str:
    lines = []
    for number, line in enumerate(text.splitlines()):
        key = line.partition(" = ")[0]
        lines.append(f"{key} = {VALUES[key][changes[key] % len(VALUES[key])]}" if key in changes else line)
        lines += [f"# {name} {number}"] if number in remarks else []
    return "\n".join(lines) + "\n"


@settings(max_examples=30, deadline=None, derandomize=True)
@given(CHANGES, CHANGES, REMARKS, REMARKS, st.sampled_from(("base", "derived")))
def test_laws(
    tmp_path_factory: pytest.TempPathFactory,
    hand: dict[str, int],
    base: dict[str, int],
    mine: list[int],
    theirs: list[int],
    prefer: str,
) -> None:
    """No hand edit is lost or undecided; without a conflict the side that is preferred makes no difference; edits alone
    give the edited file; an edit that both made is none."""
    folder = tmp_path_factory.mktemp("laws")
    lay_out(folder)
    then = (folder / "soft.cfg").read_text()
    edited = changed(then, hand, mine, "hand")
    (folder / "soft.cfg").write_text(edited)
    (folder / "new.cfg").write_text(changed(BASE, base, theirs, "base"))
    names = str(folder / "new.cfg"), str(folder / "soft.cfg")
    made = merge(prefer, *names)
    out, decided = text(made), {item.what for item in made.decisions}
    for line in edited.splitlines():
        assert (
            line in then.splitlines() or line in out.splitlines() or line.partition(" = ")[0] in decided | keys(decided)
        ), (line, out)
    assert all(f"# base {number}" in out and f"# hand {other}" in out for number in theirs for other in mine)
    if not any(item.outcome == CONFLICT for item in made.decisions):
        assert text(merge("", *names)) == out
    else:
        with pytest.raises(Refused):
            merge("", *names)
    alone = merge("", str(folder / "base.cfg"), str(folder / "soft.cfg"))
    if "rim" not in hand:  # what is written relative to an edited speed is judged again
        got = dict(line.partition(" = ")[::2] for line in text(alone).splitlines() if "=" in line)
        assert got == dict(line.partition(" = ")[::2] for line in edited.splitlines() if "=" in line)


def keys(decided: set[str]) -> set[str]:
    names = {
        "outer_wall.speed": "rim",
        "inner_wall.speed": "inner",
        "infill.density": "share",
        "nozzle.temperature": "pair",
        "bed.temperature": "pair",
        "retraction.distance": "pull",
        "raft.layers": "pad",
        "layer.height": "rise",
    }
    return {names[what] for what in decided if what in names}


def test_a_derived_file_may_be_renamed_with_its_ledger() -> None:
    edit("soft.cfg", ("share = 15", "share = 25"))
    Path("soft.cfg").rename("mine.cfg")
    Path("soft.cfg.ledger.json").rename("mine.cfg.ledger.json")
    assert told(merge(base="base.cfg", derived="mine.cfg")) == {"infill.density": KEPT}
    assert exit_code(check_all(["mine.cfg"], [], None)) == 0


def test_a_start_block_follows_without_being_an_edit() -> None:
    Path("base.cfg").write_text(BASE + "begin = M104 S205\n")
    Path("hot.toml").write_text(
        RECIPE.replace('"slow"', '"hot"') + '[[rule]]\nsetting = "nozzle.temperature"\nset = "215 °C"\nwhy = "test"\n'
    )
    write(derive(Request(("base.cfg",), "map.toml", ("hot.toml",), follow_literals=True)), "soft.cfg", overwrite=True)
    assert "begin = M104 S215\n" in Path("soft.cfg").read_text()
    edit("soft.cfg", ("215/65", "218/65"))
    edit("base.cfg", ("lamp = 60", "lamp = 61"), to="june.cfg")
    first = carry("", "june.cfg", "soft.cfg", "soft-june.cfg")
    assert told(first) == {"nozzle.temperature": KEPT}
    assert "begin = M104 S218\n" in text(first)
    second = merge(base="june.cfg", derived="soft-june.cfg")
    assert told(second) == {"nozzle.temperature": KEPT}
    assert text(second) == text(first)
    edit("soft.cfg", ("M104 S215", "M104 S218 ; checked"))
    assert told(merge(base="june.cfg")) == {"nozzle.temperature": KEPT, "begin": KEPT}


def test_the_person_at_the_terminal_is_asked(program: Callable[..., Any], monkeypatch: pytest.MonkeyPatch) -> None:
    edit("soft.cfg", ("rim = 40", "rim = 45"), ("lamp = 60", "lamp = 61"))
    edit("base.cfg", ("rim = 80", "rim = 39"), ("lamp = 60", "lamp = 62"), to="new.cfg")
    answers = iter(["what?", "d", "base"])
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)
    monkeypatch.setattr("typer.prompt", lambda *words, **more: next(answers))
    ran = program("rederive", "soft.cfg", "--onto", "new.cfg", "-o", "x.cfg", "-q")
    assert ran.code == 0
    assert "Conflict: lamp (soft.cfg:9): 60 → 61 by hand, → 62 with the new base" in ran.err
    assert "is taken" not in ran.err
    assert ran.err.count("'what?' is none of these answers.") == 1
    assert {"rim = 45", "lamp = 62"} <= set(Path("x.cfg").read_text().splitlines())


def test_stop_stops_at_once(program: Callable[..., Any], monkeypatch: pytest.MonkeyPatch) -> None:
    edit("soft.cfg", ("rim = 40", "rim = 45"), ("lamp = 60", "lamp = 61"))
    edit("base.cfg", ("rim = 80", "rim = 39"), ("lamp = 60", "lamp = 62"), to="new.cfg")
    asked: list[object] = []
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)
    monkeypatch.setattr("typer.prompt", lambda *words, **more: asked.append(words) or "stop")
    ran = program("rederive", "soft.cfg", "--onto", "new.cfg", "-o", "x.cfg", "-q")
    assert (ran.code, ran.codes, len(asked)) == (3, ("stopped",), 1)
    assert not Path("x.cfg").exists()


def test_a_dry_run_and_a_call_that_does_nothing(program: Callable[..., Any]) -> None:
    before = sorted(Path().iterdir())
    ran = program("rederive", "soft.cfg", "-o", "x.cfg", "--dry-run")
    assert ran.code == 0
    assert "Dry run: nothing was written." in ran.err
    assert program("rederive", "soft.cfg", "-q", "--dry-run").code == 0
    derive_it = ("derive", "base.cfg", "--keymap", "map.toml", "--recipe", "slow.toml", "-q")
    assert program(*derive_it, "--dry-run").code == 0
    for call in (("rederive", "soft.cfg", "-q"), derive_it):
        ran = program(*call)
        assert (ran.code, ran.codes) == (2, ("idle-call",))
    assert sorted(Path().iterdir()) == before


def test_check_judges_only_what_can_be_read(program: Callable[..., Any]) -> None:
    edit("soft.cfg", ("share = 15", "share = 17"))
    ran = program("rederive", "soft.cfg", "--check")
    assert (ran.code, ran.out) == (0, "soft.cfg: current: edited by hand\n")
    edit("soft.cfg", ("rim = 40", "rim = banana"))
    ran = program("rederive", "soft.cfg", "--check")
    assert ran.code == 2
    assert "soft.cfg: unknown: it cannot be read: soft.cfg:2" in ran.out
    Path("map.toml").unlink()
    assert program("rederive", "soft.cfg", "--check").code == 2


def test_check_tells_a_recipe_that_changed_under_its_version(program: Callable[..., Any]) -> None:
    schema = ledger_schema()
    ledger = json.loads(Path("soft.cfg.ledger.json").read_text())
    jsonschema.Draft202012Validator(schema).validate(ledger)
    assert program("rederive", "soft.cfg", "--check").out == "soft.cfg: current\n"
    Path("slow.toml").write_text(RECIPE.replace("40 mm/s", "38 mm/s"))
    ran = program("rederive", "soft.cfg", "--check")
    first, _, rest = ran.out.partition("\n\n")
    assert (ran.code, first) == (
        1,
        "soft.cfg: stale: the file of recipe slow has changed under the same version 1.0.0",
    )
    assert rest.startswith("slow 1.0.0: 1 rule changed.\n")
    for use in ledger["recipes"]:
        del use["sha256"]
    Path("soft.cfg.ledger.json").write_text(json.dumps(ledger))
    assert program("rederive", "soft.cfg", "--check").code == 0


def test_what_is_missing_is_named(program: Callable[..., Any]) -> None:
    for command in ("review", "rederive"):
        ran = program(command, "nothere.cfg")
        assert (ran.code, ran.codes) == (2, ("no-file",))
        assert "There is no such file" in ran.err
    assert program("review", "base.cfg").codes == ("no-ledger",)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes here")
def test_a_ledger_that_names_pipes_is_not_waited_for(program: Callable[..., Any]) -> None:
    path = Path("soft.cfg.ledger.json")
    data = json.loads(path.read_text())
    os.mkfifo("pipe.toml")
    for member in ("bases", "recipes"):
        path.write_text(json.dumps({**data, "call": {**data["call"], member: ["./pipe.toml"]}}))
        assert program("rederive", "soft.cfg", "--check").code == 2
        assert program("rederive", "soft.cfg", "-o", "x.cfg").code == 2
        assert program("review", "soft.cfg").code == 0
    path.unlink()
    os.mkfifo(path)
    for call in (("review", "soft.cfg"), ("rederive", "soft.cfg"), ("rederive", "soft.cfg", "--check")):
        assert program(*call).code == 2


WRONG: tuple[Any, ...] = (None, 3, "x", [], ["x"], {}, {"x": "y"}, [{"name": "soft.cfg"}], "../../x")


@pytest.mark.parametrize(
    "member",
    [
        "files",
        "outputs",
        "made",
        "call",
        "history",
        "facts",
        "recipes",
        "rows",
        "base",
        "derived",
        "unmapped",
        "key_map",
        "key_map_file",
    ],
)
def test_a_damaged_ledger_is_refused_or_does_no_harm(member: str) -> None:
    path = Path("soft.cfg.ledger.json")
    data = json.loads(path.read_text())
    for wrong in WRONG:
        path.write_text(json.dumps({**data, member: wrong}))
        check_all(["soft.cfg"], [], None)
        try:
            made = merge(base="base.cfg")
        except Refused:
            continue
        assert text(made) == BASE.replace("rim = 80", "rim = 40") or member == "recipes"


def test_a_share_of_a_key_that_is_no_setting() -> None:
    binding = '[[binding]]\nsetting = "first_layer.speed"\nkey = "first"\nunit = "%"\nrelative_key = "nominal"\n'
    Path("map.toml").write_text(MAP + binding)
    Path("base.cfg").write_text(BASE + "nominal = 60\nfirst = 50\n")
    write(derive(Request(("base.cfg",), "map.toml", ("slow.toml",))), "soft.cfg", overwrite=True)
    edit("soft.cfg", ("nominal = 60", "nominal = 50"))
    edit("base.cfg", ("lamp = 60", "lamp = 61"), to="new.cfg")
    made = merge()
    assert told(made) == {"nominal": KEPT}
    assert {"nominal = 50", "first = 50"} <= set(text(made).splitlines())
    edit("soft.cfg", ("first = 50", "first = 40"))
    edit("base.cfg", ("nominal = 60", "nominal = 70"), to="new.cfg")
    made = merge("base")
    assert told(made) == {"nominal": CONFLICT, "first_layer.speed": KEPT}
    assert {"nominal = 70", "first = 40"} <= set(text(made).splitlines())


@pytest.mark.parametrize("once", ['shift = "5 mm/s"', 'scale = "110 %"'])
def test_a_rule_that_is_done_once_is_not_overruled_by_an_edit_of_its_result(once: str) -> None:
    """It would move any value again: to call it broken would tell of a conflict that there is none of."""
    Path("slow.toml").write_text(
        RECIPE
        + f'[[rule]]\nsetting = "bed.temperature"\n{once.replace("mm/s", "°C")}\nwhy = "test"\n'.replace(
            'setting = "bed.temperature"\nscale', 'setting = "retraction.distance"\nscale'
        )
    )
    write(derive(Request(("base.cfg",), "map.toml", ("slow.toml",))), "soft.cfg", overwrite=True)
    shown = Path("soft.cfg").read_text()
    if once.startswith("shift"):
        assert "pair = 205/70" in shown
        edit("soft.cfg", ("205/70", "205/75"))
        assert one(merge(base="base.cfg"), "bed.temperature").overrules == ""
    else:
        assert "pull = 2.2,2.2" in shown
        edit("soft.cfg", ("pull = 2.2,2.2", "pull = 3.0,3.0"))
        assert one(merge(base="base.cfg"), "retraction.distance").overrules == ""
