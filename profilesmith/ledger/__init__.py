"""The ledger: what a derivation did to every setting that a rule names, and why; as types and as a file."""

from profilesmith.ledger.ledger import (
    SAID_AGAIN,
    STATUS_MEANING,
    Answer,
    Cause,
    Ledger,
    Line,
    RecipeUse,
    Row,
    Status,
)

__all__ = ["SAID_AGAIN", "STATUS_MEANING", "Answer", "Cause", "Ledger", "Line", "RecipeUse", "Row", "Status"]
