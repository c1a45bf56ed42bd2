"""An order file: many derivations in one run. Read strictly, every mistake at once, and bounded.

    format = 1
    [order]
    name = "the club's printers, soft"
    keymap = "keymaps/bench.toml"           # what a job does not say itself
    recipes = ["flexible-pla"]
    facts = ["spool.toml"]
    answers = { "machine.drive" = "direct" }
    out = "soft"                            # a folder; every derived file keeps its base's name

    [[job]]
    base = "profiles/*.settings"            # a file, a pattern inside the order's folder, or a list of them
    recipes = ["flexible-pla", "part-soft"] # instead of the order's; so are keymap, facts and out
    out = "very-soft"

Each base is a derivation of its own; with ``together = true`` the files of a job are one machine's. ``file`` names the
derived file of a job that has one. Answers add up. All names are as seen from the order's folder; ``out`` stays inside
it, unless it is named in full.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.read_file import is_on_a_drive, read_toml
from profilesmith.foundation.toml_table import TomlTable
from profilesmith.translation.key_map import WAYS

MOST_JOBS = 5_000
MOST_NAMES = 200  # of recipes, facts or bases in one list


class JobDefaults(NamedTuple):
    """What an order and a job both may say. None: not said. places: where each is said."""

    keymap: str | None = None
    recipes: tuple[str, ...] | None = None
    facts: tuple[str, ...] | None = None
    answers: Mapping[str, str] | None = None
    out: str | None = None
    start_block: str | None = None
    shares: str | None = None
    places: Mapping[str, Place] = MappingProxyType({})


class Job(NamedTuple):
    """One table. number counts from 1; bases: files and patterns as written; file: the derived file's name or ""."""

    number: int
    bases: tuple[str, ...]
    together: bool
    file: str
    share: JobDefaults
    place: Place


class BatchOrder(NamedTuple):
    """A whole order. folder: where it lies."""

    name: str
    folder: Path
    share: JobDefaults
    jobs: tuple[Job, ...]
    file: str


def load_order(name: str) -> tuple[BatchOrder | None, list[Problem]]:
    """Read an order file; all of its mistakes in one run."""
    path = Path(name)
    top, problems = read_toml(path, name, "order")
    if top is None:
        return None, problems
    head = top.table("order", required=True)
    title, share = head.text("name", required=True), _share(head)
    tables = list(top.tables("job"))
    if not tables:
        top.complain("no-job", "The order has no job.", "", 'Add a [[job]] with base = "...".')
    if len(tables) > MOST_JOBS:
        top.complain(
            "too-many",
            f"The order has more than {MOST_JOBS:,} jobs.",
            "",
            "Use patterns, or split it into several orders.",
        )
    jobs = tuple(_job(table, number, share) for number, table in enumerate(tables[:MOST_JOBS], 1))
    head.done()
    top.done()
    order = BatchOrder(title, path.parent, share, jobs, name)
    return (None if top.file.problems else order), top.file.problems


def _start_block(table: TomlTable) -> str | None:
    """``follow`` or ``keep``; ``follow_literals``, as older orders have it, is read as well."""
    way = table.text("start_block")
    if way not in ("", "follow", "keep"):
        hint = 'Write start_block = "follow" or "keep".'
        table.complain("start-block", f"start_block = {way!r} is not known.", "start_block", hint)
    older = table.flag("follow_literals") if table.has("follow_literals") else None
    return way or (None if older is None else "follow" if older else "keep")


def _shares(table: TomlTable) -> str | None:
    """What becomes of shares whose reference moves: ``keep`` or ``follow``."""
    way = table.text("shares")
    if way and way not in WAYS:
        table.complain("shares", f"shares = {way!r} is not known.", "shares", 'Write "keep" or "follow".')
    return way or None


def _share(table: TomlTable) -> JobDefaults:
    answers = _answers(table) if table.has("answers") else None
    share = JobDefaults(
        keymap=table.text("keymap") or None,
        recipes=_names(table, "recipes"),
        facts=_names(table, "facts"),
        answers=answers,
        out=table.text("out") or None,
        start_block=_start_block(table),
        shares=_shares(table),
        places={key: table.file.place((*table.path, key)) for key in ("keymap", "recipes", "facts") if table.has(key)},
    )
    climbs = os.path.normpath(share.out or "").split(os.sep)[0] == ".."
    if share.out and not os.path.isabs(share.out) and (climbs or is_on_a_drive(share.out)):
        hint = "Name a folder inside it, or write the whole path from the root if you mean this place."
        table.complain("outside", f"{share.out!r} leads out of the order's folder.", "out", hint)
    for key in ("keymap", "out"):
        if table.content.get(key) == "":
            table.complain("empty", f"{key!r} is empty.", key, "Name it, or leave the line out.")
    return share


def _names(table: TomlTable, key: str) -> tuple[str, ...] | None:
    names = table.texts(key)
    for name in names or ():
        if not name:
            table.complain("empty", f"{key!r} holds an empty name.", key, "Name it, or leave it out.")
    if names is not None and len(names) > MOST_NAMES:
        table.complain(
            "too-many", f"{key!r} holds more than {MOST_NAMES} names.", key, "Use a pattern, or several jobs."
        )
        return names[:MOST_NAMES]
    return names


def _answers(table: TomlTable) -> dict[str, str]:
    answers = {}
    inner = table.table("answers")
    for name, text in inner.entries():
        if isinstance(text, str):
            answers[name] = text
        else:
            inner.complain("wrong-type", f"{name!r} must be a text in quotes.", name, 'Write "4 mm".')
    return answers


def _job(table: TomlTable, number: int, order: JobDefaults) -> Job:
    bases = _names(table, "base") if table.has("base") else None
    if not bases:
        table.complain(
            "missing", "'base' is missing.", "", 'Add base = "..." here: a file, a pattern or a list of them.'
        )
    job = Job(
        number=number,
        bases=bases or (),
        together=table.flag("together"),
        file=table.text("file"),
        share=_share(table),
        place=table.file.place(table.path),
    )
    if job.file and (os.path.basename(job.file) != job.file or job.file in (".", "..") or "\0" in job.file):
        table.complain(
            "file-name", f"{job.file!r} is no plain file name.", "file", "Write the name alone; 'out' says the folder."
        )
    if job.file and job.together and len(job.bases) != 1:
        table.complain("file-name", "Files that go together keep their names.", "file", "Leave 'file' out.")
    for key in ("keymap", "out"):
        if not getattr(job.share, key) and not getattr(order, key):
            table.complain("missing", f"{key!r} is missing.", "", f'Add {key} = "..." here or under [order].')
    table.done()
    return job
