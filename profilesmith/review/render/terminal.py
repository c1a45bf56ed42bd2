"""The review for a terminal of any width from 60 columns: one screen, or all of it."""

from profilesmith.review.render import Look
from profilesmith.review.render.brief import brief
from profilesmith.review.render.terminal_lines import StyledLine, coloured, plain
from profilesmith.review.review import Review

NARROWEST = 40


def render(review: Review, look: Look) -> str:
    """The review as text, with colours when ``look.colour``."""
    width = max(look.width, NARROWEST)
    if review.kind != "check" and not look.full:
        lines = [StyledLine(item.indent, ((item.text, item.style),), item.hang) for item in brief(review, look)]
    else:
        from profilesmith.review.render.terminal_page import page_lines  # few ask for reasons and all lists

        lines = page_lines(review, look)
    return coloured(lines, width) if look.colour else plain(lines, width)
