"""Coupons from the command line's side: files, orders, grades, rules."""

from __future__ import annotations

import shutil
import tomllib
from fractions import Fraction
from pathlib import Path

import pytest

from profilesmith.foundation.problem import Refused
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.reports.coupon.prints import judged_lines, next_lines, plan_lines
from profilesmith.reports.coupon.results import tell_json, tell_lines
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.coupon.judge import judge_print
from profilesmith.workflows.coupon.next import next_of
from profilesmith.workflows.coupon.plan import Wish, make_plan
from profilesmith.workflows.coupon.tell import tell_of, told_of, write_rule
from profilesmith.workflows.derive import derive
from profilesmith.workflows.request import Request

ROOT = Path(__file__).resolve().parents[3]
DEMO = ROOT / "recipes" / "demo"
WALLS = Wish(
    "threshold",
    ("outer_wall.speed=12 mm/s to 90 mm/s",),
    "stringing",
    ("flexible-pla",),
    bases=("base.settings",),
    key_map="keymap.toml",
    facts=("machine.toml",),
)


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("base.settings", "keymap.toml", "machine.toml", "spool.toml"):
        shutil.copyfile(DEMO / name, tmp_path / name)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_plan_begins_at_the_recipes_value(bench: Path) -> None:
    plan = make_plan(WALLS, "walls.toml")
    assert (plan.name, plan.factors[0].around, plan.factors[0].worse) == ("walls", 40, "high")
    assert any("recipe's value 40 mm/s" in line for line in plan_lines(plan, "walls.toml"))
    with pytest.raises(Refused, match="exists already"):
        make_plan(WALLS, "walls.toml")


def test_a_plan_past_the_label_says_so_and_its_orders_keep_the_way_of_start_blocks(bench: Path) -> None:
    Path("label.toml").write_text('format = 1\n[spool]\nmaximum_printing_speed = "50 mm/s"\n')
    plan = make_plan(WALLS._replace(facts=("machine.toml", "label.toml"), start_block="follow"), "walls.toml")
    words = "outer_wall.speed goes up to 90 mm/s here; the spool's label says 50 mm/s at most."
    asked = next_of("walls.toml", date="2030-01-31")
    assert any(words in line for line in plan_lines(plan, "walls.toml"))
    assert any(words in line for line in next_lines(asked, None))
    assert tomllib.loads(Path("walls-order.toml").read_text())["order"]["start_block"] == "follow"
    below = make_plan(WALLS._replace(factors=("outer_wall.speed=12 mm/s to 50 mm/s",)), "below.toml")
    assert not any("label" in line for line in plan_lines(below, "below.toml"))


def test_next_writes_recipes_that_derive_what_is_asked(bench: Path) -> None:
    """Also beyond what the plan's recipe allows; the rest of that recipe holds."""
    make_plan(WALLS, "walls.toml")
    result = next_of("walls.toml", date="2030-01-31")
    (item,) = result.prints
    wanted = item.values["outer_wall.speed"]
    assert wanted != "40 mm/s"
    assert result.order == Path("walls-order.toml")
    vocabulary = load_vocabulary()
    for name in result.recipes[0][0]:
        _, problems = load_recipe(Path(name).read_bytes(), name, vocabulary)
        assert problems == []
    derived = derive(Request(("base.settings",), "keymap.toml", result.recipes[0][0], ("machine.toml", "spool.toml")))
    assert derived.problems == ()
    profile = derived.ledger.derived.entries
    assert vocabulary.settings["outer_wall.speed"].show(profile["outer_wall.speed"].values[0]) == wanted
    assert profile["inner_wall.speed"].values[0] <= 40
    assert tomllib.loads(Path("walls-order.toml").read_text())["job"][0]["out"] == "walls-01"


def test_an_open_print_is_asked_for_again_not_anew(bench: Path) -> None:
    make_plan(WALLS, "walls.toml")
    first = next_of("walls.toml", date="2030-01-31")
    assert next_of("walls.toml").prints == first.prints
    several = next_of("walls.toml", count=4).prints
    assert several[0] == first.prints[0]
    assert [item.number for item in several] == [1, 2, 3, 4]
    with pytest.raises(Refused, match="Several prints are open"):
        judge_print("walls.toml", "good")
    judge_print("walls.toml", "good", 2)
    assert [item.number for item in next_of("walls.toml").prints] == [1, 3, 4]


def test_to_the_rule_and_into_a_derivation(bench: Path) -> None:
    make_plan(WALLS, "walls.toml")
    for _ in range(6):
        (item,) = next_of("walls.toml").prints
        speed = float(item.values["outer_wall.speed"].split()[0])
        graded = judge_print("walls.toml", "good" if speed < 34 else "fair" if speed < 40 else "poor")
        lines = judged_lines(graded, told_of(graded.coupon))
        assert any("evidence add --derived" in line and line.endswith("--library LIBRARY") for line in lines)
    result = tell_of("walls.toml")
    (key,) = result.rule
    assert key == "cap"
    text = "\n".join(tell_lines(result))
    assert "R" in text
    assert "9 of 10 are good up to" in text
    assert tell_json(result)["rule"] == dict(result.rule)
    write_rule(result, "walls-rule.toml")
    derived = derive(Request(("base.settings",), "keymap.toml", ("flexible-pla", "walls-rule.toml"), ("machine.toml",)))
    cap = float(result.rule["cap"].split()[0])
    assert 15 < cap < 36
    assert derived.ledger.derived.entries["outer_wall.speed"].values[0] <= Fraction(result.rule["cap"].split()[0])


