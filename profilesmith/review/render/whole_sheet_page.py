"""Every value of a profile in one self-contained HTML file, for the screen or for paper."""

from __future__ import annotations

from profilesmith.review.render import Look
from profilesmith.review.render.html.frame import fill
from profilesmith.review.render.sheet.whole import whole_sheet
from profilesmith.review.review import Review
from profilesmith.review.sentences import COMMANDS


def render(review: Review, look: Look) -> str:
    """The whole sheet of a review as a page."""
    sheet = whole_sheet(review)
    return fill("whole_sheet.html", ("base.css", "whole_sheet.css"), "", sheet=sheet, commands_title=COMMANDS)
