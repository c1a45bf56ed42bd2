"""What a ledger remembers as asked for, for a derivation that is made again in the same folder."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.engine.derived_file import followed_then, shares_then
from profilesmith.engine.read import Source
from profilesmith.facts.facts import fact_kinds
from profilesmith.ledger import Call
from profilesmith.ledger.history import AS_MAPPED, Laid
from profilesmith.ledger.packed import pack
from profilesmith.ledger.read import Stored
from profilesmith.recipe.recipe import Recipe


def call_again(stored: Stored, recipes: Sequence[Recipe], laid: Sequence[Source]) -> Call | None:
    """The call of then, with answers that are still asked for. recipes: those that it names; laid: over them.

    None for a ledger that remembers none, as the oldest do.
    """
    call = stored.file.call
    if call is None:
        return None
    known = {name for recipe in recipes for name in recipe.inputs}
    known |= {f"{recipe.name}.{name}" for recipe in recipes for name in recipe.inputs} | set(fact_kinds())
    return call._replace(
        answers={name: text for name, text in call.answers.items() if name in known},
        follow_literals=followed_then(stored),
        shares=shares_then(stored) or AS_MAPPED,  # type: ignore[arg-type]
        laid=tuple(Laid(source.name, pack(source.raw)) for source in laid),
    )
