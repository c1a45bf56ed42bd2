"""The mended file, whose ledger carries the road on, or goes back on it."""

from __future__ import annotations

from pathlib import Path

from profilesmith.engine.derive import Derivation
from profilesmith.engine.mend import Mended, Said
from profilesmith.engine.mended import laid_for, mended_road, mends_first, road_back, with_road
from profilesmith.ledger.read import Stored
from profilesmith.mend.road import RoadStep
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.mend import bases_of
from profilesmith.workflows.rederive.rederive import rederive
from profilesmith.workflows.request import Request


def write_mend(mended: Mended, said: Said, library: Path | None = None) -> Derivation:
    """The mended file, to be written by ``derive.write``. Raises Refused where there is nothing to write."""
    return _carried_on(mended.derived, mended.stored, mended_road(mended, said), library)


def undo(derived: str, said: Said, library: Path | None = None) -> Derivation:
    """The last mend taken back. Raises Refused where there is none."""
    stored = load_ledger(derived)
    return _carried_on(derived, stored, road_back(derived, stored, said), library)


def _carried_on(derived: str, stored: Stored, steps: tuple[RoadStep, ...], library: Path | None) -> Derivation:
    """The derivation made again with all mends as a recipe of its own, hand edits kept."""
    bases = bases_of(stored, Path(derived).parent)
    again = Request(bases, "", library=library, laid=laid_for(stored, steps))
    return with_road(rederive([derived], again, mends_first(steps)).derivation, steps)
