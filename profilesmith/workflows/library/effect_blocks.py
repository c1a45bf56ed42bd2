"""Effects by their cause, each named once: a recipe on all profiles, or a changed profile under all recipes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import ORDER
from profilesmith.revision.outcomes import HURTS, Alarm
from profilesmith.workflows.library.effects import ChangedFile, Effect

Where = tuple[str, ...]
"""The derivations that something is told of, each as a person names it."""


class AlikeEffect(NamedTuple):
    """One thing that is alike in several derivations. kind: value, worse, came, went, stops or starts.

    subject: the setting or the alarm; was, now: values as data or (); alarm: for those. where: the worst first.
    """

    kind: str
    subject: str
    where: Where
    was: tuple[object, ...] = ()
    now: tuple[object, ...] = ()
    base: tuple[object, ...] = ()
    alarm: Alarm | None = None
    message: str = ""


class CauseBlock(NamedTuple):
    """What one cause does. recipe: the recipe that changed, or "" where only profiles did. derivations: how many come
    out otherwise.
    """

    causes: tuple[ChangedFile, ...]
    recipe: str
    before: str
    version: str
    alike: tuple[AlikeEffect, ...]
    derivations: int

    @property
    def is_new(self) -> bool:
        return bool(self.recipe) and not self.before

    def of(self, *kinds: str) -> list[AlikeEffect]:
        return [item for item in self.alike if item.kind in kinds]


def blocks_of(effects: Iterable[Effect]) -> tuple[CauseBlock, ...]:
    """Recipes that changed first, each on all profiles; then what changed profiles do under recipes that did not."""
    of_recipes: dict[str, list[Effect]] = {}
    of_profiles: dict[tuple[ChangedFile, ...], list[Effect]] = {}
    for item in effects:
        if item.causes[0].kind == "recipe":
            of_recipes.setdefault(item.recipe, []).append(item)
        else:
            of_profiles.setdefault(_shared(item), []).append(item)
    return tuple(map(_block, (*of_recipes.values(), *of_profiles.values())))


def _shared(effect: Effect) -> tuple[ChangedFile, ...]:
    """What may have changed for other profiles, too: a map, facts. A profile's own text is its own, where there is
    nothing else.
    """
    return tuple(cause for cause in effect.causes if cause.kind != "text") or effect.causes


def _block(effects: Sequence[Effect]) -> CauseBlock:
    first = effects[0]
    is_recipe = first.causes[0].kind == "recipe"
    causes = tuple(dict.fromkeys(cause for item in effects for cause in item.causes))
    recipe = (first.recipe, first.before, first.version) if is_recipe else ("", "", "")
    return CauseBlock(causes, *recipe, tuple(_alike(effects, is_recipe)), len(effects))


def _alike(effects: Sequence[Effect], is_recipe: bool) -> list[AlikeEffect]:
    gathered: dict[tuple[object, ...], tuple[AlikeEffect, list[str]]] = {}
    for effect in effects:
        place = effect.profile if is_recipe else f"{effect.recipe} on {effect.profile}"
        for item in _of_one(effect):
            verdict = item.alarm.verdict if item.alarm else ""
            key = (item.kind, item.subject, item.was, item.now, verdict)
            gathered.setdefault(key, (item, []))[1].append(place)
    alike = [item._replace(where=tuple(where)) for item, where in gathered.values()]
    return sorted(alike, key=_weight)


def _of_one(effect: Effect) -> Iterable[AlikeEffect]:
    what = effect.difference
    yield from (AlikeEffect("stops", item.setting or item.message, (), message=item.message) for item in what.stops)
    for kind, alarms in (("worse", what.worse), ("came", what.came)):
        yield from (AlikeEffect(kind, _name(item), (), alarm=item) for item in alarms)
    yield from (AlikeEffect("value", item.setting, (), item.old, item.new, item.base) for item in what.moved)
    yield from (AlikeEffect("went", _name(item), (), alarm=item) for item in what.went)
    yield from (AlikeEffect("starts", item.setting or item.message, (), message=item.message) for item in what.starts)


def _name(alarm: Alarm) -> str:
    return alarm.name if alarm.title == HURTS else alarm.title


def _weight(item: AlikeEffect) -> tuple[int, int]:
    """What may harm first; values stay together."""
    kinds = ("stops", "worse", "came", "value", "went", "starts")
    return kinds.index(item.kind), ORDER.index(item.alarm.verdict) if item.alarm else 0
