"""``python -m tests.benchmarks.certainty``: fits the weights of ``suggest/certainty.py`` and shows what they do.

Every proposal for every dialect, with none, a fifth and two fifths of its words hidden, is right or wrong by its
author's
map. A logistic regression (ridge, no intercept penalty) on the measures of ``certainty.WEIGHTS`` gives the weights;
what
they are worth is told on texts that they were not fitted on: each author's text is left out in turn. Needs numpy and
scipy.
"""

from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import NamedTuple
from unittest.mock import patch

import numpy as np
from scipy.optimize import minimize

from profilesmith.suggest import suggest_key_map
from profilesmith.suggest.certainty import HOLD, WEIGHTS, MissedBar, judge
from profilesmith.suggest.evidence import Evidence
from profilesmith.suggest.proposal import SURE
from tests.benchmarks.suggest import HALVES, folders, lexicon_without
from tests.benchmarks.suggest import judge as judge_dialect

HIDDEN = ((0.0, 1), (0.2, 2), (0.4, 2))  # part of the words that is hidden, and how many times over
RIDGE = 0.5
HARD = frozenset({MissedBar.ODD, MissedBar.TWO_UNITS, MissedBar.DECOY, MissedBar.UNIT, MissedBar.VALUE})
STEPS = (2.0, 2.5, 3.0, 3.5, 4.0, 4.5)


class Seen(NamedTuple):
    """One proposal. measures: as WEIGHTS names them, clipped; open: nothing forbids that it is sure."""

    author: str
    hidden: float
    measures: tuple[float, ...]
    open: bool
    right: bool
    decoy: bool
    sure: bool


def seen() -> tuple[list[Seen], dict[float, int]]:
    """All proposals, and how many settings there are, by the part of the words that is hidden."""
    result, settings = [], dict.fromkeys((share for share, _ in HIDDEN), 0)
    for share, turns in HIDDEN:
        for folder in (folder for half in HALVES[:-1] for folder in folders(half)):
            for turn in range(turns):
                found, truth = _of(folder, share, turn)
                result += found
                settings[share] += truth
    return result, settings


def _of(folder: Path, share: float, turn: int) -> tuple[list[Seen], int]:
    notes: dict[tuple[str, tuple[str, str, int]], tuple[Evidence, bool]] = {}
    place: list[tuple[str, tuple[str, str, int]]] = []
    inner = suggest_key_map.evidence_for

    def evidence(setting: str, index: int, reading: object) -> Evidence:
        place.append((setting, reading.slots[index].place))  # type: ignore[attr-defined]
        return inner(setting, index, reading)  # type: ignore[arg-type]

    def judged(found: Evidence, odd: str = "", more: bool = False) -> tuple[MissedBar, ...]:
        doubts = judge(found, odd, more)
        notes[place[-1]] = (found, not more and found.weakest >= HOLD and not HARD.intersection(doubts))
        return doubts

    name = "profilesmith.suggest.suggest_key_map"
    words = partial(lexicon_without, folder, share, turn) if share else suggest_key_map.load_lexicon
    with patch(f"{name}.load_lexicon", words), patch(f"{name}.judge", judged), patch(f"{name}.evidence_for", evidence):
        results, truth = judge_dialect(folder)
    found = []
    for one in results:
        item = one.proposal
        measured, is_open = notes[item.setting, item.place]
        values = tuple(min(high, max(low, float(getattr(measured, key)))) for key, (low, high, _) in WEIGHTS.items())
        found.append(Seen(folder.name, share, values, is_open, one.right, one.decoy, item.certainty == SURE))
    return found, truth


def fit(measures: np.ndarray, right: np.ndarray) -> np.ndarray:
    """Weights, the first for what is always 1."""
    full = np.column_stack([np.ones(len(measures)), measures])
    sign = 2.0 * right - 1.0

    def loss(weights: np.ndarray) -> tuple[float, np.ndarray]:
        margin = (full @ weights) * sign
        slope = -sign / (1.0 + np.exp(margin))
        inner = np.concatenate([[0.0], weights[1:]])
        return float(np.logaddexp(0.0, -margin).sum() + RIDGE * (inner**2).sum()), full.T @ slope + 2 * RIDGE * inner

    return np.asarray(minimize(loss, np.zeros(full.shape[1]), jac=True, method="L-BFGS-B").x)


def left_out(rows: list[Seen]) -> np.ndarray:
    """For each proposal its weighed sum, with weights that its author's text had no part in."""
    measures = np.array([row.measures for row in rows])
    right = np.array([row.right for row in rows], float)
    authors = np.array([row.author for row in rows])
    sums = np.zeros(len(rows))
    for author in sorted(set(authors)):
        mine = authors == author
        weights = fit(measures[~mine], right[~mine])
        sums[mine] = weights[0] + measures[mine] @ weights[1:]
    return sums


def table() -> Iterator[str]:
    """The weights, and for each bar what would be sure on texts left out."""
    everything, settings = seen()
    rows = [row for row in everything if row.open]
    weights = fit(np.array([row.measures for row in rows]), np.array([row.right for row in rows], float))
    yield f"START = {weights[0]:.2f}"
    for name, weight in zip(WEIGHTS, weights[1:], strict=True):
        yield f"  {name:<14} {weight:6.2f}"
    sums = left_out(rows)
    for share, _ in HIDDEN:
        now = [row for row in everything if row.hidden == share and row.sure]
        part = sum(row.right for row in now) / settings[share]
        yield (
            f"{share:.0%} of the words hidden; as it stands: {part:.1%} in sure, "
            f"{sum(not row.right for row in now)} wrong, {sum(row.decoy for row in now)} decoys"
        )
        for bar in STEPS:
            sure = [row for row, value in zip(rows, sums, strict=True) if row.hidden == share and value >= bar]
            right = sum(row.right for row in sure)
            yield (
                f"   from {bar:.1f}: {right / settings[share]:6.1%} in sure, {right / max(len(sure), 1):7.2%} right, "
                f"{len(sure) - right} wrong, {sum(row.decoy for row in sure)} decoys"
            )


def main() -> None:
    for line in table():
        print(line, flush=True)


if __name__ == "__main__":
    main()
