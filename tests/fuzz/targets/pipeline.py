"""The whole: a small text, a map, a recipe and facts in one input, derived in process.

Invariants beyond "a refusal or a result": the audit never finds a fault of our own; without a recipe the bytes stay;
what was derived reads as the derived profile; deriving again changes nothing, unless the recipe scales or shifts.
"""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from profilesmith.engine.derive import Derivation
from profilesmith.foundation.problem import Refused
from profilesmith.review.render import Look, render
from profilesmith.workflows.derive import derive
from profilesmith.workflows.request import Request
from tests.fuzz.engine import Target
from tests.fuzz.targets import document, toml_words

MARK = b"\n%%%%\n"
CASES = Path(__file__).parents[2] / "cases"
FORMS = ("terminal", "markdown", "json", "checklist")


@cache
def folder() -> Path:
    """Where the parts are laid out; in memory where the machine has such a place."""
    memory = Path("/dev/shm")
    made = tempfile.TemporaryDirectory(prefix="fuzz.", dir=memory if memory.is_dir() else None)
    _FOLDERS.append(made)
    return Path(made.name)


_FOLDERS: list[tempfile.TemporaryDirectory[str]] = []  # so that it goes with the program


def behaviour(data: bytes) -> str:
    text, key_map, recipe, facts = (*data.split(MARK), b"", b"", b"")[:4]
    here = folder()
    for name, part in (("map.toml", key_map), ("recipe.toml", recipe), ("facts.toml", facts)):
        (here / name).write_bytes(part)
    try:
        made = _derived(here, text, bool(recipe), bool(facts))
    except Refused as refused:
        codes = {problem.code for problem in refused.problems}
        if "audit" in codes:
            raise AssertionError(f"the audit found a fault of ours: {refused}") from refused
        return " ".join(sorted(codes))
    render(made.review, FORMS[len(data) % len(FORMS)], Look(full=True))
    if made.problems:
        return f"problems {sorted({problem.code for problem in made.problems})}"
    new = made.outputs[0]
    if not recipe:
        assert new == text, "no recipe, no change"
    elif not any(item.once for item in made.recipes):
        again = _derived(here, new, True, bool(facts))
        assert not again.problems, "what was derived can be derived again"
        assert again.outputs[0] == new, "deriving again changes nothing"
    return f"derived {sorted({row.status for row in made.ledger.rows})} {new == text}"


def _derived(here: Path, text: bytes, recipe: bool, facts: bool) -> Derivation:
    (here / "base.cfg").write_bytes(text)
    return derive(
        Request(
            bases=(str(here / "base.cfg"),),
            key_map=str(here / "map.toml"),
            recipes=(str(here / "recipe.toml"),) if recipe else (),
            facts=(str(here / "facts.toml"),) if facts else (),
            follow_literals=len(text) % 2 == 0,
        )
    )


SMALL = (
    b'format = 1\n[recipe]\nname = "r"\nversion = "1.0.0"\n[[rule]]\n'
    b'setting = "printing speeds"\ncap = "40 mm/s"\nwhy = "w"\n[[rule]]\n'
    b'setting = "nozzle.temperature"\nwindow = ["210 \xc2\xb0C", "220 \xc2\xb0C"]\n'
    b'aim = "215 \xc2\xb0C"\n'
)


@cache
def seeds() -> list[bytes]:
    found = []
    for case in sorted((CASES / "derive").iterdir()):
        base, key_map = case / "base.cfg", case / "map.toml"
        if not base.exists() or not key_map.exists():
            continue
        recipe = next(
            (path.read_bytes() for path in sorted(case.glob("*.toml")) if b"[[rule]]" in path.read_bytes()), SMALL
        )
        facts = next((path.read_bytes() for path in sorted(case.glob("facts*.toml"))), b"")
        found += [MARK.join((base.read_bytes(), key_map.read_bytes(), each, facts)) for each in (recipe, SMALL)]
    return [data for data in found if len(data) < 4000]


def tokens() -> list[bytes]:
    return [*document.tokens(), *toml_words.tokens()]


TARGET = Target("pipeline", behaviour, seeds, tokens)
