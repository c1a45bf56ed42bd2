"""An order to its derivations: patterns looked up, names made whole, and everything refused that can be known
before.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path, PurePath

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.foundation.read_file import names_a_file, no_such_file
from profilesmith.ledger.place import LEDGER
from profilesmith.workflows.batch.folders import Folders
from profilesmith.workflows.batch.order import BatchOrder, Job, JobDefaults, load_order
from profilesmith.workflows.read import read_facts, read_key_map, read_recipes
from profilesmith.workflows.request import Request
from profilesmith.write_files import Hints, in_the_way

MOST = 100_000  # derivations in one run
PATTERN = frozenset("*?[")
HINTS = Hints(
    is_input="Name another folder with 'out'.",
    is_folder="Name another with 'out' or 'file'.",
    no_plain_file="Name a file.",
    exists="Name another folder, or allow it with --overwrite.",
)


class Task(NamedTuple):
    """One derivation. out: the derived file, or a folder for files that go together; job: its table's number."""

    job: int
    request: Request
    out: str


class BatchPlan(NamedTuple):
    """name: the order's. inputs: what no output and no report may be."""

    name: str
    tasks: tuple[Task, ...]
    inputs: frozenset[str]


def plan(order_file: str, library: Path | None, overwrite: bool) -> BatchPlan:
    """All derivations in their order. Raises Refused with every mistake; nothing is written here."""
    order, problems = load_order(order_file)
    refuse_if(problems)
    assert order is not None
    tasks: list[Task] = []
    for job in order.jobs:
        tasks += _tasks(job, order, library, problems)
    if len(tasks) > MOST:
        problems.append(
            Problem("too-many", f"The order asks for more than {MOST:,} derivations.", Place(order.file), "Split it.")
        )
    problems += _readable(tasks, order)
    refuse_if(problems)
    named = {order.file, *(name for task in tasks for name in (*task.request.bases, *_files(task.request)))}
    folders = Folders(order.folder)
    inputs = frozenset(map(folders.place, named))
    refuse_if(_outputs(tasks, order, folders, inputs, overwrite))
    return BatchPlan(order.name, tuple(tasks), inputs)


def _files(request: Request) -> Iterator[str]:
    yield from (name for name in (request.key_map, *request.recipes, *request.facts) if _is_file(name))


def _tasks(job: Job, order: BatchOrder, library: Path | None, problems: list[Problem]) -> list[Task]:
    paths = [path for base in job.bases for path in _bases(base, job, order, problems)]
    bases = tuple(dict.fromkeys(paths))
    if not bases:
        return []
    request, folder = _request(job.share, order, library), order.folder / str(job.share.out or order.share.out)
    if job.together and len(bases) > 1:
        return [Task(job.number, request._replace(bases=bases), str(folder))]
    if job.file and len(bases) > 1:
        hint = "Leave 'file' out, or name one base."
        problems.append(
            Problem("file-name", f"The job has {len(bases)} bases and one name for the derived file.", job.place, hint)
        )
        return []
    return [
        Task(job.number, request._replace(bases=(base,)), str(folder / (job.file or PurePath(base).name)))
        for base in bases
    ]


def _bases(base: str, job: Job, order: BatchOrder, problems: list[Problem]) -> list[str]:
    """The files that a base names. A pattern passes over ledgers, and over files that have one: they are derived."""
    if not PATTERN & set(base):
        return [os.path.normpath(order.folder / base)]
    if ".." in PurePath(base).parts or PurePath(base).is_absolute():
        hint = "Name the files, or put the order where they are."
        problems.append(Problem("outside", f"The pattern {base!r} leads out of the order's folder.", job.place, hint))
        return []
    try:
        matches = sorted(map(str, order.folder.glob(base)))
    except ValueError:
        matches = []
    paths = [
        path
        for path in matches
        if os.path.isfile(path) and not path.endswith(LEDGER) and not os.path.exists(path + LEDGER)
    ]
    if not paths:
        problems.append(
            Problem(
                "no-match",
                f"No file matches {base!r}.",
                job.place,
                "Check the pattern; it is looked up in the order's folder.",
            )
        )
    return paths


def _request(share: JobDefaults, order: BatchOrder, library: Path | None) -> Request:
    """What a job asks for, without its bases."""
    said = order.share
    pick = [mine if mine is not None else theirs for mine, theirs in zip(share, said, strict=True)]
    both = JobDefaults(*pick)  # type: ignore[arg-type]
    return Request(
        bases=(),
        key_map=_word(order.folder, both.keymap or ""),
        recipes=tuple(_word(order.folder, name) for name in both.recipes or ()),
        facts=tuple(_word(order.folder, name) for name in both.facts or ()),
        answers={**(said.answers or {}), **(share.answers or {})},
        library=library,
        follow_literals=both.start_block == "follow",
        shares=both.shares or "",
    )


