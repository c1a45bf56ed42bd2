"""What comes in at a door: some bytes under the name by which people know them."""

from typing import NamedTuple


class Source(NamedTuple):
    """A text, a key map, a recipe or a facts file."""

    name: str
    raw: bytes


class Call(NamedTuple):
    """What was asked for, in words, as a ledger remembers it: files as seen from the ledger, or names in a library.

    answers: name of a fact or an input and the text as typed. shares: "keep", "follow", or "" for what the map says.
    laid: recipes of this profile alone, laid over the others and kept in its ledger.
    """

    bases: tuple[str, ...] = ()
    key_map: str = ""
    recipes: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()
    answers: tuple[tuple[str, str], ...] = ()
    library: str = ""
    follow_literals: bool = False
    shares: str = ""
    laid: tuple[Source, ...] = ()
