"""Whether a map can be written backward: every text that it would write must read as the value that was meant."""

from __future__ import annotations

from collections import defaultdict

from profilesmith.foundation.problem import Problem
from profilesmith.foundation.toml_table import TomlFile
from profilesmith.translation.key_map import Binding, KeyMap


def check_key_map(key_map: KeyMap, file: TomlFile) -> None:
    """Append what makes a map unusable to the file's problems."""
    found: list[Problem] = []
    if not key_map.bindings and not file.problems:
        found.append(Problem("no-binding", "The map binds nothing.", file.place(()), "Add a [[binding]]."))
    found += _claimed_twice(key_map)
    for binding in key_map.bindings:
        found += [*_switch(binding, key_map), *_choices(binding), *_packed(binding), *_relative(binding)]
    found += _circles(key_map)
    file.problems += found


def _problem(binding: Binding, code: str, message: str, hint: str) -> Problem:
    return Problem(code, message, binding.place, hint)


def _claimed_twice(key_map: KeyMap) -> list[Problem]:
    found = []
    by_setting: dict[str, Binding] = {}
    by_key: dict[tuple[str, str], list[Binding]] = defaultdict(list)
    for binding in key_map.bindings:
        first = by_setting.setdefault(binding.setting, binding)
        if first is not binding:
            message = f"{binding.setting} is bound twice, to {first.name!r} and to {binding.name!r}."
            found.append(_problem(binding, "setting-twice", message, "Keep one of the two bindings."))
        if key_map.number_of(binding) is None:  # a switch read off another setting's number shares its place
            by_key[binding.section or "", binding.key].append(binding)
    for (_, key), sharers in by_key.items():
        fields = [binding.field for binding in sharers]
        splits = {binding.split for binding in sharers}
        if len(sharers) > 1 and (len(set(fields)) < len(fields) or "" in splits or len(splits) > 1):
            names = " and ".join(binding.setting for binding in sharers)
            message = f"The key {key!r} is bound to {names}: they could not be written back apart."
            hint = "Bind it to one setting, or use one split with a field for each."
            found.append(_problem(sharers[1], "key-twice", message, hint))
    return found


def _switch(binding: Binding, key_map: KeyMap) -> list[Problem]:
    if binding.kind != "switch":
        return []
    both = sorted({*binding.on} & {*binding.off})
    if both:
        return [_problem(binding, "on-is-off", f"{both[0]!r} reads as on and as off.", "Give each text one meaning.")]
    if binding.on_when is None:
        half = "on" if binding.off and not binding.on else "off" if binding.on and not binding.off else ""
        if half and not key_map.words:
            message = f"{binding.setting} does not say which text is written for {half}."
            return [_problem(binding, "half-switch", message, f'Add {half} = "...".')]
        return []
    found = []
    for word, texts, wanted in (("on", binding.on, True), ("off", binding.off, False)):
        if not texts or binding.is_on(texts[0], ()) is not wanted:
            message = f"With on_when = {str(binding.on_when)!r} the text for {word} would not read as {word}."
            found.append(_problem(binding, "switch-backward", message, f'Give {word} = "..." a number that does.'))
    return found


def _choices(binding: Binding) -> list[Problem]:
    seen: dict[str, str] = {}
    found = []
    for word, texts in binding.choices.items():
        for text in texts:
            if text in seen:
                message = f"The text {text!r} stands for both {seen[text]!r} and {word!r}."
                found.append(_problem(binding, "choice-twice", message, "Give each text one meaning."))
            seen[text] = word
    return found


def _packed(binding: Binding) -> list[Problem]:
    if bool(binding.split) != bool(binding.field):
        message = f"{binding.setting} has {'split' if binding.split else 'field'} without its partner."
        return [_problem(binding, "half-split", message, "Give both: split = \"/\", field = 1.")]
    if binding.field < 0:
        return [_problem(binding, "field", "Fields are counted from 1.", "Write field = 1 for the first.")]
    if binding.split and binding.list and binding.split == binding.list:
        return [_problem(binding, "split-list", "split and list are the same text.", "Give them different texts.")]
    return []


def _relative(binding: Binding) -> list[Problem]:
    if binding.relative_to and binding.relative_key:
        message = f"{binding.setting} has both relative_to and relative_key."
        return [_problem(binding, "two-references", message, "Keep the one that the text means.")]
    if binding.from_horizontal and (binding.relative_to or binding.relative_key):
        return [_problem(binding, "angle-share", "An angle cannot be a share and turned round.", "Drop one.")]
    return []


def _circles(key_map: KeyMap) -> list[Problem]:
    """Settings that are written relative to one another in a circle."""
    target = {binding.setting: binding for binding in key_map.bindings if binding.relative_to}
    found, told = [], set()
    for start in target:
        path = [start]
        while path[-1] in target and target[path[-1]].relative_to not in path:
            path.append(target[path[-1]].relative_to)
        if path[-1] in target and target[path[-1]].relative_to == start and start not in told:
            told.update(path)
            message = f"{' -> '.join([*path, start])} are relative to one another."
            found.append(_problem(target[start], "circle", message, "One of them must be absolute."))
    return found