def test_what_was_printed_counts(bench: Path) -> None:
    make_plan(WALLS, "walls.toml")
    next_of("walls.toml")
    graded = judge_print("walls.toml", "poor", value="25 mm/s")
    assert graded.print.values == {"outer_wall.speed": "25 mm/s"}
    with pytest.raises(Refused, match="25 mm"):
        judge_print("walls.toml", "poor", 1, value="25 mm")


def test_too_few_prints_are_worth_no_rule(bench: Path) -> None:
    make_plan(WALLS, "walls.toml")
    next_of("walls.toml")
    judge_print("walls.toml", "good")
    with pytest.raises(Refused, match="no rule yet"):
        write_rule(tell_of("walls.toml"), "rule.toml")


def test_a_blurry_judge_is_told_so_before_the_last_print(bench: Path) -> None:
    make_plan(WALLS, "walls.toml")
    grades = iter(["good", "poor", "fair", "poor", "good", "fair", "good", "poor", "poor", "good", "fair", "good"])
    while next_of("walls.toml").prints:
        judge_print("walls.toml", next(grades))
    result = tell_of("walls.toml")
    text = "\n".join(tell_lines(result))
    assert "With grades this unsure" in text
    assert "better stop" in "\n".join(next_lines(next_of("walls.toml"), None))
    assert next_of("walls.toml", anyway=True).prints


def test_heat_is_never_freed_from_its_recipe(bench: Path) -> None:
    """A coupon on a temperature stays in the spool's window: its recipe is laid over unchanged."""
    wish = WALLS._replace(factors=("nozzle.temperature=190 °C to 240 °C",), worse="low", most=12)
    make_plan(wish, "heat.toml")
    assert next_of("heat.toml").recipes[0][0] == ("flexible-pla", "heat-01.toml")


def test_no_value_is_told_that_no_setting_has(bench: Path) -> None:
    """A length that begins at 0: the belief may reach below, the words do not, and no wider plan is asked for."""
    wish = Wish("threshold", ("retraction.distance=0 mm to 3 mm",), "stringing", worse="low")
    make_plan(wish, "pulls.toml")
    next_of("pulls.toml")
    judge_print("pulls.toml", "good")
    text = "\n".join(tell_lines(tell_of("pulls.toml")))
    assert "between 0 mm and" in text
    assert "-" not in text.split("between")[1].split(".")[0]
    assert "beyond the planned range" not in text


def test_a_pair_has_no_verdict_before_the_last(bench: Path) -> None:
    wish = Wish("pair", ("infill.pattern=grid to gyroid",), "softness", most=6, blind=True)
    plan = make_plan(wish, "pattern.toml")
    assert "3.1%" in "\n".join(plan_lines(plan, "pattern.toml"))
    for number in range(1, 7):
        assert tell_of("pattern.toml").told.verdict == ""  # type: ignore[union-attr]
        (item,) = next_of("pattern.toml").prints
        judge_print("pattern.toml", "left" if item.values["infill.pattern"] == "gyroid" else "right", number)
    told = tell_of("pattern.toml").told
    assert (told.verdict, float(told.chance)) == ("B", 1 / 32)  # type: ignore[union-attr]
    assert "B is better" in "\n".join(tell_lines(tell_of("pattern.toml")))


def test_a_graded_pair(bench: Path) -> None:
    make_plan(Wish("pair", ("infill.pattern=grid to gyroid",), "softness", most=8), "graded.toml")
    for item in next_of("graded.toml", count=8).prints:
        judge_print("graded.toml", "good" if item.values["infill.pattern"] == "grid" else "fair", item.number)
    told = tell_of("graded.toml").told
    assert told.verdict == "A"  # type: ignore[union-attr]
    assert float(told.chance) == pytest.approx(1 / 35)  # type: ignore[union-attr]
    with pytest.raises(Refused, match="no grade of this coupon"):
        judge_print("graded.toml", "left", 1)


def test_a_screen_is_ranked_and_names_what_it_mixes_up(bench: Path) -> None:
    factors = (
        "retraction.distance=0.8 mm to 2 mm",
        "nozzle.temperature=210 °C to 220 °C",
        "travel.speed=100 mm/s to 180 mm/s",
        "fan.power=30 % to 80 %",
        "outer_wall.speed=25 mm/s to 40 mm/s",
    )
    plan = make_plan(Wish("screen", factors, "stringing", most=12), "strings.toml")
    assert "ranked, not declared" in "\n".join(plan_lines(plan, "strings.toml"))
    for item in next_of("strings.toml", count=12).prints:
        cold, long = item.values["nozzle.temperature"] == "210 °C", item.values["retraction.distance"] == "2 mm"
        judge_print("strings.toml", ("poor", "fair", "good")[cold + long], item.number)
    text = "\n".join(tell_lines(tell_of("strings.toml")))
    first = [line for line in text.splitlines() if line.startswith(("  1.", "  2."))]
    assert {line.split()[1] for line in first} == {"retraction.distance", "nozzle.temperature"}
    assert "better at 2 mm" in text
    assert "holds a part of" in text
