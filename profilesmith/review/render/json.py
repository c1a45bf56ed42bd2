"""The machine-readable whole, as ``knowledge/ledger.schema.json`` describes it."""

from __future__ import annotations

from profilesmith.ledger.json_text import json_text
from profilesmith.review.render import Look
from profilesmith.review.review import Review


def render(review: Review, look: Look) -> str:
    return json_text(review.data)
