"""Mending files: what is written, what the ledger carries on, what goes back, what other commands make of it."""

from __future__ import annotations

import json
import re
import shutil
import tomllib
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from profilesmith.engine.advice import advice_json
from profilesmith.engine.mend import Said, road_in
from profilesmith.foundation.problem import Refused
from profilesmith.mend.load_troubles import shipped_troubles
from profilesmith.mend.proposal import Move
from profilesmith.reports.mend import advice_lines, ends_words
from profilesmith.review.look_first import look_first_points
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.from_ledger import recipe_from_ledger
from profilesmith.workflows.mend import mend
from profilesmith.workflows.mend_said import read_did, read_looks, read_seen
from profilesmith.workflows.printed import printed_from_derived
from profilesmith.workflows.rederive.check import check_all
from profilesmith.workflows.rederive.rederive import rederive
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import review_again
from profilesmith.workflows.write_mend import undo, write_mend

Program = Callable[..., Any]
ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "recipes" / "demo"
KNOWN = shipped_troubles()
TORN = Said({"stringing": "poor", "supports torn out": "poor"}, {"hiss": False, "drops": True}, date="2030-01-31")


@pytest.fixture
def soft(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    for name in ("base.settings", "keymap.toml", "machine.toml", "spool.toml"):
        shutil.copyfile(DEMO / name, tmp_path / name)
    monkeypatch.chdir(tmp_path)
    request = Request(("base.settings",), "keymap.toml", ("flexible-pla",), ("machine.toml", "spool.toml"))
    write(derive(request), "soft.settings")
    return "soft.settings"


def mended(name: str, said: Said, out: str) -> None:
    write(write_mend(mend(name, said, KNOWN), said), out)


def value(name: str, setting: str) -> Fraction:
    found = load_ledger(name).ledger.derived.entries[setting].values[0]
    assert isinstance(found, Fraction)
    return found


def test_advice_writes_nothing(soft: str) -> None:
    before = {path.name: path.read_bytes() for path in Path().iterdir()}
    text = "\n".join(advice_lines(mend(soft, TORN, KNOWN), KNOWN))
    assert {path.name: path.read_bytes() for path in Path().iterdir()} == before
    assert "nozzle.temperature 215 °C → 210 °C" in text
    assert "Recipes, spool and machine let it go from 210 °C to 220 °C." in text
    assert "Costs: " in text
    assert "In the next print look at: " in text


def test_only_the_mended_value_changes(soft: str) -> None:
    mended(soft, TORN, "two.settings")
    before, after = (Path(name).read_bytes().split(b"\n") for name in (soft, "two.settings"))
    assert len([1 for old, new in zip(before, after, strict=True) if old != new]) == 1
    assert value("two.settings", "nozzle.temperature") == 210


def test_what_went_along_is_told_before_and_goes_back_with_it(soft: str) -> None:
    slow = Said({"gaps in walls": "poor"}, {"hiss": False})
    mended(soft, slow, "one.settings")
    mended("one.settings", slow._replace(last="same"), "two.settings")
    back = mend("two.settings", slow._replace(last="worse"), KNOWN)
    mended("two.settings", slow._replace(last="worse"), "three.settings")
    walls = {"outer_wall.speed", "inner_wall.speed", "infill.speed", "top.speed", "bottom.speed"}
    assert {item.setting for item in back.changes} >= walls
    for item in back.changes:
        assert item.before == value("two.settings", item.setting) != item.after
        assert item.after == value("three.settings", item.setting)
        assert item.setting not in walls or item.after == value("one.settings", item.setting)
    assert "Along with it: inner_wall.speed 16 mm/s → 24 mm/s" in "\n".join(advice_lines(back, KNOWN))


def test_a_mend_is_a_rule_with_a_reason(soft: str) -> None:
    mended(soft, TORN, "two.settings")
    stored = load_ledger("two.settings")
    row = next(row for row in stored.ledger.rows if row.cause.recipe == "mends" and row.setting == "nozzle.temperature")
    assert row.status == "changed"
    assert "hotter than it needs" in row.cause.why
    assert row.cause.source == "common practice"
    assert [use.name for use in stored.named] == ["flexible-pla"]
    again = review_again("two.settings")
    assert again.edited == ()
    assert any("nozzle.temperature 215 °C → 210 °C" in line for line in again.review.road)


@pytest.fixture
def blocks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, bind: Callable[..., str], rule: Callable[..., str]) -> None:
    """A text whose start block heats bed and nozzle to the old values; a recipe that moves both."""
    monkeypatch.chdir(tmp_path)
    Path("base.cfg").write_text("tip = 205\nplate = 60\nstart = M190 S60\\nM109 S205\n", encoding="utf-8")
    bound = bind("nozzle.temperature", "tip") + bind("bed.temperature", "plate")
    Path("map.toml").write_text(f"format = 1\n{bound}", encoding="utf-8")
    rules = rule("nozzle.temperature", 'window = ["210 °C", "220 °C"]\naim = "215 °C"') + rule(
        "bed.temperature", 'aim = "50 °C"'
    )
    Path("hot.toml").write_text(f'format = 1\n[recipe]\nname = "hot"\nversion = "1.0.0"\n{rules}', encoding="utf-8")


