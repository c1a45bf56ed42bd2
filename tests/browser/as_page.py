"""Derive cases as the page would carry them out, and the same by the command line: names and bytes to compare."""

from __future__ import annotations

import json
import os
import shutil
import tomllib
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

from profilesmith.browser import door
from profilesmith.browser.new_text import REPORTS
from profilesmith.engine.advice import advice_json
from profilesmith.engine.mend import Said
from profilesmith.foundation.problem import Refused
from profilesmith.ledger.json_text import json_text
from profilesmith.library.find import shipped
from profilesmith.library.open_files import shown_name
from profilesmith.mend.load_troubles import shipped_troubles
from profilesmith.review.render import render
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.mend import mend
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import review_again
from profilesmith.workflows.write_mend import write_mend

CASES = Path(__file__).parents[1] / "cases"
OUT, NEXT, FOLDER, NEXT_FOLDER = "out.cfg", "out-2.cfg", "out", "next"
SAID: Mapping[str, Any] = {
    "seen": {"stringing": "poor", "gaps in walls": "fair"},
    "looks": {"hiss": False},
    "date": "2030-01-31",
}
Files = dict[str, bytes]
Call = tuple[str, dict[str, Any], list[bytes]]


class Job(NamedTuple):
    """A case. recipes: as the case names them."""

    name: str
    folder: Path
    bases: tuple[str, ...]
    recipes: tuple[str, ...]
    facts: tuple[str, ...]
    answers: dict[str, str]
    follow: bool
    shares: str

    @property
    def outputs(self) -> tuple[str, ...]:
        """One text takes a name of its own; several keep theirs, in a folder."""
        return self.bases if len(self.bases) > 1 else (OUT,)


def jobs() -> list[Job]:
    """All derive cases."""
    found = []
    for folder in sorted((CASES / "derive").iterdir()):
        case = tomllib.loads((folder / "case.toml").read_text(encoding="utf-8"))
        bases = tuple(sorted(path.name for path in folder.iterdir() if path.stem.startswith("base")))
        options = case.get("options", [])
        facts = tuple(sorted(path.name for path in folder.glob("facts*.toml")))
        follow = "--follow-literals" in options or ("--start-block", "follow") in pairwise(options)
        shares = options[options.index("--shares") + 1] if "--shares" in options else ""
        recipes = tuple(case["recipes"])
        found.append(Job(folder.name, folder, bases, recipes, facts, case.get("answers", {}), follow, shares))
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


def texts_of(job: Job) -> list[bytes]:
    return [(job.folder / base).read_bytes() for base in job.bases]


def calls(job: Job) -> list[Call]:
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
        ("read", {"names": job.bases}, texts_of(job)),
        ("use", {"word": "map.toml"}, []),
        ("derive", asked, []),
        ("take", {"name": OUT}, []),
    ]


def later_calls(job: Job, derived: Files) -> list[list[Call]]:
    """What it asks after the print, on a desk that has the library only: the review, then advice and what it writes.

    derived: the texts and the ledger that were taken along, edited since.
    """
    key_map = (job.folder / "map.toml").read_bytes()
    names = [*derived, *job.bases, "map.toml"]
    opened: list[Call] = [
        ("begin", {**library(job), "maps": []}, []),
        ("open", {"names": names}, [*derived.values(), *texts_of(job), key_map]),
    ]
    advised: list[Call] = [*opened, ("advise", dict(SAID), [])]
    return [opened, advised, [*advised, ("take_mended", {"name": NEXT}, [])]]


def by_hand(asked: list[Call]) -> tuple[dict[str, Any], list[bytes]]:
    """The last of the door's answers, in this very interpreter; a refusal is one, too."""
    desk = door.Desk()
    for name, data, raws in asked:
        text, files = door.call(name, json.dumps(data), raws, desk)
        told: dict[str, Any] = json.loads(text)
        if "refused" in told:
            break
    return told, files


def files_of(told: dict[str, Any], files: list[Any], last: str = "take") -> dict[str, Any]:
    """Names and bytes (or hashes) that a call hands out; for a refusal its codes."""
    if "refused" in told:
        return {item["code"]: b"" for item in told["refused"]}
    if last == "open":
        return {"review.html": files[0]} if files else {}
    return {"advice.json": files[0]} if last == "advise" else dict(zip(told["names"], files, strict=True))


@contextmanager
def inside(folder: Path) -> Iterator[None]:
    before = Path.cwd()
    os.chdir(folder)
    try:
        yield
    finally:
        os.chdir(before)


def of_command_line(job: Job, folder: Path) -> Files:
    """What the goal behind the command writes."""
    shutil.copytree(job.folder, folder / "case")
    with inside(folder / "case"):
        request = Request(
            job.bases, "map.toml", job.recipes, job.facts, job.answers, follow_literals=job.follow, shares=job.shares
        )
        reports = tuple((f"out-{ending}", form) for form, ending in REPORTS)
        place = Path(FOLDER if len(job.bases) > 1 else ".")
        made = derive(request)
        if made.problems:
            return {name: render(made.review, form).encode("utf-8", "backslashreplace") for name, form in reports}
        write(made, OUT if len(job.bases) == 1 else FOLDER, reports=reports)
        names = [*job.outputs, f"{job.outputs[0]}.ledger.json"]
        return {name: (place / name).read_bytes() for name in names} | {
            name: Path(name).read_bytes() for name, _ in reports
        }


def derived_files(job: Job, files: Files) -> Files:
    """Of what was taken along the texts and the ledger; the first text has a line put in by hand."""
    first = job.outputs[0]
    found = {name: files[name] for name in (*job.outputs, f"{first}.ledger.json")}
    by_hand = b"" if job.name == "utf-16" else b"\n; a hand was here\nkept_lamp = 61\n"
    return {**found, first: found[first] + by_hand}


def later_of_command_line(job: Job, folder: Path, derived: Files) -> list[Files]:
    """The same by the goals behind ``review`` and ``mend``. folder: where ``of_command_line`` has written."""
    place = folder / "case" / (FOLDER if len(job.bases) > 1 else ".")
    with inside(place):
        for name, raw in derived.items():
            Path(name).write_bytes(raw)
        first = job.outputs[0]
        found = [{"review.html": page(review_again(first).review)}]
        said = Said(SAID["seen"], SAID["looks"], date=SAID["date"])
        try:
            mended = mend(first, said, shipped_troubles())
            found.append({"advice.json": json_text(advice_json(mended)).encode()})
            made = write_mend(mended, said)
        except Refused as refused:
            return [*found, {problem.code: b"" for problem in refused.problems}]
        out = Path(f"../{NEXT_FOLDER}") if len(job.bases) > 1 else Path(NEXT)
        write(made, str(out))
        names = job.bases if len(job.bases) > 1 else (NEXT,)
        there = out if len(job.bases) > 1 else out.parent
        files = {name: (there / name).read_bytes() for name in (*names, f"{names[0]}.ledger.json")}
        return [*found, {**files, f"{names[0].rpartition('.')[0]}-review.html": page(made.review)}]


def page(review: Any) -> bytes:
    return render(review, "page").encode("utf-8", "backslashreplace")
