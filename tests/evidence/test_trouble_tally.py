"""Which troubles were seen, and what helped: every print and every mend counts once, with exact intervals."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from profilesmith.evidence.of_road import NowPrinted, tried_mends
from profilesmith.evidence.record import Record
from profilesmith.evidence.tried_mend import MOST_MENDS, TriedMend
from profilesmith.evidence.trouble_tally import TriedTogether, troubles_seen, what_helped
from profilesmith.evidence.trouble_words import trouble_lines
from profilesmith.mend.road import RoadChange, RoadStep
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

VOCABULARY = load_vocabulary()
COOLER = {"nozzle.temperature": ("215 °C", "210 °C")}


def cooler(came: Any, **more: Any) -> TriedMend:
    return TriedMend("2030-01-30", {"stringing": "poor"}, ("stringing",), COOLER, (), came)._replace(**more)


def on_machines(record: Record, mends: list[TriedMend]) -> list[Record]:
    """A record of a machine of its own for each mend."""
    return [
        record._replace(mark=f"{number:08x}", facts={"machine.tube_length": f"{100 + number} mm"}, mends=(mend,))
        for number, mend in enumerate(mends)
    ]


def test_what_helped_is_counted_with_exact_limits(record: Record) -> None:
    """2 of 3: the ends are Clopper and Pearson's, 0.0943 and 0.9916 (NIST e-Handbook 7.2.4.1's method; R's
    binom.test(2, 3)).
    """
    found = what_helped(on_machines(record, [cooler("better"), cooler("better"), cooler("same")]), VOCABULARY)
    assert [(item.trouble, item.tried, item.better, item.same, item.worse) for item in found] == [
        ("stringing", TriedTogether((("nozzle.temperature", "down"),)), 2, 1, 0)
    ]
    assert found[0].interval.low == pytest.approx(0.0943, abs=5e-5)
    assert found[0].interval.high == pytest.approx(0.9916, abs=5e-5)


def test_up_down_and_doings_are_different_things(record: Record) -> None:
    mends = [
        cooler("better"),
        cooler("worse", changes={"nozzle.temperature": ("210 °C", "215 °C")}),
        cooler("better", changes={}, did=("dry the spool",)),
        cooler("same", did=("dry the spool",)),
        cooler("same", changes={"infill.pattern": ("grid", "gyroid")}),
    ]
    found = {
        item.tried: (item.better, item.same, item.worse) for item in what_helped(on_machines(record, mends), VOCABULARY)
    }
    down = ("nozzle.temperature", "down")
    assert found == {
        TriedTogether((down,)): (1, 0, 0),
        TriedTogether((("nozzle.temperature", "up"),)): (0, 0, 1),
        TriedTogether((), ("dry the spool",)): (1, 0, 0),
        TriedTogether((down,), ("dry the spool",)): (0, 1, 0),
        TriedTogether((("infill.pattern", "changed"),)): (0, 1, 0),
    }


def test_a_mend_on_the_road_of_two_records_counts_once(record: Record) -> None:
    first = record._replace(mark="00000001", mends=(cooler(""),))
    second = record._replace(
        mark="00000002", mends=(cooler("better"), cooler("same", date="2030-01-31", saw={"stringing": "fair"}))
    )
    third = record._replace(mark="00000003", mends=second.mends)
    assert [item.times for item in what_helped([first, second, third], VOCABULARY)] == [2]
    assert [(item.trouble, item.poor, item.fair) for item in troubles_seen([first, second, third])] == [
        ("stringing", 1, 1)
    ]


def test_what_nobody_judged_is_not_counted(record: Record) -> None:
    assert what_helped([record._replace(mends=(cooler(""),))], VOCABULARY) == ()


def test_a_print_that_is_a_record_and_stands_on_a_later_road_counts_once(record: Record) -> None:
    first = record._replace(date="2030-01-30", seen={"stringing": "poor", "top_pillows": "good"})
    second = record._replace(mark="00000002", seen={"stringing": "good"}, mends=(cooler("better"),))
    found = {item.trouble: (item.shown, item.looked) for item in troubles_seen([first, second])}
    assert found == {"stringing": (1, 2), "top_pillows": (0, 1)}
    assert (found["stringing"], troubles_seen([first, second])[0].trouble) == ((1, 2), "stringing")


def test_lines_tell_counts_and_ranges(record: Record) -> None:
    lines = trouble_lines(on_machines(record, [cooler("better"), cooler("same")]), VOCABULARY)
    assert "  stringing: in 2 of 2 prints that were looked at for it (2 poor): 15 % to 100 %, too few to tell" in lines
    assert (
        "  stringing: nozzle.temperature down: better 1 of 2 (1 no difference): 1 % to 99 %, too few to tell" in lines
    )
    assert trouble_lines([record], VOCABULARY) == []
    never = trouble_lines([record._replace(seen={"stringing": "good", "top pillows": "good"})], VOCABULARY)
    assert "  Looked for in so many prints, and never seen: stringing (1) and top pillows (1)." in never


def step(**more: Any) -> RoadStep:
    change = RoadChange(
        "nozzle.temperature", Fraction(215), Fraction(210), "stringing", "the melt is hotter than it needs"
    )
    return RoadStep({"stringing": "poor"}, {}, (change,), date="2030-01-30")._replace(**more)


def test_the_verdict_on_a_mend_is_said_by_the_next_one() -> None:
    steps = (step(), step(last="better", seen={"stringing": "fair"}, did=("dry the spool",)))
    first, second = tried_mends(steps, NowPrinted(last="worse"), VOCABULARY)
    assert (first.came, first.changes, first.did) == ("better", COOLER, ("dry the spool",))
    assert (second.came, second.did) == ("worse", ())


@pytest.mark.parametrize(("now", "came"), [("good", "better"), ("poor", "same")])
def test_where_nobody_says_it_the_grades_of_both_prints_do(now: Any, came: str) -> None:
    assert [item.came for item in tried_mends((step(),), NowPrinted({"stringing": now}), VOCABULARY)] == [came]
    assert [item.came for item in tried_mends((step(),), NowPrinted({"top_pillows": now}), VOCABULARY)] == [""]
    assert [item.came for item in tried_mends((step(),), NowPrinted({"stringing": now}, "worse"), VOCABULARY)] == [
        "worse"
    ]


def test_taking_back_is_no_mend_but_says_what_came_of_the_one_before() -> None:
    back = step(undo=True, last="worse", seen={})
    assert [(item.came, item.changes) for item in tried_mends((step(), back), NowPrinted(), VOCABULARY)] == [
        ("worse", COOLER)
    ]


def test_of_a_long_road_the_newest_are_kept() -> None:
    steps = tuple(step(date=f"2030-01-{number:02}") for number in range(1, 20))
    found = tried_mends(steps, NowPrinted(), VOCABULARY)
    assert [item.date for item in found] == [item.date for item in steps[-MOST_MENDS:]]
