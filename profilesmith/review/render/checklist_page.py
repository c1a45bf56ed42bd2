"""The review as a checklist in one self-contained HTML file: large new values and boxes, for the screen or for paper."""

from __future__ import annotations

from profilesmith.recipe.recipe import Recipe
from profilesmith.review.render import Look
from profilesmith.review.render.html.frame import fill
from profilesmith.review.render.sheet.of_recipe import recipe_sheet
from profilesmith.review.render.sheet.of_review import review_sheet
from profilesmith.review.render.sheet.sheet import Sheet
from profilesmith.review.review import Review
from profilesmith.vocabulary.setting import Vocabulary


def render(review: Review, look: Look) -> str:
    """The checklist of a review as a page."""
    return sheet_page(review_sheet(review))


def render_recipe(recipe: Recipe, vocabulary: Vocabulary) -> str:
    """The checklist of a recipe as a page, for a person who has no settings text."""
    return sheet_page(recipe_sheet(recipe, vocabulary))


def sheet_page(sheet: Sheet) -> str:
    """A sheet as a page. Boxes are ticked without script; nothing is stored."""
    return fill("checklist.html", ("base.css", "checklist.css"), "", sheet=sheet)
