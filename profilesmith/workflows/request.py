"""What a user asks for: files and names as they were given on the command line or by a caller."""

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from profilesmith.checks.measured import UNKNOWN, Measured
from profilesmith.engine.source import Source
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import Call
from profilesmith.ledger.history import AS_MAPPED, Laid
from profilesmith.ledger.packed import pack


class Request(NamedTuple):
    """bases: one or several files of one machine. key_map, recipes: a file or a name in a library.

    shares: what becomes of shares whose reference moves, "keep" or "follow"; "" for what the map says.
    answers: input name -> text as typed. library: a folder to look in before the shipped recipes.
    measured: what motion files tell of the print.
    laid: recipes of this profile alone, over the others, kept in its ledger; None: those that the ledger has.
    held: facts that are known already, from a ledger; whatever else says something of one goes before it.
    """

    bases: tuple[str, ...]
    key_map: str
    recipes: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()
    answers: Mapping[str, str] = MappingProxyType({})
    library: Path | None = None
    follow_literals: bool = False
    shares: str = ""
    measured: Measured = UNKNOWN
    laid: tuple[Source, ...] | None = None
    held: Facts = {}  # noqa: RUF012 - a view of a dict cannot be sent to another process; nobody writes into it

    def call(self) -> Call:
        """In words, for the ledger."""
        return Call(
            bases=self.bases,
            key_map=self.key_map,
            recipes=self.recipes,
            facts=self.facts,
            answers=dict(self.answers),
            library="" if self.library is None else str(self.library),
            follow_literals=self.follow_literals,
            shares=self.shares or AS_MAPPED,  # type: ignore[arg-type]
            laid=tuple(Laid(source.name, pack(source.raw)) for source in self.laid or ()),
        )
