"""The machine-readable whole, as ``knowledge/ledger.schema.json`` describes it."""

from __future__ import annotations

import json

from profilesmith.review.render import Look
from profilesmith.review.review import Review


def render(review: Review, look: Look) -> str:
    return json.dumps(review.data, ensure_ascii=False, indent=2) + "\n"
