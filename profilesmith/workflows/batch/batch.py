"""Batch: all derivations of an order, over several processes, one result after the other in the order's order.

Nothing is collected: a few derivations are under way, a result is handed on when its turn comes.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator
from functools import partial
from pathlib import Path

from profilesmith.workflows.batch.plan import BatchPlan, Task, plan
from profilesmith.workflows.batch.work import BatchResult, work
from profilesmith.workflows.parallel import cores, in_order
from profilesmith.workflows.shelf import Shelf

CHUNK = 32  # derivations that travel to a process together and are written together
HINT = "Is there memory enough? What was written is whole. Run it again with --overwrite and --jobs 1."


def make_plan(order: str, library: Path | None, overwrite: bool) -> BatchPlan:
    """What is to be done. Raises Refused with every mistake of the order; nothing was written then."""
    return plan(order, library, overwrite)


def run(planned: BatchPlan, jobs: int, overwrite: bool, discard_edits: bool = False) -> Iterator[BatchResult]:
    """The results in the order's order. jobs: processes; 0 for as many as there are cores. Raises Refused.

    discard_edits: files that a hand edited since are replaced, too; else each of them is a failure.
    """
    few = -(-len(planned.tasks) // CHUNK)  # a process takes longer to start than a chunk to be worked on
    jobs = min(jobs or min(cores(), few), len(planned.tasks))
    size = min(CHUNK, -(-len(planned.tasks) // max(jobs, 1)))
    chunks = [planned.tasks[at : at + size] for at in range(0, len(planned.tasks), size or 1)]
    try:
        several = partial(_several, overwrite=overwrite, discard_edits=discard_edits)
        for done in in_order(several, chunks, _begin, None, jobs, hint=HINT):
            yield from done
    finally:
        _MINE.clear()
        gc.unfreeze()


class _Mine:
    """What a process holds from chunk to chunk: what it has read, and whether derivations left circles."""

    def __init__(self) -> None:
        self.shelf, self.chunks, self.circles = Shelf(), 0, False

    def take_out_waste(self, failed: bool) -> None:
        """After a chunk. What lives on is frozen, so that looking at the rest is quick, and memory stays flat however
        long the order is.

        A derivation that goes well leaves no circles: every eighth chunk is looked at, and all of them as soon as one
        did. failed: whether one went wrong. The first chunk loads modules, which leave some.
        """
        looked = failed or self.circles or self.chunks % LOOK == 0
        waste = gc.collect() if looked else 0
        if waste and self.chunks and not (failed or self.circles):
            self.circles = True
            gc.unfreeze()  # there may be others among what was not looked at
            gc.collect()
        self.chunks += 1
        gc.freeze()


LOOK = 8
_MINE: list[_Mine] = []  # one, in each process


def _begin(nothing: None) -> None:
    _MINE[:] = [_Mine()]
    gc.freeze()  # all that is loaded lives on


def _several(chunk: tuple[Task, ...], overwrite: bool, discard_edits: bool) -> list[BatchResult]:
    """A chunk, and then its waste taken out."""
    mine = _MINE[0]
    gc.disable()
    try:
        done = work(chunk, overwrite, mine.shelf, discard_edits)
    finally:
        gc.enable()
    mine.take_out_waste(any(result.code for result in done))
    return done
