"""How far a tuned value may lie from what a rule gives: half of what the text, or a hand, rounds to."""

from fractions import Fraction

import pytest

from profilesmith.distil.sample import Sample, SampleWorld, world_of
from profilesmith.profile.profile import Entry, Grid, Origin, Profile
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

WALL = "outer_wall.speed"


def profile(value: str, step: str) -> Profile:
    entry = Entry(WALL, (Fraction(value),), Origin("", 0, "", ""), (Grid(Fraction(step)),))
    return Profile({WALL: entry}, {}, {})


def world(after: str, step: str, written: str) -> SampleWorld:
    """A pair: 80 mm/s before, tuned to ``after`` in a text of some step, written by a hand in steps of ``written``."""
    sample = Sample("pair", "bench", profile("80", step), profile(after, step), {}, {WALL: (Fraction(written),)})
    return world_of([sample], load_vocabulary())


@pytest.mark.parametrize(
    ("after", "step", "written", "slack"),
    [
        ("40", "1", "1", "1/2"),  # half of a whole number
        ("40", "1", "0.1", "1/2"),  # the text can hold no more
        ("40", "0.01", "1", "1/2"),  # the hand wrote whole numbers where the text holds hundredths
        ("40", "0.01", "4", "2"),
        ("40", "0.01", "10", "5/2"),  # but a hand moves no value by more than a sixteenth of it
        ("4", "0.01", "10", "1/4"),
        ("160", "0.01", "10", "5"),
    ],
)
def test_slack(after: str, step: str, written: str, slack: str) -> None:
    """By hand: half of the coarser step, the hand's at most a sixteenth of the value (own threshold, of the design)."""
    (seen,) = world(after, step, written).seen[WALL]
    assert seen.slack == Fraction(slack)


@pytest.mark.parametrize(("after", "inside"), [("40", True), ("80", True), ("1000", False)])
def test_a_value_at_a_hard_limit_tells_less(after: str, inside: bool) -> None:
    """It may have been meant to lie beyond: the limit stopped it."""
    highest = load_vocabulary().settings[WALL].high
    (seen,) = world(after if inside else str(highest), "1", "1").seen[WALL]
    assert seen.inside is inside


def test_what_was_not_touched_is_seen_too() -> None:
    """A rule that would have moved it is thereby known to be none."""
    (seen,) = world("80", "1", "1").seen[WALL]
    assert not seen.touched
