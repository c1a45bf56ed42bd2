"""The ledger: what a derivation did to every setting that a rule names, and why; as types and as a file."""

from profilesmith.ledger.ledger import (
    MOVING,
    SAID_AGAIN,
    STATUS_MEANING,
    WRITING,
    Answer,
    Cause,
    Ledger,
    Line,
    RecipeUse,
    Row,
    Status,
)

__all__ = [
    "MOVING",
    "SAID_AGAIN",
    "STATUS_MEANING",
    "WRITING",
    "Answer",
    "Cause",
    "Ledger",
    "Line",
    "RecipeUse",
    "Row",
    "Status",
]
