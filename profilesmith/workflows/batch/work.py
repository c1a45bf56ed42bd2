"""A few derivations of an order, carried out and written together; what goes wrong with one comes back as its problems.

Written together, since a disk takes as long to flush one file as forty.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import CONFLICT, Problem, Refused, fault_of, refuse_if
from profilesmith.ledger import MOVING
from profilesmith.ledger.judgement import ALARMS
from profilesmith.workflows.batch.plan import Task, written
from profilesmith.workflows.derive import derive, files_to_write, texts_to_write
from profilesmith.workflows.edits_at_stake import AtStake, discarded_edits
from profilesmith.workflows.shelf import Shelf
from profilesmith.write_files import make_folder
from profilesmith.write_many import ManyFiles

FAULT = 70


class BatchResult(NamedTuple):
    """What a summary says of a derivation. code: 0, or the exit code that ``derive`` would have had.

    cautions: checks that ask for a look before printing; conflicts: rules that do not meet.
    problems: why a derivation failed. discarded: files whose hand edits were lost on purpose.
    """

    job: int
    bases: tuple[str, ...]
    written: tuple[str, ...] = ()
    changed: int = 0
    conflicts: int = 0
    cautions: int = 0
    code: int = 0
    problems: tuple[Problem, ...] = ()
    discarded: tuple[AtStake, ...] = ()


class MadeDerivation(NamedTuple):
    """A derivation that is ready to be written."""

    result: BatchResult
    files: dict[Path, bytes]


def work(tasks: Sequence[Task], overwrite: bool, shelf: Shelf, discard_edits: bool = False) -> list[BatchResult]:
    """Derive and write. Whatever happens to one of them, the others go on.

    shelf: maps, recipes and facts that earlier ones of this process have read. discard_edits: as ``batch.run`` has it.
    """
    results = []
    with ManyFiles(overwrite) as many:
        for task in tasks:
            made = _made(task, overwrite, shelf, discard_edits)
            many.add(made.files)
            results.append(made.result)
        problems = many.place()
    return [
        _failed(result, Refused(refused)) if refused else result
        for result, refused in zip(results, problems, strict=True)
    ]


def _made(task: Task, overwrite: bool, shelf: Shelf, discard_edits: bool) -> MadeDerivation:
    empty = BatchResult(task.job, task.request.bases)
    try:
        return carry_out(task, overwrite, shelf, discard_edits)
    except Refused as refused:
        return MadeDerivation(_failed(empty, refused), {})
    except Exception as error:
        return MadeDerivation(empty._replace(code=FAULT, problems=(fault_of(error),)), {})


def _failed(result: BatchResult, refused: Refused) -> BatchResult:
    conflicts = sum(problem.severity == CONFLICT for problem in refused.problems)
    return BatchResult(result.job, result.bases, conflicts=conflicts, code=refused.exit_code, problems=refused.problems)


def carry_out(task: Task, overwrite: bool, shelf: Shelf, discard_edits: bool = False) -> MadeDerivation:
    """The one place that derives: raises Refused."""
    derivation = derive(task.request, shelf, words=False)
    refuse_if(derivation.problems)
    lost = discarded_edits(texts_to_write(derivation, task.out), discard_edits) if overwrite else ()
    folder = os.path.dirname(written(task)[0])
    if folder not in shelf.folders:
        refuse_if(make_folder(Path(folder), "Name another with 'out'."))
        shelf.folders.add(folder)
    files = files_to_write(derivation, task.out, overwrite, shelf=shelf)
    changed = {row.setting for row in derivation.ledger.rows if row.status in MOVING}
    cautions = sum(finding.verdict in ALARMS for finding in derivation.file.findings)
    result = BatchResult(task.job, task.request.bases, tuple(map(str, files)), len(changed), 0, cautions)
    return MadeDerivation(result._replace(discarded=lost), files)
