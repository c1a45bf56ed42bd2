"""Least change: a value that already meets its bounds is not touched; one outside moves to the nearest bound."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given

from tests.laws.running import Outcome, law, run
from tests.laws.spellings import NUMBERS, Slot
from tests.laws.strategies import Scenario, scenarios


@law(110)
@given(scenarios())
def test_a_met_value_is_not_spelled_anew_and_another_moves_no_farther_than_it_must(scenario: Scenario) -> None:
    outcome = run(scenario)
    if outcome.problems:
        return
    before, after = outcome.values(after=False), outcome.values(after=True)
    for line, raw in outcome.pieces:
        for slot in line.slots:
            if slot.setting in NUMBERS:
                _number(outcome, slot, (line.raw, raw), before, after)
            else:
                _word(outcome, slot, (line.raw, raw), after)


def _number(outcome: Outcome, slot: Slot, raws: tuple[str, str], before, after) -> None:
    bounds = outcome.scenario.book.bounds(slot.setting, before, after)
    aims = outcome.scenario.book.aims(slot.setting)
    olds, news = slot.pieces(raws[0]), slot.pieces(raws[1])
    as_it_stands = slot.read(raws[0], after)  # a share of what its reference is now
    stays = before[slot.setting] if slot.held else as_it_stands
    for old, new, present, same, value in zip(olds, news, stays, as_it_stands, slot.read(raws[1], after), strict=True):
        target = aims[-1] if aims else present
        wanted = target if bounds is None else bounds.nearest(target)
        if wanted == same:
            assert new == old, f"{slot.setting} was met and is spelled anew"
        else:
            assert abs(value - wanted) < _step(slot, after), (
                f"{slot.setting} = {value} is farther from {wanted} than it must be"
            )


def _step(slot: Slot, after) -> Fraction:
    """The coarsest step of numbers that a value may be written in: the resolution, or a share's step of the whole."""
    step = Fraction(NUMBERS[slot.setting].step)
    if slot.reference is None:
        return step
    whole = after[slot.reference][0] if isinstance(slot.reference, str) else slot.reference
    return max(step, slot.step(whole))


def _word(outcome: Outcome, slot: Slot, raws: tuple[str, str], after) -> None:
    rules = outcome.scenario.book.on(slot.setting)
    sets = [rule.ops["set"][0] for rule in rules if "set" in rule.ops]
    wanted = (sets or outcome.scenario.book.aims(slot.setting) or [None])[-1]
    if wanted is None or slot.read(raws[0], after)[0] == wanted:
        assert raws[1] == raws[0]
    else:
        writable = slot.kind != "word" or wanted in slot.texts.values()
        assert slot.read(raws[1], after)[0] == (wanted if writable else slot.read(raws[0], after)[0])
