"""The machine-readable whole, as ``ledger/file.py`` states it."""

from __future__ import annotations

from profilesmith.ledger.write import file_text
from profilesmith.review.render import Look
from profilesmith.review.review import Review


def render(review: Review, look: Look) -> str:
    assert review.file is not None  # whoever builds a review for a program gives it
    return file_text(review.file)
