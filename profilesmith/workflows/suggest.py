"""Key map suggest, for files: texts to proposals for a map, and the map itself, new or brought up to date."""

import os
from pathlib import Path

from profilesmith.engine.read import Source
from profilesmith.engine.suggest import SuggestedMap, map_text
from profilesmith.engine.suggest import suggest as propose
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.library.open_files import open_key_map
from profilesmith.suggest.update_map import Update
from profilesmith.translation.key_map import KeyMap
from profilesmith.workflows.read import read_facts, read_sources
from profilesmith.write_files import outputs_free, write_whole

FORMS = ("terminal", "json")


class MapOrder(NamedTuple):
    """What a user asks for. out: the map to write, None for none; an existing one is brought up to date, or with
    overwrite written anew."""

    bases: tuple[str, ...]
    out: Path | None = None
    facts: tuple[str, ...] = ()
    library: Path | None = None
    accept_checks: bool = False
    overwrite: bool = False


def suggest(order: MapOrder) -> SuggestedMap:
    """Proposals for some texts. Raises Refused when they cannot be read or are no settings text."""
    problems: list[Problem] = []
    old, old_text = _existing(order, problems)
    facts = read_facts(order.facts, order.library, problems)
    sources: list[Source] = read_sources(order.bases, problems)
    refuse_if(problems)
    name = (order.out.stem if order.out else "") or Path(order.bases[0]).stem or "suggested"
    return propose(sources, name, facts, old, old_text)


def write(order: MapOrder, outcome: SuggestedMap) -> Update | None:
    """Write the map. Returns what an existing one was given, None for a new one. Raises Refused."""
    assert order.out is not None
    text, update = map_text(outcome, order.accept_checks)
    refuse_if(write_whole({order.out: text.encode("utf-8")}, order.overwrite or outcome.old is not None))
    return update


def _existing(order: MapOrder, problems: list[Problem]) -> tuple[KeyMap | None, str]:
    """The map that is to be brought up to date."""
    if order.out is None:
        return None, ""
    inputs = [Path(base) for base in order.bases]
    problems += outputs_free([order.out], inputs, overwrite=True)
    if problems or order.overwrite or not os.path.exists(order.out):
        return None, ""
    key_map, faults = open_key_map(order.out, str(order.out))
    if faults:
        hint = "Mend it, name another file with -o, or let --overwrite write it anew."
        problems += [
            *faults,
            Problem("map", "The map that is to be brought up to date cannot be read.", Place(str(order.out)), hint),
        ]
        return None, ""
    return key_map, order.out.read_bytes().decode("utf-8-sig")
