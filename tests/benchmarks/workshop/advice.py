"""The project's own advice as an advisor: it knows the table of troubles and the brief, and nothing of what is
hidden.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache

from profilesmith.mend.advise import Advice, advise
from profilesmith.mend.belief import Guess, Print, live_levers, shares_of_yes
from profilesmith.mend.changes import Room, total
from profilesmith.mend.load_troubles import shipped_troubles
from profilesmith.mend.noisy_or import World
from profilesmith.mend.options import Option
from profilesmith.mend.world import Lever, PrintState
from tests.benchmarks.workshop.causes import Settings
from tests.benchmarks.workshop.workshop import Advisor, Brief, Look, Step

ROUNDING = 1e-9
MOST_LOOKS = 2  # before each print


@cache
def world() -> World:
    return World(shipped_troubles())


@cache
def steps() -> tuple[dict[str, float], dict[str, float]]:
    """Setting -> the size of a step, and the most steps."""
    size: dict[str, float] = {}
    most: dict[str, float] = {}
    for trouble in shipped_troubles().troubles.values():
        for cause in trouble.causes:
            if cause.direction:
                step = size.setdefault(cause.setting, float(cause.step))
                most[cause.setting] = max(most.get(cause.setting, 0.0), float(cause.most) // step)
    return size, most


def room_of(brief: Brief) -> Room:
    size, most = steps()
    return {
        name: (
            max((low - brief.settings[name]) / size[name], -most[name]),
            min((high - brief.settings[name]) / size[name], most[name]),
        )
        for name, (low, high) in brief.bounds.items()
        if name in size
    }


def _inside(brief: Brief, name: str, value: float) -> float:
    """A value without the last digits of doubles, in which steps are counted here and not by the package (it has
    fractions). What is outside by more is no rounding.
    """
    low, high = brief.bounds[name]
    held = min(max(value, low), high)
    return held if abs(held - value) < ROUNDING else value


def after_look(world: World, supposed: Sequence[Guess], state: PrintState, name: str, seen: bool) -> list[Guess]:
    """The guesses once a look was taken."""
    shares = shares_of_yes(world, live_levers(world, supposed, state), name)
    weights = [guess.chance * (share if seen else 1 - share) for guess, share in zip(supposed, shares, strict=True)]
    total = sum(weights)
    return [guess._replace(chance=weight / total) for guess, weight in zip(supposed, weights, strict=True)]


def advised(brief: Brief) -> Advisor:
    """One change a print, as ``profilesmith mend`` proposes it, after at most two of the looks that it asks for."""
    size, _ = steps()
    room, prints, worse, done = room_of(brief), [], set[Lever](), set[str]()
    last: list[Option | None] = []

    def advise_next(seen: Mapping[str, str], settings: Settings, look: Look) -> Step | None:
        moved = {name: round((settings[name] - brief.settings[name]) / size[name], 6) for name in room}
        state = PrintState({name: value for name, value in moved.items() if value}, frozenset(done))
        looks: dict[str, bool] = {}
        prints.append(Print(state, dict(seen), looks))
        if last and last[-1] and len(last[-1].changes) == 1 and total(seen) > total(prints[-2].seen):
            worse.add(last[-1].changes[0].lever)
        advice: Advice = advise(world(), prints, room, frozenset(worse))
        for _ in range(MOST_LOOKS):
            if advice.look:
                looks[advice.look] = look(advice.look)
                found = after_look(world(), advice.guesses, state, advice.look, looks[advice.look])
                advice = advise(world(), prints, room, frozenset(worse), found)
        if advice.again:
            last.append(None)
            return Step()
        if not advice.options:
            return None
        last.append(advice.options[0])
        done.update(item.do for item in last[-1].changes if item.do)
        values = {
            item.setting: _inside(brief, item.setting, brief.settings[item.setting] + item.after * size[item.setting])
            for item in last[-1].changes
            if item.setting
        }
        return Step(values, "".join(item.do for item in last[-1].changes if item.do))

    return advise_next
