"""Plans and logs as files: what is wrong is named with its line, and nothing that was changed is believed."""

import json
from pathlib import Path

import pytest

from profilesmith.coupon.load_plan import parse_plan
from profilesmith.coupon.log import LogLine, line_json, line_text, prints
from profilesmith.coupon.prints_to_make import next_prints, pair_order, screen_order
from profilesmith.coupon.read_log import parse_log
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

PLANS = Path(__file__).parent / "plans"
VOCABULARY = load_vocabulary()
WALLS = (PLANS / "walls.toml").read_text(encoding="utf-8")
STRINGS = (PLANS / "strings.toml").read_text(encoding="utf-8")
PATTERN = (PLANS / "pattern.toml").read_text(encoding="utf-8")


def codes(text: str) -> list[tuple[str, int | None]]:
    _, problems = parse_plan(text.encode(), "plan.toml", VOCABULARY)
    return [(problem.code, problem.place.line) for problem in problems]


@pytest.mark.parametrize(
    ("plan", "old", "new", "code", "line"),
    [
        (WALLS, '"threshold"', '"guess"', "word", 5),
        (WALLS, 'name = "walls"', 'name = "The Walls"', "name", 4),
        (WALLS, '"5b1d90c4"', '"5B1D"', "mark", 9),
        (WALLS, '"12 mm/s", "90 mm/s"', '"90 mm/s", "12 mm/s"', "range", 13),
        (WALLS, '"12 mm/s"', '"12 mm"', "setting-value", 13),
        (WALLS, '"90 mm/s"', '"90000 mm/s"', "setting-value", 13),
        (WALLS, 'worse = "high"\n', "", "worse", 11),
        (WALLS, '"outer_wall.speed"', '"outer_wall.sped"', "unknown-setting", 12),
        (WALLS, 'within = "10 %"', 'within = "4 mm/s"', "within", 18),
        (WALLS, 'sure = "90 %"', 'sure = "100 %"', "sure", 19),
        (WALLS, "most = 24", "most = 400", "most", 20),
        (STRINGS, "most = 12", "most = 13", "factors", 3),
        (STRINGS, '"travel.speed"', '"fan.power"', "setting-value", 19),
        (PATTERN, "most = 6", "most = 5", "too-few", 18),
        (PATTERN, 'way = "blind"', 'way = "graded"', "too-few", 18),
        (PATTERN, '"grid", "gyroid"', '"grid", "waffle"', "setting-value", 12),
        (PATTERN, '"off", "on"', '"on", "on"', "range", 16),
    ],
)
def test_mistakes_of_plans(plan: str, old: str, new: str, code: str, line: int) -> None:
    assert old in plan
    assert (code, line) in codes(plan.replace(old, new, 1))


def test_plans_read() -> None:
    assert codes(WALLS) == codes(STRINGS) == codes(PATTERN) == []


def test_a_screen_prints_every_row_once_in_a_drawn_order() -> None:
    plan, _ = parse_plan(STRINGS.encode(), "strings.toml", VOCABULARY)
    assert plan is not None
    rows = screen_order(plan)
    assert len(set(rows)) == len(rows) == 12
    assert rows != screen_order(plan._replace(mark="00c0ffed"))
    made = next_prints(plan, [], 99, VOCABULARY)
    assert [item.number for item in made] == list(range(1, 13))
    hot = [row[1] > 0 for row in rows]
    assert [item.values["nozzle.temperature"] == "220 °C" for item in made] == hot


def test_blind_pairs_have_each_side_left_equally_often() -> None:
    plan, _ = parse_plan(PATTERN.encode(), "pattern.toml", VOCABULARY)
    assert plan is not None
    assert sum(row[0] for row in pair_order(plan)) == 0
    for item in next_prints(plan, [], 6, VOCABULARY):
        assert {item.values["infill.pattern"], item.other["infill.pattern"]} == {"grid", "gyroid"}
        assert {item.values["raft.on"], item.other["raft.on"]} == {"on", "off"}


ASKED = LogLine("asked", "walls", 1, "2030-01-31", "0123abcd", {"outer_wall.speed": "44 mm/s"})
GRADED = LogLine("graded", "walls", 1, "2030-01-31", "0123abce", grade="fair", note="Two hairs.")


def test_a_log_comes_back() -> None:
    raw = (line_text(ASKED) + line_text(GRADED) + line_text(GRADED)).encode()
    loaded = parse_log(raw, "walls.log.jsonl", None, VOCABULARY)
    assert loaded.problems == ()
    assert [line.id for line in loaded.lines] == [ASKED.id, GRADED.id]  # what a merge doubled counts once
    (made,) = prints(loaded.lines)
    assert (made.grade, made.values) == ("fair", {"outer_wall.speed": "44 mm/s"})


def test_a_later_grade_counts_and_says_what_was_printed() -> None:
    again = GRADED._replace(grade="good", values={"outer_wall.speed": "40 mm/s"}, mark="0123abcf")
    (made,) = prints([ASKED, GRADED, again])
    assert (made.grade, made.values["outer_wall.speed"]) == ("good", "40 mm/s")


@pytest.mark.parametrize(
    ("member", "value"),
    [
        ("grade", "good"),
        ("grade", "fine"),
        ("print", 2),
        ("print", 0),
        ("print", True),
        ("plan", "other"),
        ("date", "2030-02-31"),
        ("values", {"outer_wall.speed": "44 mm"}),
        ("values", {"outer_wall.sped": "44 mm/s"}),
        ("unheard", 1),
        ("format", 2),
    ],
)
def test_a_changed_line_is_refused(member: str, value: object) -> None:
    plan, _ = parse_plan(WALLS.encode(), "walls.toml", VOCABULARY)
    data = {**line_json(GRADED), member: value}
    loaded = parse_log(json.dumps(data).encode(), "walls.log.jsonl", plan, VOCABULARY)
    assert loaded.lines == ()
    assert [problem.place.line for problem in loaded.problems] == [1]


@pytest.mark.parametrize("raw", [b"{", b"[1]", b"\xff\xfe", b'"x"', b"[" * 5000, b'{"format": 1}', b"1" * 9000])
def test_what_is_no_log_is_named(raw: bytes) -> None:
    assert parse_log(raw, "x.log.jsonl", None, VOCABULARY).problems