@pytest.mark.parametrize(
    ("way", "derived", "mended"),
    [
        ("follow", r"M190 S50\nM109 S215", r"M190 S50\nM109 S210"),
        ("keep", r"M190 S60\nM109 S205", r"M190 S60\nM109 S205"),
    ],
)
def test_a_start_block_changes_only_for_a_temperature_that_the_mend_moved(
    way: str, derived: str, mended: str, blocks: None, program: Program
) -> None:
    """Where it was told to follow, the nozzle's command goes along and the bed's stays; where it was kept, both stay
    and are pointed at.
    """
    on_base = ("derive", "base.cfg", "--keymap", "map.toml", "--recipe", "hot.toml", "-q")
    assert program(*on_base, "--start-block", way, "-o", "one.cfg").code == 0
    assert Path("one.cfg").read_text(encoding="utf-8") == f"tip = 215\nplate = 50\nstart = {derived}\n"
    seen = ("--saw", "stringing=poor", "--look", "hiss=no", "--look", "drops=yes")
    ran = program("mend", "one.cfg", *seen, "-o", "two.cfg")
    assert ran.code == 0, ran.err
    assert Path("two.cfg").read_text(encoding="utf-8") == f"tip = 210\nplate = 50\nstart = {mended}\n"
    assert ("Machine commands in start blocks that need a look: 2" in ran.err) is (way == "keep")
    assert program("mend", "two.cfg", "--undo", "-o", "three.cfg").code == 0
    assert Path("three.cfg").read_bytes() == Path("one.cfg").read_bytes()


def test_costs_come_from_the_checks(soft: str) -> None:
    """Half the speed takes at most twice the time; nobody says how thick the part is."""
    found = mend(soft, Said({"layers part": "poor"}, changes=2), KNOWN)
    text = "\n".join(advice_lines(found, KNOWN))
    figures = {item["figure"]: item for item in advice_json(found)["costs"]["figures"]}
    moved = {move.setting: (move.before, move.after) for item in found.chosen for move in item.moves}
    before, after = (float(value) for value in moved["outer_wall.speed"])
    thick, thin = (float(value) for value in moved["layer.height"])
    low, high = figures["print_time"]["after"]
    assert low == pytest.approx(thick / thin)
    assert high == pytest.approx(thick / thin * before / after)
    assert "By the checks: print time " in text
    assert "Careful: The print takes longer" in text
    assert "(fact part.thickness)" in text


def test_going_on_and_back(soft: str) -> None:
    mended(soft, TORN, "two.settings")
    better = Said({"stringing": "good", "supports torn out": "fair"}, last="better", rest_good=True)
    mended("two.settings", better, "three.settings")
    assert value("three.settings", "support.gap") > value("two.settings", "support.gap")
    write(undo("three.settings", Said(last="worse")), "four.settings")
    assert Path("four.settings").read_bytes() == Path("two.settings").read_bytes()
    write(undo("four.settings", Said()), "five.settings")
    assert Path("five.settings").read_bytes() == Path(soft).read_bytes()
    with pytest.raises(Refused, match="no mend to undo"):
        undo("five.settings", Said())


def test_what_made_it_worse_is_not_proposed_again(soft: str) -> None:
    mended(soft, TORN, "two.settings")
    worse = Said({"stringing": "poor", "supports torn out": "poor", "gaps in walls": "poor"}, last="worse")
    found = mend("two.settings", worse, KNOWN)
    for item in found.proposals:
        for move in item.moves:
            assert not (move.setting == "nozzle.temperature" and move.after < 210)  # type: ignore[operator]
    (back,) = [move for move in found.proposals[0].moves if move.setting == "nozzle.temperature"]
    assert back.after >= 215  # type: ignore[operator]


