"""What a change of a library does, in words: lines that are Markdown, too, findings, and data."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from profilesmith.foundation.words import listed, plural
from profilesmith.lint.finding import LintFinding
from profilesmith.review.render.markdown import escape
from profilesmith.review.wording import show_values, visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.library.effect_blocks import AlikeEffect, CauseBlock
from profilesmith.workflows.library.effects import Effect

STOPS, ALARMS = "T401", "T402"
WORST = 3  # of many that have one cause
HEADS = {"worse": "worse now", "came": "new", "went": "gone", "stops": "no longer derived", "starts": "derived again"}
Show = Callable[[str], str]


def effect_lines(blocks: Sequence[CauseBlock], markdown: bool = False) -> list[str]:
    """One block a cause; a blank line between them."""
    show: Show = (lambda text: escape(visible(text))) if markdown else visible
    lines: list[str] = []
    for block in blocks:
        head = show(f"{_subject(block)}: {_reach(block)}")
        lines += ["", f"### {head}" if markdown else head, *([""] if markdown else [])]
        lines += [f"- {show(text)}" for text in _block_lines(block)]
    return lines[1:]


def _subject(block: CauseBlock) -> str:
    """``gentle 1.0.0 → 1.1.0``, or the changed files of profiles."""
    if block.is_new:
        return f"{block.recipe} {block.version}, new"
    texts = [item for item in block.causes if item.kind == "text"]
    named = block.causes if len(texts) <= WORST else [item for item in block.causes if item.kind != "text"]
    files = [f"{item.kind} {item.name}{f' ({item.detail})' if item.detail else ''}" for item in named]
    files += [f"{len(texts)} texts"] if len(texts) > WORST else []
    if block.recipe:
        return "; and ".join([f"{block.recipe} {block.before} → {block.version}", *files[1:]])
    return "; ".join(files)


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
        yield f"{HEADS[item.kind]}: {_alarm(item)} ({_places(item, block)})"
    yield from _value_lines(block)
    yield from (f"gone: {_alarm(item, short=True)} ({_places(item, block)})" for item in block.of("went"))
    yield from (f"{HEADS[item.kind]}: {item.message} ({_places(item, block)})" for item in block.of("starts"))


def _alarm(item: AlikeEffect, short: bool = False) -> str:
    assert item.alarm is not None
    return f"{item.alarm.verdict}: {item.subject}" + ("" if short else f": {item.alarm.text}")


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


def effect_findings(blocks: Sequence[CauseBlock]) -> Iterator[LintFinding]:
    """An error for what can be derived no longer, a hint for new and worse alarms: one for each cause and kind."""
    for block in blocks:
        stops, alarms = block.of("stops"), block.of("worse", "came")
        if stops:
            message = f"{_subject(block)}: {_count(stops)} that could be derived before no longer can: {_worst(stops)}"
            fix = (
                "Loosen what stands against it, or give the rule a condition; say in the version that old "
                "results no longer hold."
            )
            yield _finding(STOPS, "error", block, message, fix)
        if alarms:
            message = f"{_subject(block)}: new or worse alarms in {_count(alarms)}: {_worst(alarms)}"
            fix = "See 'What changes' of this check; mend what causes them, or take them on purpose."
            yield _finding(ALARMS, "hint", block, message, fix)


def _finding(number: str, severity: Any, block: CauseBlock, message: str, fix: str) -> LintFinding:
    return LintFinding(number, severity, block.causes[0].file, None, visible(message), visible(fix))


def _count(items: Sequence[AlikeEffect]) -> str:
    return plural(len({place for item in items for place in item.where}), "derivation")


def _worst(items: Sequence[AlikeEffect]) -> str:
    named = [f"{_what(item)} ({item.where[0]})" for item in items[:WORST]]
    left = sum(len(item.where) for item in items) - len(named)
    return "; ".join(named) + (f"; and {left} more" if left > 0 else "")


def _what(item: AlikeEffect) -> str:
    return item.message.rstrip(".") if item.kind == "stops" else f"{_alarm(item, short=True)}"


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
