"""What may hurt somebody where a mend raises heat or time."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.mend.proposal import Move
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

LONGER = {"speed": -1, "acceleration": -1, "duration": 1}
HEAT = "It raises heat: stay inside the spool's window, ventilate the room and stay out of the plume."
TIME = "The print takes longer: do not leave it unattended, and keep a working smoke alarm near."
WHAT_HELPED = "What helped after printing"
"""The title of a recipe that is made of mends."""


def cautions(moves: Sequence[Move], longer: bool = False) -> list[str]:
    """Sentences, each once. longer: whether the checks say that the print may take longer."""
    texts: dict[str, None] = {TIME: None} if longer else {}
    for move in moves:
        kind = load_vocabulary().settings[move.setting].kind
        if not isinstance(move.before, Fraction) or not isinstance(move.after, Fraction):
            continue
        rises = 1 if move.after > move.before else -1
        if kind == "temperature" and rises > 0:
            texts[HEAT] = None
        if LONGER.get(kind) == rises or (move.setting == "layer.height" and rises < 0):
            texts[TIME] = None
    return sorted(texts)  # heat first