def test_what_is_not_named_any_more_is_taken_as_gone_and_never_written_as_seen(soft: str) -> None:
    mended(soft, Said({"stringing": "poor", "layers part": "poor"}), "two.settings")
    said = Said({"stringing": "poor"}, {"hiss": False, "drops": True}, last="same")
    found = mend("two.settings", said, KNOWN)
    assert found.so_far.gone == ("layers part",)
    assert "Not named any more, so taken as gone: layers part." in advice_lines(found, KNOWN)
    assert {item.trouble.name for item in found.proposals if item.trouble} <= {"stringing"}
    write(write_mend(found, said), "three.settings")
    road = road_in(load_ledger("three.settings"), "three.settings")
    assert [dict(step.seen) for step in road] == [{"stringing": "poor", "layers part": "poor"}, {"stringing": "poor"}]
    verdict_only = Said(last="better")
    found = mend("three.settings", verdict_only, KNOWN)
    assert found.so_far.seen["stringing"] == "fair"  # a grade better than it was: only taken to be so
    write(write_mend(found, verdict_only), "four.settings")
    assert road_in(load_ledger("four.settings"), "four.settings")[-1].seen == {}


def test_what_only_went_along_is_not_proposed_by_itself(soft: str) -> None:
    mended(soft, Said({"layers part": "poor"}), "two.settings")
    steps = road_in(load_ledger("two.settings"), "two.settings")
    along = {change.setting for change in steps[0].changes if not change.trouble}
    assert {"inner_wall.speed", "infill.speed"} <= along
    found = mend("two.settings", Said({"stringing": "fair", "layers part": "fair"}, last="better"), KNOWN)
    assert found.proposals
    for item in found.proposals:
        assert not along & {move.setting for move in item.moves}
        assert item.do or item.trouble, "nothing is taken back that did good"


def test_hand_edits_stay(soft: str) -> None:
    text = Path(soft).read_text(encoding="utf-8")
    assert re.search(r"^lid_lamp = 60", text, re.M)
    edited = re.sub(r"^lid_lamp = 60", "lid_lamp = 45", text, flags=re.M)
    Path(soft).write_text(edited, encoding="utf-8")
    mended(soft, TORN, "two.settings")
    assert "lid_lamp = 45" in Path("two.settings").read_text(encoding="utf-8")


def edited_and_mended(soft: str) -> None:
    """A wall faster than rule 1 allows, a filling that no rule speaks of, and then a mend."""
    text = Path(soft).read_text(encoding="utf-8")
    for old, new in (("feed = 2400", "feed = 2700"), ("\nshare = 15\nweave", "\nshare = 12\nweave")):
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    Path(soft).write_text(text, encoding="utf-8")
    mended(soft, TORN, "two.settings")


def test_hand_edits_that_a_mend_carried_along_stay_marked(soft: str) -> None:
    edited_and_mended(soft)
    mended("two.settings", TORN._replace(last="same"), "three.settings")
    for name in ("two.settings", "three.settings"):
        again = review_again(name)
        assert again.edited == ()
        rows = {change.setting: change for change in again.review.edited()}
        assert (rows["outer_wall.speed"].recipe_value, rows["outer_wall.speed"].derived) == ("40 mm/s", "45 mm/s")
        assert (rows["infill.density"].recipe_value, rows["infill.density"].derived) == ("15 %", "12 %")
        assert "nozzle.temperature" not in rows
        broken = [point for point in look_first_points(again.review) if point.kind == "edit"]
        assert broken[0].text.startswith("outer_wall.speed is 45 mm/s by hand, the recipe made it 40 mm/s; it breaks")
        assert not any("outer_wall.speed (" in text for text in again.review.edits)
        assert "with values by hand that were kept: " in again.review.notes[0]


def test_an_edit_that_is_put_back_after_the_mend_is_none_any_more(soft: str) -> None:
    edited_and_mended(soft)
    text = Path("two.settings").read_text(encoding="utf-8")
    Path("two.settings").write_text(text.replace("feed = 2700", "feed = 2400"), encoding="utf-8")
    again = review_again("two.settings")
    assert again.edited
    assert not any(change.breaks for change in again.review.edited())
    printed = printed_from_derived("two.settings", Request((), ""), "printed")
    assert "infill.density" in printed.by_hand


