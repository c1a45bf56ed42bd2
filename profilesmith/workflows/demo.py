"""Demo: the shipped scenario copied into a folder, and the main job run on it."""

import os
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.place import ledger_beside
from profilesmith.library.find import shipped
from profilesmith.review.review import Review
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.request import Request
from profilesmith.write_files import make_folder, outputs_free, write_whole

RECIPES = ("flexible-pla", "part-soft")
FACTS = ("machine.toml", "spool.toml", "part.toml")


class DemoResult(NamedTuple):
    """written: the files in order."""

    review: Review
    written: list[Path]


def run_demo(folder: str) -> DemoResult:
    """Lay out and derive. Raises Refused; a folder that holds any of the files already is left alone."""
    target = Path(folder)
    refuse_if(make_folder(target, "Name another folder."))
    source = shipped() / "demo"
    files = {
        target / path.relative_to(source): path.read_bytes()
        for path in sorted(source.rglob("*"))
        if os.path.isfile(path)
    }
    out = target / "soft.settings"
    if os.path.exists(out):
        hint = f"Go on with 'cd {folder}', or name another folder."
        raise Refused([Problem("exists", "This folder already holds a demo.", Place(folder), hint)])
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
    review = derivation.review._replace(outputs=(str(out),))
    return DemoResult(review, written)
