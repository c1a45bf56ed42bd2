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
    wanted = _shared(outcome, slot) if slot.sharers else _asked(outcome, slot.setting)
    if wanted is None or slot.read(raws[0], after)[0] == wanted:
        if slot.sharers:  # another switch of this key may have moved
            moved = {name for name in slot.sharers if name in outcome.moved}
            assert (raws[1] == raws[0]) is not bool(moved)
            assert slot.read(raws[1], after) == slot.read(raws[0], after)
        else:
            assert raws[1] == raws[0]
    else:
        writable = slot.kind != "word" or wanted in slot.texts.values()
        assert slot.read(raws[1], after)[0] == (wanted if writable else slot.read(raws[0], after)[0])


def _asked(outcome: Outcome, setting: str):
    """What the rules on a switch or a choice come to; None where there is none."""
    sets = [rule.ops["set"][0] for rule in outcome.scenario.book.on(setting) if "set" in rule.ops]
    return (sets or outcome.scenario.book.aims(setting) or [None])[-1]


def _shared(outcome: Outcome, slot: Slot):
    """What becomes of one of several switches of a key: one that is set on takes it, else the last that is aimed at."""
    book = outcome.scenario.book
    wanted = {name: _asked(outcome, name) for name in slot.sharers}
    claims = [name for name, value in wanted.items() if value is True]
    firm = [name for name in claims if any(rule.ops.get("set") == (True,) for rule in book.on(name))]
    last = [
        name
        for _, _, rule in book.rules()
        for name in rule.members()
        if name in claims and rule.live(book.facts) and rule.ops.get("aim") == (True,)
    ]
    holder = (firm or last[-1:] or [None])[0]
    return wanted[slot.setting] if holder is None else slot.setting == holder
