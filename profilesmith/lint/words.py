"""R20x: the words of a recipe say something, and hold no signs that cannot be seen."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import RecipeFile

FEWEST = 3  # letters below which no word says anything
LEFT_OVER = re.compile(r"for the keeper (?:of this recipe )?to add|\bto be added\b|\bTODO\b|\bFIXME\b|\?\?\?")
UNSEEN = ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")


def says_something(text: str) -> bool:
    """Whether there are letters enough for a word."""
    return sum(sign.isalpha() for sign in text) >= FEWEST


def _words(file: RecipeFile) -> Iterator[tuple[str, str, int | None]]:
    """What is called how, its text, its line."""
    recipe = file.recipe
    head = file.lines.get(("recipe",))
    heads = (
        ("title", recipe.title),
        ("name", recipe.name),
        ("from", recipe.source_material),
        ("to", recipe.target_material),
    )
    yield from ((key, text, file.lines.get(("recipe", key), head)) for key, text in heads)
    for key, texts in (("cautions", recipe.cautions), ("authors", recipe.authors)):
        yield from ((key, text, file.lines.get(("recipe", key), head)) for text in texts)
    yield from (("ask", item.ask, file.lines.get(("inputs", item.name), head)) for item in recipe.inputs.values())
    for rule in recipe.rules:
        yield f"why of rule {rule.number}", rule.why, rule.place.line
        yield f"source of rule {rule.number}", rule.source, rule.place.line


def _too_short(file: RecipeFile) -> Iterator[Fault]:
    for what, text, line in _words(file):
        if what.startswith(("why", "source")) and text.strip() and not says_something(text):
            yield Fault(f"The {what} is {text.strip()[:20]!r}, which says nothing.", line)


def _left_over(file: RecipeFile) -> Iterator[Fault]:
    for number, text in enumerate(file.raw.decode("utf-8", "replace").split("\n"), 1):
        left = LEFT_OVER.search(text)
        if left:
            yield Fault(f"The line still says {left.group()!r}.", number)


def _unseen(file: RecipeFile) -> Iterator[Fault]:
    for what, text, line in _words(file):
        signs = [sign for sign in text if unicodedata.category(sign) in UNSEEN and sign != "\n"]
        if signs:
            yield Fault(f"The {what} holds U+{ord(signs[0]):04X}, which cannot be seen.", line)


RULES = (
    LintRule(
        "R203",
        "error",
        "Reasons and sources say something",
        "One sign in a reason's place passes for a reason where nobody reads it.",
        "Say what would go wrong without the rule, and where that comes from.",
        _too_short,
    ),
    LintRule(
        "R204",
        "error",
        "Nothing is left to be added",
        (
            "A recipe that was distilled or begun says so where its keeper has still to write: members "
            "would read it as it is."
        ),
        "Write what is missing, and take the line out that says so.",
        _left_over,
    ),
    LintRule(
        "R205",
        "error",
        "All signs of its words can be seen",
        "Control characters and marks that turn the direction of a text make a person read what a program does not.",
        "Write plain words.",
        _unseen,
    ),
)
