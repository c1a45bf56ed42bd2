"""Derive cases as the page would carry them out, and the same by the command line: names and bytes to compare."""

from __future__ import annotations

import json
import os
import shutil
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

from profilesmith.browser import door
from profilesmith.foundation.problem import Refused
from profilesmith.library.find import shipped
from profilesmith.library.open_files import shown_name
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.request import Request

CASES = Path(__file__).parents[1] / "cases"
OUT = "out.cfg"
REPORTS = (("out-review.html", "page"), ("out-checklist.html", "checklist-page"), ("out-review.md", "markdown"))


class Job(NamedTuple):
    """A case with one text. recipes: as the case names them."""

    name: str
    folder: Path
    base: str
    recipes: tuple[str, ...]
    facts: tuple[str, ...]
    answers: dict[str, str]
    follow: bool
    shares: str


def jobs() -> list[Job]:
    """All derive cases but those of several texts: the page takes one."""
    found = []
    for folder in sorted((CASES / "derive").iterdir()):
        case = tomllib.loads((folder / "case.toml").read_text(encoding="utf-8"))
        bases = sorted(path.name for path in folder.iterdir() if path.stem.startswith("base"))
        options = case.get("options", [])
        if len(bases) == 1:
            facts = tuple(sorted(path.name for path in folder.glob("facts*.toml")))
            follow = "--follow-literals" in options or ("--start-block", "follow") in pairwise(options)
            shares = options[options.index("--shares") + 1] if "--shares" in options else ""
            recipes = tuple(case["recipes"])
            found.append(Job(folder.name, folder, bases[0], recipes, facts, case.get("answers", {}), follow, shares))
    return found


def library(job: Job) -> dict[str, list[dict[str, str]]]:
    """The case's files as a page would hold them."""

    def item(word: str) -> dict[str, str]:
        path = job.folder / word if (job.folder / word).is_file() else shipped() / f"{word}.toml"
        name = word if path.is_relative_to(job.folder) else shown_name(path)
        return {"word": word, "name": name, "text": path.read_bytes().decode()}

    return {
        "recipes": [item(word) for word in dict.fromkeys(job.recipes)],
        "maps": [item("map.toml")],
        "facts": [item(word) for word in job.facts],
    }


def calls(job: Job) -> list[tuple[str, dict[str, Any], list[bytes]]]:
    """What the page asks its engine, one after the other."""
    asked = {
        "recipes": job.recipes,
        "facts": job.facts,
        "answers": job.answers,
        "follow": job.follow,
        "shares": job.shares,
    }
    return [
        ("begin", library(job), []),
        ("read", {"name": job.base}, [(job.folder / job.base).read_bytes()]),
        ("use", {"word": "map.toml"}, []),
        ("derive", asked, []),
        ("take", {"name": OUT}, []),
    ]


def by_hand(job: Job) -> dict[str, bytes]:
    """The door's answers, in this very interpreter."""
    desk = door.Desk()
    try:
        for name, asked, raws in calls(job):
            data, out = getattr(desk, name)(json.loads(json.dumps(asked)), raws)
    except Refused as refused:
        return {problem.code: b"" for problem in refused.problems}
    if OUT not in data["names"]:
        assert desk.derivation is not None
        return {problem.code: b"" for problem in desk.derivation.problems}
    return dict(zip(data["names"], out, strict=True))


@contextmanager
def inside(folder: Path) -> Iterator[None]:
    before = Path.cwd()
    os.chdir(folder)
    try:
        yield
    finally:
        os.chdir(before)


def of_command_line(job: Job, folder: Path) -> dict[str, bytes]:
    """What the goal behind the command writes."""
    shutil.copytree(job.folder, folder / "case")
    with inside(folder / "case"):
        request = Request(
            (job.base,), "map.toml", job.recipes, job.facts, job.answers, follow_literals=job.follow, shares=job.shares
        )
        try:
            write(derive(request), OUT, reports=REPORTS)
        except Refused as refused:
            return {problem.code: b"" for problem in refused.problems}
        names = [OUT, f"{OUT}.ledger.json", *(name for name, _ in REPORTS)]
        return {name: Path(name).read_bytes() for name in names}
