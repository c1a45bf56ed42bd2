"""The review as a checklist in one self-contained HTML file: large new values and boxes, for the screen or for
paper.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

from profilesmith.recipe.recipe import Recipe
from profilesmith.review.render import Look
from profilesmith.review.render.html.frame import fill
from profilesmith.review.render.sheet.of_recipe import recipes_sheet
from profilesmith.review.render.sheet.of_review import review_sheet
from profilesmith.review.render.sheet.sheet import Sheet
from profilesmith.review.review import Review
from profilesmith.vocabulary.setting import Vocabulary


def render(review: Review, look: Look) -> str:
    """The checklist of a review as a page."""
    return sheet_page(review_sheet(review))


def render_recipe(recipe: Recipe, vocabulary: Vocabulary) -> str:
    """The checklist of a recipe as a page, for a person who has no settings text."""
    return render_recipes((recipe,), vocabulary)


def render_recipes(recipes: Sequence[Recipe], vocabulary: Vocabulary) -> str:
    """One checklist of several recipes as a page."""
    return sheet_page(recipes_sheet(recipes, vocabulary))


def sheet_page(sheet: Sheet) -> str:
    """A sheet as a page. Boxes are ticked without script; with it the ticks are kept under a hash of the sheet."""
    mark = hashlib.sha256(repr(sheet).encode("utf-8", "surrogatepass")).hexdigest()[:16]
    return fill("checklist.html", ("base.css", "checklist.css"), "checklist.js", sheet=sheet, mark=mark)
