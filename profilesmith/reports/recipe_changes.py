"""Two versions of a recipe held against one another, in words, and what the change does to profiles."""

from __future__ import annotations

from profilesmith.catalogue.changes_words import changes_lines
from profilesmith.catalogue.effect_words import effect_lines
from profilesmith.review.wording import visible
from profilesmith.workflows.recipe_compare import ComparedRecipes


def compared_text(compared: ComparedRecipes) -> str:
    lines = changes_lines(compared.changes)
    for effect in compared.effects:
        lines += ["", *effect_lines(effect)]
    return "\n".join(visible(line) for line in lines) + "\n"
