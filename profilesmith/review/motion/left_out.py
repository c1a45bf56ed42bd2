"""What the checks could not take from a motion file, and why, in sentences."""

from __future__ import annotations

from profilesmith.checks.case import Measure
from profilesmith.review.render.command import command


def left_out(name: str, measure: Measure) -> list[str]:
    """Sentences on what the checks could not take from a motion file, and why."""
    sentences = []
    if measure.hours is None or measure.flow_mm3_s is None:
        what = " and ".join(
            word for word, value in (("hours", measure.hours), ("flow", measure.flow_mm3_s)) if value is None
        )
        sentences.append(
            f"{name}: its {what} are not taken, as it ends in the middle or has words that are not followed; "
            f"'{command('motion check', name)}' names them."
        )
    if measure.grams is None:
        sentences.append(f"{name}: its grams are not taken; they need a whole file and spool.density in a facts file.")
    return sentences
