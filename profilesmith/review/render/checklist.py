"""The review as a checklist in Markdown: boxes to tick while typing the values in by hand."""

from __future__ import annotations

from profilesmith.recipe.recipe import Recipe
from profilesmith.review.render import Look
from profilesmith.review.render.markdown import code, escape
from profilesmith.review.render.sheet.of_recipe import recipe_sheet
from profilesmith.review.render.sheet.of_review import review_sheet
from profilesmith.review.render.sheet.sheet import Item, Sheet, Step
from profilesmith.review.review import Review
from profilesmith.review.wording import visible
from profilesmith.vocabulary.setting import Vocabulary


def render(review: Review, look: Look) -> str:
    """The checklist of a review."""
    return sheet_markdown(review_sheet(review))


def render_recipe(recipe: Recipe, vocabulary: Vocabulary) -> str:
    """The checklist of a recipe, for a person who has no settings text."""
    return sheet_markdown(recipe_sheet(recipe, vocabulary))


def sheet_markdown(sheet: Sheet) -> str:
    """A sheet as Markdown with task boxes."""
    lines = [f"# {_text(sheet.title)}", "", _text(sheet.subject), ""]
    if sheet.elsewhere:
        lines += [_text(sheet.elsewhere), ""]
    if sheet.stop:
        lines += ["## Stop: do not type this in yet", "", *(f"- **{_text(words)}**" for words in sheet.stop), ""]
    if sheet.look_first:
        lines += [
            line
            for title, words in sheet.look_first
            for line in (f"**Look first{f': {_text(title)}' if title else ''}.** {_text(words)}", "")
        ]
    lines += [f"{number}. {_text(words)}" for number, words in enumerate(sheet.lead, 1)] + [""]
    if sheet.asks:
        lines += ["## Find out first", ""]
        for ask in sheet.asks:
            label = f"**{_text(ask.label)}** " if ask.label else ""
            lines.append(f"- [ ] {label}{_text(ask.words)} {_text(ask.otherwise)}".rstrip())
        lines.append("")
    for part in sheet.parts:
        lines += [f"## {_text(part.title)}", "", *(line for item in part.items for line in item_lines(item)), ""]
    if sheet.start_blocks:
        lines += ["## Start block", "", "These commands still say the old values. Change them, or take them out.", ""]
        lines += [*(f"- [ ] {_text(words)}" for words in sheet.start_blocks), ""]
    lines += _list("Take care", sheet.cautions) + _list("Notes", sheet.notes)
    lines += _list("Why", tuple(_reason(reason.rule, reason.why, reason.source) for reason in sheet.reasons))
    return "\n".join(lines).rstrip("\n") + "\n"


def _text(words: str) -> str:
    return escape(visible(words))


def _list(title: str, items: tuple[str, ...]) -> list[str]:
    return [f"## {title}", "", *(f"- {_text(item)}" for item in items), ""] if items else []


def _reason(rule: str, why: str, source: str) -> str:
    return f"{rule}: {why}" + (f" ({source})" if source else "")


def item_lines(item: Item) -> list[str]:
    """A box: ``- [ ] Outer wall speed: **40 mm/s** (now 75 mm/s)`` and, below it, where it stands."""
    box = "[ ] " if item.boxed else ""
    old = f" <sub>now {_text(item.old)}</sub>" if item.old else ""
    name = _text(item.name)
    if len(item.steps) == 1:
        lines = [f"- {box}{name}: {_step(item.steps[0])}{old}"]
    else:
        lines = [f"- {box}{name}{old}", *(f"    - {_step(step)}" for step in item.steps)]
    where = _where(item)
    if where:
        lines[0] += f"  \n  {where}" if len(item.steps) == 1 else ""
        lines += [f"    - {where}"] if len(item.steps) > 1 else []
    return lines


def _step(step: Step) -> str:
    how = f" ({_text(step.how)})" if step.how else ""
    return f"**{_text(step.new)}**{how}{f' only if {_text(step.only)}' if step.only else ''}"


def _where(item: Item) -> str:
    parts = []
    if item.key:
        equals = f" = {code(visible(item.text))}" if item.text else ""
        parts.append(f"yours: {code(visible(item.key))}{equals}")
    return ", ".join([*parts, *(_text(words) for words in (item.place, item.note) if words)])
