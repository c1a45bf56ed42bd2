"""Sums that promise no more than the records allow."""

from __future__ import annotations

from typing import Any

import pytest

from profilesmith.evidence.record import Record
from profilesmith.evidence.tally import grades, line_of_version, others_say, says, short, tally


def test_three_of_three_is_told_with_its_lower_limit(others: Any) -> None:
    found = tally("slow", "1.0.0", others(3))
    assert says(found) == "Tried 3 times, worked 3 of 3: at least 29 % would work, with 95 % confidence."
    assert short(found) == "3 of 3 worked (29 % to 100 %)"


@pytest.mark.parametrize(
    ("outcomes", "told", "brief"),
    [
        (
            ["worked"],
            (
                "Tried once, worked 1 of 1: too few to tell (2 % to 100 % of such prints would work, with "
                "95 % confidence)."
            ),
            "1 of 1 worked, too few to tell (2 % to 100 %)",
        ),
        (
            ["failed", "worked"],
            (
                "Tried 2 times, worked 1 of 2, 1 failed: too few to tell (1 % to 99 % of such prints would "
                "work, with 95 % confidence)."
            ),
            "1 of 2 worked, too few to tell (1 % to 99 %)",
        ),
    ],
)
def test_of_one_or_two_prints_it_is_said_first_that_they_are_too_few(
    others: Any, outcomes: list[str], told: str, brief: str
) -> None:
    """The ends are Clopper and Pearson's: 0.05 / 2 = 0.025 for 1 of 1; 1 - sqrt(0.975) = 0.0126 for 1 of 2."""
    found = tally(
        "slow", "1.0.0", [item._replace(outcome=outcome) for item, outcome in zip(others(2), outcomes, strict=False)]
    )
    assert says(found) == told
    assert short(found) == brief


def test_the_newest_comes_first_and_of_one_day_the_one_entered_last(others: Any) -> None:
    first, second, old, third = others(4)
    found = tally("slow", "1.0.0", [first, second, old._replace(date="2029-12-31"), third])
    assert [item.mark for item in found.records] == [third.mark, second.mark, first.mark, old.mark]


def test_partly_counts_as_not_worked_and_is_shown(others: Any) -> None:
    records = others(4)
    records[0] = records[0]._replace(outcome="partly")
    records[1] = records[1]._replace(outcome="failed")
    found = tally("slow", "1.0.0", records)
    assert (found.tried, found.worked, found.partly, found.failed) == (4, 2, 1, 1)
    assert (
        says(found)
        == "Tried 4 times, worked 2 of 4, 1 partly, 1 failed: between 6 % and 94 % would work, with 95 % confidence."
    )


def test_none_that_worked(others: Any) -> None:
    found = tally("slow", "1.0.0", [item._replace(outcome="failed") for item in others(3)])
    assert "worked 0 of 3, 3 failed: at most 71 % would work" in says(found)


def test_without_records_nothing_is_claimed() -> None:
    found = tally("slow", "1.0.0", ())
    assert found.interval is None
    assert says(found).startswith("Not tried yet at version 1.0")
    assert short(found) == "not tried"


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("1.0.0", "1.0.9", True),
        ("1.0.0", "1.0.0+built", True),
        ("1.0.0", "1.1.0", False),
        ("1.0.0", "2.0.0", False),
        ("1.0.0", "1.0.0-draft", False),
        ("1.0.0-draft", "1.0.1-draft", True),
        ("1.1.0", "1.10.0", False),
    ],
)
def test_which_versions_count_together(one: str, other: str, same: bool) -> None:
    assert (line_of_version(one) == line_of_version(other)) is same


def test_records_of_other_versions_are_told_but_not_counted(others: Any) -> None:
    records = others(3)
    records[2] = records[2]._replace(version="0.9.0", outcome="failed")
    found = tally("slow", "1.0.4", records)
    assert (found.tried, found.worked) == (2, 2)
    assert others_say(found) == "Other versions (0.9): worked 0 of 1; it is not counted here."
    assert short(tally("slow", "2.0.0", records)) == "not tried (3 of other versions)"


def test_records_of_other_recipes_do_not_count(record: Record) -> None:
    assert tally("fast", "1.0.0", [record]).tried == 0


def test_grades_are_counted_where_somebody_judged(others: Any) -> None:
    records = others(3)
    records[1] = records[1]._replace(judged={"adhesion": "poor"})
    assert grades(tally("slow", "1.0.0", records)) == (("adhesion", (2, 0, 1)), ("stringing", (0, 2, 0)))
