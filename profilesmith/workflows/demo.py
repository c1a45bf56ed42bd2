"""Demo: the shipped scenario copied into a folder, and the main job run on it."""

import os
from pathlib import Path
from typing import NamedTuple

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.place import ledger_beside
from profilesmith.library.find import shipped
from profilesmith.review.review import Review
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.request import Request
from profilesmith.write_files import outputs_free, write_whole

RECIPES = ("flexible-pla", "part-soft")
FACTS = ("machine.toml", "spool.toml", "part.toml")


class DemoResult(NamedTuple):
    """written: the files in order. next_commands: three commands to try from inside the folder."""

    review: Review
    written: list[Path]
    next_commands: list[str]


def run_demo(folder: str) -> DemoResult:
    """Lay out and derive. Raises Refused; a folder that holds any of the files already is left alone."""
    target = Path(folder)
    try:
        target.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        message = f"The folder cannot be made: {error.strerror or error}."
        raise Refused([Problem("cannot-write", message, Place(folder), "Name another folder.")]) from error
    source = shipped() / "demo"
    files = {
        target / path.relative_to(source): path.read_bytes()
        for path in sorted(source.rglob("*"))
        if os.path.isfile(path)
    }
    out = target / "soft.settings"
    if os.path.exists(out):
        hint = f"Go on with 'cd {folder}', or name another folder."
        raise Refused([Problem("exists", "Here lies a demo already.", Place(folder), hint)])
    there = [path for path in files if os.path.isdir(path.parent)]
    refuse_if(outputs_free([*there, out, ledger_beside(out)], (), overwrite=False))
    for path in files:
        path.parent.mkdir(parents=True, exist_ok=True)
    refuse_if(write_whole(files, overwrite=False))
    base, key_map = target / "base.settings", target / "keymap.toml"
    request = Request(
        bases=(str(base),), key_map=str(key_map), recipes=RECIPES, facts=tuple(str(target / name) for name in FACTS)
    )
    derivation = derive(request)
    written = [*files, *write(derivation, str(out))]
    return DemoResult(derivation.review, written, list(NEXT))


# From inside the folder, so that they stay short.
NEXT = (
    "profilesmith explain infill.speed base.settings --keymap keymap.toml --recipe flexible-pla --facts machine.toml",
    "profilesmith derive base.settings --keymap keymap.toml --recipe flexible-pla --recipe fine-finish "
    "--recipe part-sandable --facts machine.toml --facts spool.toml --start-block follow -o sandable.settings",
    "profilesmith compare soft.settings sandable.settings --keymap keymap.toml",
)
