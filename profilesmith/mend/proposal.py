"""Advice as changes of values: what goes from where to where, for which trouble, at what cost, and what goes along."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.mend.advise import Advice, reason_of
from profilesmith.mend.bench import Bench
from profilesmith.mend.changes import Change, last_undone
from profilesmith.mend.noisy_or import World
from profilesmith.mend.options import Option
from profilesmith.mend.road import RoadChange
from profilesmith.mend.so_far import SoFar
from profilesmith.mend.troubles import Doing, Knowledge, Trouble, TroubleCause
from profilesmith.vocabulary.setting import Value, Vocabulary


class Move(NamedTuple):
    """A setting's value before and after. low, high: how far recipes, spool and machine let it go; None where it is no
    number.
    """

    setting: str
    before: Value
    after: Value
    low: Fraction | None = None
    high: Fraction | None = None


class MendProposal(NamedTuple):
    """do: a doing, or None; moves: the settings, the one that it is about last. back: it only goes back.

    trouble, cause: for which; None where a change is only taken back. gain: how much likelier a print without trouble
    gets.
    """

    option: Option
    do: Doing | None
    moves: tuple[Move, ...]
    trouble: Trouble | None
    cause: TroubleCause | None
    gain: float

    @property
    def back(self) -> bool:
        return self.cause is None


def proposals(
    world: World, advice: Advice, past: SoFar, bench: Bench, began: Mapping[str, Value], vocabulary: Vocabulary
) -> tuple[MendProposal, ...]:
    """The options that change a value that can be written, the best first."""
    proposed, undone = [], last_undone(past.prints)
    for option in advice.options:
        main = option.changes[-1]
        reason = reason_of(world, main, past.seen)
        if reason is not None and past.seen.get(reason[0].name, "good") == "good":
            if main != undone:
                continue  # for a trouble that was seen before, and is not there now
            reason = None
        trouble, cause = reason or (None, None)
        if main.do:
            proposed.append(MendProposal(option, world.known.doings[main.do], (), trouble, cause, option.gain))
            continue
        moves = tuple(
            move for change in option.changes if (move := _move(world, change, bench, began, vocabulary)) is not None
        )
        if len(moves) == len(option.changes):
            proposed.append(MendProposal(option, None, moves, trouble, cause, option.gain))
    return tuple(proposed)


def _move(
    world: World, change: Change, bench: Bench, began: Mapping[str, Value], vocabulary: Vocabulary
) -> Move | None:
    """A change as values; None where it would come to no other value than the present one."""
    name, before = change.setting, bench.values[change.setting]
    causes = (cause for trouble in world.known.troubles.values() for cause in trouble.causes if cause.setting == name)
    to = next((cause.to for cause in causes if cause.to is not None), None)
    after = bench.value_at(name, began.get(name, before), change.after, to)
    step = vocabulary.settings[name].step
    if isinstance(after, Fraction) and step is not None:
        after = _toward(after, before, step)
    if after == before:
        return None
    low, high = bench.ends[name] if isinstance(after, Fraction) else (None, None)
    return Move(name, before, after, low, high)


def _toward(after: Fraction, before: Value, step: Fraction) -> Fraction:
    """The value that is worth writing, rounded toward the present one, so that no end is passed."""
    if not isinstance(before, Fraction):
        return after
    return before + int((after - before) / step) * step


def step_changes(
    chosen: Sequence[MendProposal], bench: Bench, vocabulary: Vocabulary, known: Knowledge, moved: Collection[str]
) -> tuple[RoadChange, ...]:
    """What is written into the road: every move, and what goes along by the same share. moved: what was moved before:
    where a change is taken back, what went along with it goes back, too.
    """
    changes: dict[str, RoadChange] = {}
    for item in chosen:
        for number, move in enumerate(item.moves, 1):
            is_main = number == len(item.moves) and item.cause is not None and item.trouble is not None
            words = (
                (item.trouble.name, item.cause.what, item.cause.why, item.cause.source)
                if is_main and item.cause and item.trouble
                else ("", "taken back", "It did no good.", "the maker's own prints")
            )
            changes[move.setting] = RoadChange(move.setting, move.before, move.after, *words)
            every = item.cause.along if is_main and item.cause else _went_along(move.setting, known, moved)
            for name in every:
                along = _along(name, move, bench, vocabulary)
                if along is not None and name not in changes:
                    changes[name] = RoadChange(name, *along, "", words[1], f"Goes along with {move.setting}.", words[3])
    return tuple(changes.values())


def _went_along(setting: str, known: Knowledge, moved: Collection[str]) -> list[str]:
    """What goes along with a setting for any cause, and was moved."""
    causes = (cause for trouble in known.troubles.values() for cause in trouble.causes if cause.setting == setting)
    return list(dict.fromkeys(name for cause in causes for name in cause.along if name in moved))


def _along(name: str, move: Move, bench: Bench, vocabulary: Vocabulary) -> tuple[Value, Value] | None:
    """The values of a setting that goes along by the same share; counts and temperatures by the same difference."""
    before, setting = bench.values.get(name), vocabulary.settings[name]
    if (
        not isinstance(before, Fraction)
        or not isinstance(move.before, Fraction)
        or not isinstance(move.after, Fraction)
    ):
        return None
    if setting.kind in ("temperature", "count") or not move.before:
        after = before + move.after - move.before
    else:
        after = before * move.after / move.before
    low, high = bench.ends.get(name, (setting.low, setting.high))
    if low is None or high is None or setting.step is None:
        return None
    after = _toward(min(max(after, low), high), before, setting.step)
    return None if after == before else (before, after)