def test_evidence_names_the_edits_that_a_mend_carried_along(soft: str) -> None:
    edited_and_mended(soft)
    printed = printed_from_derived("two.settings", Request((), ""))
    assert printed.by_hand == ("outer_wall.speed", "infill.density")
    assert printed.values["infill.density"] == "12 %"


def test_a_verdict_before_any_mend_is_refused(soft: str) -> None:
    with pytest.raises(Refused) as refused:
        mend(soft, TORN._replace(last="better"), KNOWN)
    (problem,) = refused.value.problems
    assert (problem.code, problem.message) == ("no-mend", "Nothing was mended yet, so no mend can be judged.")
    assert "print that" in problem.hint


@pytest.mark.parametrize(
    ("low", "high", "told"),
    [
        (1, 1000, "No recipe, spool or machine bounds it."),
        (1, 200, "Recipes, spool and machine let it go up to 200 mm/s; none of them bounds it downward."),
        (20, 1000, "Recipes, spool and machine let it go down to 20 mm/s; none of them bounds it upward."),
        (20, 200, "Recipes, spool and machine let it go from 20 mm/s to 200 mm/s."),
    ],
)
def test_a_plausible_range_is_not_called_a_bound(low: int, high: int, told: str) -> None:
    move = Move("travel.speed", Fraction(180), Fraction(220), Fraction(low), Fraction(high))
    assert ends_words(move) == told


def test_bounds_of_recipes_and_spool_hold(soft: str) -> None:
    """However often it is said that the melt is too hot: the spool's window holds."""
    name = soft
    for number in range(4):
        said = Said(
            {"stringing": "poor"}, {"hiss": False, "drops": True}, ("dry the spool",), last="same" if number else ""
        )
        found = mend(name, said, KNOWN)
        if not found.chosen:
            break
        out = f"round-{number}.settings"
        write(write_mend(found, said), out)
        name = out
        assert value(name, "nozzle.temperature") >= 210


def test_rederive_keeps_mends_and_knows_them(soft: str) -> None:
    mended(soft, TORN, "two.settings")
    better = Path("base.settings").read_text(encoding="utf-8").replace("knit = 18", "knit = 22")
    Path("better.settings").write_text(better, encoding="utf-8")
    write(
        rederive(["two.settings"], Request(("better.settings",), ""), lambda decision: "derived").derivation,
        "again.settings",
    )
    assert value("again.settings", "nozzle.temperature") == 210
    assert road_in(load_ledger("again.settings"), "again.settings") == road_in(
        load_ledger("two.settings"), "two.settings"
    )
    (age,) = check_all(["two.settings"], ["base.settings"], None)
    assert (age.behind, age.unknown) == ((), ())


def test_evidence_is_of_the_recipes_and_names_what_was_mended(soft: str) -> None:
    mended(soft, TORN, "two.settings")
    printed = printed_from_derived("two.settings", Request((), ""))
    assert tuple(printed.recipes) == ("flexible-pla",)
    assert printed.by_hand == ()  # a mend is named as one
    assert [change.setting for step in printed.road for change in step.changes] == ["nozzle.temperature"]
    assert printed.values["nozzle.temperature"] == "210 °C"


def test_what_helped_is_a_small_recipe_of_steps(soft: str) -> None:
    mended(soft, TORN, "two.settings")
    with pytest.raises(Refused, match="known to have helped"):
        recipe_from_ledger("two.settings", "helped.toml")
    mended("two.settings", Said({"supports torn out": "fair"}, last="better", rest_good=True), "three.settings")
    recipe = recipe_from_ledger("three.settings", "helped.toml", "same")
    assert recipe.once
    content = tomllib.loads(Path("helped.toml").read_text(encoding="utf-8"))
    assert [(rule["setting"], rule["shift"]) for rule in content["rule"]] == [("nozzle.temperature", "-5 °C")]
    recipe = recipe_from_ledger("three.settings", "helped.toml", "better", overwrite=True)
    assert [rule.named for rule in recipe.rules] == [("nozzle.temperature",), ("support.gap",)]


def test_several_changes_at_once(soft: str) -> None:
    said = Said({"gaps in walls": "poor", "supports torn out": "poor"}, {"hiss": False}, changes=2)
    found = mend(soft, said, KNOWN)
    assert len({move.setting for item in found.chosen for move in item.moves}) == 2


