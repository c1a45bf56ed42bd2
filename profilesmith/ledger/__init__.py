"""The ledger: what a derivation did to every setting that a rule names, and why; as types and as a file.

The types stand here. ``ledger.read`` and ``ledger.write`` know the file (``read_ledger``, ``file_text``),
``ledger.file`` states it.
"""

from profilesmith.ledger.cause import Asked, Cause, Condition, Note, NoteCode, Operand, Question
from profilesmith.ledger.history import Call, Decision, Earlier, FileHash
from profilesmith.ledger.ledger import (
    MOVING,
    WRITING,
    Answer,
    BrokenRules,
    Ledger,
    Line,
    RecipeUse,
    Row,
    StartCommand,
    Status,
    Values,
)

__all__ = [
    "MOVING",
    "WRITING",
    "Answer",
    "Asked",
    "BrokenRules",
    "Call",
    "Cause",
    "Condition",
    "Decision",
    "Earlier",
    "FileHash",
    "Ledger",
    "Line",
    "Note",
    "NoteCode",
    "Operand",
    "Question",
    "RecipeUse",
    "Row",
    "StartCommand",
    "Status",
    "Values",
]