def _is_file(name: str) -> bool:
    return names_a_file(name)


def _word(folder: Path, name: str) -> str:
    """A name in a library as it is; a file as seen from the order's folder."""
    return os.path.normpath(folder / name) if _is_file(name) else name


def _readable(tasks: Sequence[Task], order: BatchOrder) -> list[Problem]:
    """What is wrong with maps, recipes and facts, each read once; and bases that are not there."""
    problems: list[Problem] = []
    asked: dict[tuple[object, ...], Task] = {}
    for task in tasks:
        said = task.request
        asked.setdefault((said.key_map, said.recipes, said.facts, said.library), task)
    for task in asked.values():
        problems += _unreadable(task, order)
    for task in tasks:
        problems += [
            no_such_file(base, f"Check 'base' of job {task.job}.")
            for base in task.request.bases
            if not os.path.isfile(base)
        ]
    return list(dict.fromkeys(problems))


def _unreadable(task: Task, order: BatchOrder) -> Iterator[Problem]:
    """What is wrong with the files of one derivation; a name that leads to no file stands in the order."""
    said, share = task.request, order.jobs[task.job - 1].share
    by_kind: dict[str, list[Problem]] = {"keymap": [], "recipes": [], "facts": []}
    read_key_map(said.key_map, said.library, by_kind["keymap"])
    read_recipes(said.recipes, said.library, by_kind["recipes"])
    read_facts(said.facts, said.library, by_kind["facts"])
    for key, problems in by_kind.items():
        place = share.places.get(key) or order.share.places.get(key) or Place(order.file)
        yield from (problem if problem.place.file else problem._replace(place=place) for problem in problems)


def _outputs(
    tasks: Sequence[Task], order: BatchOrder, folders: Folders, inputs: frozenset[str], overwrite: bool
) -> list[Problem]:
    """Two derivations that would write one file, outputs that are inputs or exist. A ledger is told of where its file
    is not.
    """
    problems: list[Problem] = []
    claimed: dict[str, int] = {}
    for task in tasks:
        *files, ledger = written(task)
        places = [*map(folders.in_folder, (*files, ledger))]
        checked = [
            _leads_out(path, task, order, folders) or _clash(path, place, task, claimed, inputs, overwrite)
            for path, place in zip((*files, ledger), places, strict=True)
        ]
        clashes = [problem for problem in checked[:-1] if problem] or [problem for problem in checked[-1:] if problem]
        problems += clashes
        claimed |= dict.fromkeys(places, task.job)
    return problems


def _leads_out(path: str, task: Task, order: BatchOrder, folders: Folders) -> Problem | None:
    """An output that a link takes out of the order's folder, unless ``out`` names a place from the root."""
    out = order.jobs[task.job - 1].share.out or order.share.out or ""
    if folders.inside(path) or os.path.isabs(out):
        return None
    hint = "Name a folder inside it with 'out', or put the order where the texts are to go."
    return Problem("outside", "The output leads out of the order's folder.", Place(path), hint)


def _clash(
    path: str, place: str, task: Task, claimed: Mapping[str, int], inputs: frozenset[str], overwrite: bool
) -> Problem | None:
    """What stands in the way of one file. place: the path once links are followed."""
    if place in claimed:
        message = f"Jobs {claimed[place]} and {task.job} would both write this file."
        return Problem("same-output", message, Place(path), "Give one of them another 'out' or 'file'.")
    if place not in inputs and not os.path.lexists(place):
        return None  # as mostly
    return in_the_way(place, Place(path), inputs, overwrite, HINTS)


def written(task: Task) -> list[str]:
    """The files that a derivation writes: the derived ones and the ledger beside the first."""
    if len(task.request.bases) == 1:
        paths = [task.out]
    else:
        paths = [os.path.join(task.out, os.path.basename(base)) for base in task.request.bases]
    return [*paths, paths[0] + LEDGER]


def meets(planned: BatchPlan, name: str) -> bool:
    """Whether a further file would be one of the order's inputs or outputs."""
    place = os.path.realpath(name)
    mine = os.path.basename(place)
    return place in planned.inputs or any(
        os.path.realpath(path) == place
        for task in planned.tasks
        for path in written(task)
        if os.path.basename(path) == mine
    )