def test_what_is_no_setting_stands_first_in_words(soft: str) -> None:
    found = mend(soft, Said({"stringing": "poor", "steam or bubbles": "poor"}), KNOWN)
    lines = advice_lines(found, KNOWN)
    assert lines[1].startswith("Before any setting: dry the spool")
    assert advice_json(found)["proposals"][0]["do"] == "dry the spool"


def test_heat_and_hours_are_cautioned(soft: str) -> None:
    seen = dict.fromkeys(KNOWN.troubles, "good") | {"layers part": "poor"}
    text = "\n".join(advice_lines(mend(soft, Said(seen, {"matt walls": True}), KNOWN), KNOWN))
    assert "nozzle.temperature 215 °C → 220 °C" in text
    assert "Careful: It raises heat" in text
    seen = dict.fromkeys(KNOWN.troubles, "good") | {"tall parts wobble": "poor"}
    text = "\n".join(advice_lines(mend(soft, Said(seen), KNOWN), KNOWN))
    assert "Careful: The print takes longer" in text


def test_a_base_that_went_away_is_named(soft: str) -> None:
    Path("base.settings").unlink()
    with pytest.raises(Refused, match="base that the file was derived from is not there"):
        mend(soft, TORN, KNOWN)


def test_words_of_the_maker() -> None:
    assert read_seen(["Fäden=poor", "supports_torn = fair"], KNOWN) == {
        "stringing": "poor",
        "supports torn out": "fair",
    }
    assert read_looks(["hiss=yes"], KNOWN) == {"hiss": True}
    assert read_did(["dry the spool"], KNOWN) == ("dry the spool",)
    for texts, words in (
        (["stringing"], "no grade"),
        (["supports=poor"], "several"),
        (["strinking=poor"], "No trouble"),
    ):
        with pytest.raises(Refused, match=words):
            read_seen(texts, KNOWN)


@pytest.mark.parametrize("harm", ["last", "changes", "setting"])
def test_a_damaged_road_is_refused(soft: str, harm: str) -> None:
    mended(soft, TORN, "two.settings")
    place = Path("two.settings.ledger.json")
    data = json.loads(place.read_text(encoding="utf-8"))
    if harm == "setting":
        data["mends"][0]["changes"][0]["setting"] = "nozzle.colour"
    elif harm == "last":
        data["mends"][0]["last"] = "splendid"
    else:
        del data["mends"][0]["changes"]
    place.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(Refused):
        mend("two.settings", TORN, KNOWN)


def test_evidence_keeps_what_was_seen_and_what_came_of_the_mends(soft: str, program: Program) -> None:
    mended(soft, TORN, "two.settings")
    mended("two.settings", Said({"stringing": "fair"}, last="better", date="2020-02-01"), "three.settings")
    assert program("library", "new", "bench", "-q").code == 0
    add = (
        "evidence",
        "add",
        "--derived",
        "three.settings",
        "--outcome",
        "worked",
        "--library",
        "bench",
        "--values",
        "now",
    )
    ran = program(*add, "--saw", "stringing=good", "--last", "better", "--date", "2020-02-02")
    assert ran.code == 0, ran.err
    (line,) = Path("bench/evidence/flexible-pla.jsonl").read_text(encoding="utf-8").splitlines()
    found = json.loads(line)
    assert found["seen"] == {"stringing": "good"}
    assert [(item["date"], item["came"], item["troubles"]) for item in found["mends"]] == [
        ("2030-01-31", "better", ["stringing"]),
        ("2020-02-01", "better", ["stringing"]),
    ]
    assert found["mends"][0]["changes"] == {"nozzle.temperature": ["215 °C", "210 °C"]}
    assert program("library", "check", "bench").code == 0
    told = program("evidence", "list", "--library", "bench").out
    assert "stringing: nozzle.temperature down: better 1 of 1" in told


@pytest.mark.parametrize(
    ("words", "code"),
    [(("--last", "great"), "last"), (("--last", "better"), "no-mend"), (("--saw", "sings=poor"), "saw")],
)
def test_a_verdict_without_a_mend_and_unknown_troubles_are_refused(
    soft: str, program: Program, words: tuple[str, ...], code: str
) -> None:
    program("library", "new", "bench", "-q")
    add = ("evidence", "add", "--derived", soft, "--outcome", "worked", "--library", "bench", "--values", "now")
    ran = program(*add, *words)
    assert (ran.code, ran.codes) == (2, (code,))
    assert not Path("bench/evidence/flexible-pla.jsonl").exists()
