"""The prints so far, as the belief takes them: from the road of the ledger and what is said of the last print now."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.history import Grade, Verdict
from profilesmith.mend.belief import Print
from profilesmith.mend.bench import Bench
from profilesmith.mend.changes import total
from profilesmith.mend.road import RoadStep, origins
from profilesmith.mend.troubles import Knowledge
from profilesmith.mend.world import Lever, PrintState
from profilesmith.vocabulary.setting import Value

BETTER: Mapping[Grade, Grade] = {"poor": "fair", "fair": "good", "good": "good"}
WORSE: Mapping[Grade, Grade] = {"good": "fair", "fair": "poor", "poor": "poor"}


class SoFar(NamedTuple):
    """prints: the first print first, the present one last. seen: of the present one. worse: levers whose move made it
    worse. said: of seen what was said, not only taken to be so.

    gone: troubles that were there when last named, and are not named of this print, of which something is said: they
    are taken as away.
    """

    prints: tuple[Print, ...]
    seen: Mapping[str, Grade]
    worse: frozenset[Lever]
    said: Mapping[str, Grade] = {}
    gone: tuple[str, ...] = ()


def so_far(
    steps: Sequence[RoadStep],
    bench: Bench,
    known: Knowledge,
    seen: Mapping[str, Grade],
    looks: Mapping[str, bool],
    did: Sequence[str],
    last: Verdict,
    rest_good: bool,
) -> SoFar:
    """seen, looks, did, last: what is said of the present print."""
    began = _levers(origins(steps), steps)
    place: dict[str, Value] = dict(began)
    done: frozenset[str] = frozenset()
    prints: list[Print] = []
    shown: Mapping[str, Grade] | None = None
    for number, step in enumerate(steps):
        done |= frozenset(step.did)
        shown = _shown(step.seen, prints) or _meant(shown, step.last, steps[number - 1] if number else None)
        prints.append(Print(PrintState(_moved(place, began, bench), done), shown, step.looks))
        place |= {change.setting: change.after for change in step.changes if change.setting in began}
    now = {name: bench.values.get(name, value) for name, value in place.items()}
    seen_now = dict(_shown(seen, prints) or _meant(shown, last, steps[-1] if steps else None))
    rest: dict[str, Grade] = {name: "good" for name in known.troubles if name not in {**seen_now, **seen}}
    said = {**seen, **rest} if rest_good else dict(seen)
    gone = tuple(name for name in seen_now if seen and name not in said)
    seen_now |= rest if rest_good else {}
    prints.append(Print(PrintState(_moved(now, began, bench), done | frozenset(did)), seen_now, looks))
    return SoFar(tuple(prints), seen_now, _worse(steps, prints, last), said, gone)


def _levers(began: Mapping[str, Value], steps: Sequence[RoadStep]) -> dict[str, Value]:
    """Where the settings began that were moved for a trouble; what only went along with one is no lever."""
    moved = {change.setting for step in steps for change in step.changes if change.trouble}
    return {name: value for name, value in began.items() if name in moved}


def _shown(seen: Mapping[str, Grade], before: Sequence[Print]) -> dict[str, Grade]:
    """What a print is taken to have shown, where anything was said of it: what was there before and is not named
    is away.
    """
    gone: dict[str, Grade] = {name: "good" for name in _bad_before(before) if name not in seen}
    return {**seen, **gone} if seen else {}


def _bad_before(prints: Sequence[Print]) -> list[str]:
    """The troubles that were there the last time that anything was said of them."""
    last: dict[str, str] = {}
    for item in prints:
        last |= item.seen
    return [name for name, grade in last.items() if grade != "good"]


def _moved(place: Mapping[str, Value], began: Mapping[str, Value], bench: Bench) -> dict[str, float]:
    """Steps from where each setting began; what has no key any more is left out."""
    moved = {}
    for name, value in place.items():
        if name in bench.values:
            steps = bench._replace(values={name: value}).moved(name, began[name])
            if steps:
                moved[name] = steps
    return moved


def _meant(shown: Mapping[str, Grade] | None, verdict: Verdict, step: RoadStep | None) -> dict[str, Grade]:
    """What a print is taken to have shown, when only a verdict was given: what the change was for, a grade up or
    down.
    """
    if shown is None or step is None:
        return {}
    grades = dict(shown)
    turned = {"better": BETTER, "worse": WORSE}.get(verdict)
    for change in step.changes:
        if turned and change.trouble in grades:
            grades[change.trouble] = turned[grades[change.trouble]]
    return grades


def _worse(steps: Sequence[RoadStep], prints: Sequence[Print], last: Verdict) -> frozenset[Lever]:
    """Levers of single changes after which a print was called worse, or showed more trouble of what was looked at both
    times.
    """
    worse = set()
    for number, step in enumerate(steps):
        if step.undo or len([change for change in step.changes if change.trouble]) != 1:
            continue
        verdict = steps[number + 1].last if number + 1 < len(steps) else last
        change = next(change for change in step.changes if change.trouble)
        before, after = prints[number].seen, prints[number + 1].seen
        both = before.keys() & after.keys()
        grew = total({name: after[name] for name in both}) > total({name: before[name] for name in both})
        if verdict == "worse" or (not verdict and grew):
            is_up = change.after > change.before  # type: ignore[operator]
            worse.add(Lever(setting=change.setting, sign=1 if is_up else -1))
    return frozenset(worse)
