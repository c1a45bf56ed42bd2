"""What a change of a library does, in words: lines that are Markdown, too, and data."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from profilesmith.foundation.words import listed, plural
from profilesmith.review.render.markdown import escape
from profilesmith.review.wording import show_values, visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.library.effect_blocks import AlikeEffect, CauseBlock
from profilesmith.workflows.library.effect_findings import WORST, alarm_words, subject_words
from profilesmith.workflows.library.effects import Effect

HEADS = {"worse": "worse now", "came": "new", "went": "gone", "stops": "no longer derived", "starts": "derived again"}
Show = Callable[[str], str]


def effect_lines(blocks: Sequence[CauseBlock], markdown: bool = False) -> list[str]:
    """One block a cause; a blank line between them."""
    show: Show = (lambda text: escape(visible(text))) if markdown else visible
    lines: list[str] = []
    for block in blocks:
        head = show(f"{subject_words(block)}: {_reach(block)}")
        lines += ["", f"### {head}" if markdown else head, *([""] if markdown else [])]
        lines += [f"- {show(text)}" for text in _block_lines(block)]
    return lines[1:]


def _reach(block: CauseBlock) -> str:
    if block.is_new:
        return f"asks for a look on {plural(block.derivations, 'reference profile')}"
    where = "reference profile" if block.recipe else "derivation"
    return f"another outcome on {plural(block.derivations, where)}"


def _block_lines(block: CauseBlock) -> Iterator[str]:
    whole = next((item.where for item in block.alike if _is_everywhere(item, block)), ())
    yield from [f"all {len(whole)} are {listed(whole)}"] if whole else []
    yield from (f"{HEADS[item.kind]}: {item.message} ({_places(item, block)})" for item in block.of("stops"))
    for item in block.of("worse", "came"):
        yield f"{HEADS[item.kind]}: {alarm_words(item)} ({_places(item, block)})"
    yield from _value_lines(block)
    yield from (f"gone: {alarm_words(item, short=True)} ({_places(item, block)})" for item in block.of("went"))
    yield from (f"{HEADS[item.kind]}: {item.message} ({_places(item, block)})" for item in block.of("starts"))


def _value_lines(block: CauseBlock) -> Iterator[str]:
    """One line for each change of a value; of a cause that reaches many derivations, one for each setting."""
    items = block.of("value")
    if block.recipe:
        yield from (f"{_value(item)} ({_places(item, block)})" for item in items)
        return
    for setting in dict.fromkeys(item.subject for item in items):
        mine = [item for item in items if item.subject == setting]
        count = sum(len(item.where) for item in mine)
        some = "; ".join(f"{_value(item)} ({item.where[0]})" for item in mine[:WORST])
        yield f"{setting} comes out otherwise in {plural(count, 'derivation')}: {some}"


def _value(item: AlikeEffect) -> str:
    return f"{item.subject}: {_shown(item, item.now)}; was {_shown(item, item.was)}"


def _shown(item: AlikeEffect, values: Any) -> str:
    return show_values(load_vocabulary().settings[item.subject], values) if values else "no key"


def _is_everywhere(item: AlikeEffect, block: CauseBlock) -> bool:
    """Whether all profiles that a recipe's change reaches have it, and are so many that they are named once."""
    return bool(block.recipe) and len(item.where) == block.derivations > WORST


def _places(item: AlikeEffect, block: CauseBlock) -> str:
    """Of a recipe's change every profile by name, unless it is all of them; of another's a few derivations."""
    if block.recipe:
        return f"on all {len(item.where)}" if _is_everywhere(item, block) else f"on {listed(item.where)}"
    if len(item.where) > WORST:
        return f"{len(item.where)}: {', '.join(item.where[:WORST])} and {len(item.where) - WORST} more"
    return listed(item.where)


def effect_data(effect: Effect) -> dict[str, Any]:
    """One derivation for programs: everything, nothing gathered."""
    what = effect.difference
    settings = load_vocabulary().settings
    return {
        "recipe": effect.recipe,
        "profile": effect.profile,
        "before": effect.before,
        "version": effect.version,
        "causes": [{"kind": item.kind, "name": item.name, "detail": item.detail} for item in effect.causes],
        "values": [
            {"setting": item.setting}
            | {
                name: show_values(settings[item.setting], values) if values else None
                for name, values in (("base", item.base), ("was", item.old), ("now", item.new))
            }
            for item in what.moved
        ],
        **{name: [item._asdict() for item in getattr(what, name)] for name in ("came", "worse", "went")},
        **{name: [item.message for item in getattr(what, name)] for name in ("stops", "starts")},
    }
