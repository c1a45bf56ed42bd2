"""Many derived files over all cores, the results in the order in which the files were named."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.workflows.parallel import Tell, cores, in_order
from profilesmith.workflows.rederive.forward.targets import Target
from profilesmith.workflows.rederive.forward.work import Forward, ForwardOrder, work

CHUNK = 8  # files that travel to a process together and are written together
HINT = "Is there memory enough? What was written is whole; run it again with --jobs 1."


def run(meant: Sequence[Target], asked: ForwardOrder, jobs: int, tell: Tell) -> Iterator[Forward]:
    """What came of each. jobs: processes; 0 for as many as there are cores. Raises Refused before anything is
    written.
    """
    refuse_if(_same_places(meant) if asked.out else ())
    chunks = [tuple(meant[at : at + CHUNK]) for at in range(0, len(meant), CHUNK)]
    jobs = min(jobs or cores(), len(chunks))  # a process takes longer to start than a chunk to be worked on
    done = 0
    tell(0, len(meant))
    for results in in_order(partial(work, asked=asked), chunks, _begin, None, jobs, hint=HINT):
        for result in results:
            done += 1
            tell(done, len(meant))
            yield result


def _begin(nothing: None) -> None:
    """Nothing is to be read once for all."""


def _same_places(meant: Sequence[Target]) -> Iterator[Problem]:
    claimed: dict[Path, str] = {}
    for item in meant:
        other = claimed.setdefault(Path(item.place), item.derived)
        if other != item.derived:
            message = f"{other} and {item.derived} would both be written as {item.place}."
            yield Problem(
                "same-output", message, Place(item.derived), "Name their folder, which keeps places inside it."
            )


def exit_code(results: Sequence[Forward]) -> int:
    """A fault of ours first, then wrong input, then conflicts that nobody decided."""
    codes = {item.code for item in results} - {0}
    return 0 if not codes else max(codes) if max(codes) > 3 else min(codes)
