"""Review again, for files: the ledger beside a derived file, in any form, and whether the file was edited since."""

from __future__ import annotations

from profilesmith.checks.case import Measured
from profilesmith.engine.review import ReviewedAgain
from profilesmith.engine.review import review_again as review
from profilesmith.ledger import Ledger
from profilesmith.workflows.derived_file import derived_file


def review_again(derived: str, motion: str = "", words: str = "") -> ReviewedAgain:
    """The review of a derived file as it stands, and what was edited since it was written. Raises Refused.

    motion: its motion file, with the words map of that; then the checks are made anew with it.
    """
    file = derived_file(derived)
    if not motion:
        return review(file)
    measured, left_out = _measured(motion, words, file.stored.ledger)
    return review(file, measured)._replace(left_out=left_out)


def _measured(motion: str, words: str, ledger: Ledger) -> tuple[Measured, tuple[str, ...]]:
    """What a motion file tells, and what of it could not be taken."""
    from profilesmith.review.motion.left_out import left_out
    from profilesmith.workflows.motion.measured import measured_of  # forty files, for those who name one

    measured = measured_of(motion, words, ledger)
    return measured, tuple(left_out(motion, measured.after))
