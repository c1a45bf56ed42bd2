"""What a new version of a recipe does to a profile, in words."""

from collections.abc import Sequence

from profilesmith.foundation.problem import Problem
from profilesmith.foundation.words import plural
from profilesmith.review.wording import show_values
from profilesmith.revision.on_profiles import Moved, ProfileEffect
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def effect_head(effect: ProfileEffect) -> tuple[str, tuple[str, ...]]:
    """What a new version does to a profile: how it goes there, and each value that comes out otherwise."""
    if effect.old_stops or effect.new_stops or not effect.moved:
        return effect_lines(effect)[0], ()
    count, verb = plural(len(effect.moved), "value"), "comes" if len(effect.moved) == 1 else "come"
    return f"On {effect.name}: {count} {verb} out otherwise", tuple(map(_line, effect.moved))


def effect_lines(effect: ProfileEffect) -> list[str]:
    """An effect in words."""
    head = f"On {effect.name}"
    if effect.old_stops and effect.new_stops:
        return [f"{head}: neither version can be derived: {effect.new_stops[0].message}"]
    if effect.new_stops:
        return [f"{head}: the new version stops, the old one did not: {problem}" for problem in _told(effect.new_stops)]
    if effect.old_stops:
        return [
            f"{head}: the old version stopped, the new one does not: {problem}" for problem in _told(effect.old_stops)
        ]
    if not effect.moved:
        return [f"{head}: {plural(effect.same, 'setting')}, all as before."]
    return [head, *(f"- {_line(moved)}" for moved in effect.moved), f"- {plural(effect.same, 'setting')} as before"]


def _told(problems: Sequence[Problem]) -> list[str]:
    return [problem.message for problem in problems]


def _line(moved: Moved) -> str:
    setting = load_vocabulary().settings[moved.setting]
    base, old, new = (show_values(setting, values) if values else "no key" for values in moved[1:])
    return f"{moved.setting}: {new}; was {old} (the profile itself has {base})"
