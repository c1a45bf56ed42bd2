"""Whether a map can be written backward: every text that it would write must read as the value that was meant."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from profilesmith.foundation.problem import Problem
from profilesmith.foundation.toml_table import TomlFile
from profilesmith.text.document import DEFAULT_COMMENTS
from profilesmith.translation.key_map import Binding, KeyMap


def check_key_map(key_map: KeyMap, file: TomlFile) -> None:
    """Append what makes a map unusable to the file's problems."""
    problems: list[Problem] = []
    if not key_map.bindings and not file.problems:
        problems.append(Problem("no-binding", "The map binds nothing.", file.place(()), "Add a [[binding]]."))
    problems += _claimed_twice(key_map)
    problems += [*_left_alone(key_map), *_text_habits(key_map, file)]
    for binding in key_map.bindings:
        problems += [
            *_written(binding, key_map),
            *_switch(binding, key_map),
            *_choices(binding),
            *_packed(binding),
            *_relative(binding),
        ]
    problems += _circles(key_map)
    file.problems += problems


def _problem(binding: Binding, code: str, message: str, hint: str) -> Problem:
    return Problem(code, message, binding.place, hint)


def _claimed_twice(key_map: KeyMap) -> list[Problem]:
    problems = []
    by_setting: dict[str, Binding] = {}
    bound = {(binding.key, binding.section): binding for binding in key_map.bindings}
    by_key: dict[tuple[str, str], list[Binding]] = defaultdict(list)
    for binding in key_map.bindings:
        reference = bound.get((binding.relative_key, binding.section)) or bound.get((binding.relative_key, None))
        if binding.relative_key and reference is not None:
            message = f"The key {binding.relative_key!r} is bound to {reference.setting}."
            hint = f'Write relative_to = "{reference.setting}" instead of relative_key.'
            problems.append(_problem(binding, "reference-is-bound", message, hint))
        first = by_setting.setdefault(binding.setting, binding)
        if first is not binding:
            message = f"{binding.setting} is bound twice, to {first.name!r} and to {binding.name!r}."
            problems.append(_problem(binding, "setting-twice", message, _which_hint(binding)))
        if key_map.number_of(binding) is None:  # a switch read off another setting's number shares its place
            by_key[binding.section or "", binding.key].append(binding)
    for (_, key), sharers in by_key.items():
        if all(binding.kind == "switch" for binding in sharers) and len({binding.field for binding in sharers}) == 1:
            problems += _one_of_several(key, sharers)
            continue
        fields = [binding.field for binding in sharers]
        splits = {binding.split for binding in sharers}
        if len(sharers) > 1 and (len(set(fields)) < len(fields) or "" in splits or len(splits) > 1):
            names = " and ".join(binding.setting for binding in sharers)
            message = f"The key {key!r} is bound to {names}: they could not be written back apart."
            hint = "Bind it to one setting, or use one split with a field for each."
            problems.append(_problem(sharers[1], "key-twice", message, hint))
    return problems


def _one_of_several(key: str, sharers: list[Binding]) -> list[Problem]:
    """Switches on one key: each text turns one of them on, and one text turns all of them off; that this turns none
    on is looked at switch by switch.
    """
    owners: dict[str, Binding] = {}
    names = " and ".join(binding.setting for binding in sharers)
    for binding in sharers if len(sharers) > 1 else ():
        for text in binding.on:
            owner = owners.setdefault(text, binding)
            if owner is not binding:
                message = (
                    f"The key {key!r} is bound to {names}, and {text!r} turns on {owner.setting} and {binding.setting}."
                )
                return [_problem(binding, "key-twice", message, "Give each switch its own text for on.")]
        if not binding.on or not binding.off:
            message = (
                f"The key {key!r} is bound to {names}, but {binding.setting} does not say its texts for on and off."
            )
            hint = 'Give each of them its own on = "..." and the same off = "...".'
            return [_problem(binding, "key-twice", message, hint)]
        if binding.off != sharers[0].off or binding.tools != sharers[0].tools or binding.add != sharers[0].add:
            message = f"The key {key!r} is bound to {names}, which differ in off, tools or add."
            return [_problem(binding, "key-twice", message, "Say the same in all of them: only on differs.")]
        if binding.split != sharers[0].split:
            message = f"The key {key!r} is bound to {names}, with different texts for split."
            return [_problem(binding, "key-twice", message, "Give them the same split.")]
    return []


NUMBER_OF = {"raft.on": "raft.layers", "brim.on": "brim.width"}
"""Switches that some texts have as a word and as a number too: the number is a setting of its own."""


def _which_hint(binding: Binding) -> str:
    """What to do where one setting has two keys."""
    number = NUMBER_OF.get(binding.setting)
    keep = "Keep one of the two bindings."
    if number is None:
        return keep
    return (
        f"{keep} Where one key says it in a word and the other is a number, bind {binding.setting} "
        f"to the word and {number} to the number."
    )


def _left_alone(key_map: KeyMap) -> list[Problem]:
    """Keys that are bound and named as not bound as well."""
    return [
        _problem(
            binding,
            "bound-and-not",
            f"The key {binding.key!r} is bound to {binding.setting}, and named in not_bound too.",
            "Drop the binding, or take the key out of not_bound.",
        )
        for binding in key_map.bindings
        if key_map.leaves_alone(binding.section or "", binding.key)
    ]


def _text_habits(key_map: KeyMap, file: TomlFile) -> Iterator[Problem]:
    if key_map.words and key_map.words[0] == key_map.words[1]:
        message = "[text] has one text for on and off."
        yield Problem("on-is-off", message, file.place(("text",)), "Give each its own.")
    if key_map.habits.comments is not None and "" in key_map.habits.comments:
        hint = 'Write comments = ["#"], or [] for none.'
        yield Problem("comments", "A comment sign is empty.", file.place(("text",)), hint)


def is_one_line(text: str) -> bool:
    """Whether a key or word of a map is plain text: a line end would write lines of its own into somebody's profile.

    The two blanks that hold words together are plain text in French.
    """
    return text.isprintable() or text.translate({0xA0: " ", 0x202F: " "}).isprintable()


def _written(binding: Binding, key_map: KeyMap) -> list[Problem]:
    """Texts of the map that would not be read again as they are written."""
    texts = [*binding.on, *binding.off, *(text for texts in binding.choices.values() for text in texts)]
    comments = key_map.habits.comments or DEFAULT_COMMENTS
    problems, cut = [], "Take them away."
    if binding.key != binding.key.strip():
        problems.append(_problem(binding, "blanks", f"The key {binding.key!r} has blanks at its ends.", cut))
    for text in (*texts, binding.key, binding.section or "", binding.relative_key):
        if not is_one_line(text):
            message = f"The text {text!r} holds a line end or another control character."
            problems.append(_problem(binding, "control-character", message, "Write it without."))
    for text in texts:
        if text != text.strip() or not text:
            problems.append(_problem(binding, "blanks", f"The text {text!r} has blanks at its ends.", cut))
        elif key_map.habits.inline and any(f" {comment}" in f" {text}" for comment in comments):
            message = f"The text {text!r} would be cut short as a comment."
            problems.append(_problem(binding, "comment-in-text", message, "Choose other comment signs in [text]."))
    mark = key_map.decimal
    for name, separator in (("list", binding.list or key_map.list if binding.tools else ""), ("split", binding.split)):
        if mark and mark == separator and binding.kind not in ("switch", "choice"):
            message = f"{name} = {separator!r} is the decimal mark as well."
            problems.append(_problem(binding, "decimal-divides", message, "Give one of them another text."))
    if binding.add and (binding.relative_key or binding.split):
        message = f"{binding.setting} is one field of several: it cannot be added."
        if binding.relative_key:
            message = f"{binding.setting} is a share: it cannot be added."
        problems.append(_problem(binding, "cannot-add", message, "Drop add = true."))
    return problems


def _switch(binding: Binding, key_map: KeyMap) -> list[Problem]:
    if binding.kind != "switch":
        return []
    both = sorted({*binding.on} & {*binding.off})
    if both:
        return [_problem(binding, "on-is-off", f"{both[0]!r} reads as on and as off.", "Give each text one meaning.")]
    if key_map.words and binding.on_when is None:
        on, off = binding.on or key_map.words[:1], binding.off or key_map.words[1:]
        if on[0] in off or off[0] in on:
            message = (
                f"{binding.setting}: {on[0]!r} is on and {off[0]!r} is off, which cannot be told apart with [text]."
            )
            return [_problem(binding, "on-is-off", message, "Name both on and off in the binding.")]
    if binding.on_when is None:
        half = "on" if binding.off and not binding.on else "off" if binding.on and not binding.off else ""
        if half and not key_map.words:
            message = f"{binding.setting} does not say which text is written for {half}."
            return [_problem(binding, "half-switch", message, f'Add {half} = "...".')]
        return []
    problems = []
    for word, texts, wanted in (("on", binding.on, True), ("off", binding.off, False)):
        if texts and binding.is_on(texts[0], ()) is not wanted:
            message = f"With on_when = {str(binding.on_when)!r} the text for {word} would not read as {word}."
            problems.append(_problem(binding, "switch-backward", message, f'Give {word} = "..." a number that does.'))
    return problems


def _choices(binding: Binding) -> list[Problem]:
    seen: dict[str, str] = {}
    problems = []
    for word, texts in binding.choices.items():
        for text in texts:
            if text in seen:
                message = f"The text {text!r} stands for both {seen[text]!r} and {word!r}."
                problems.append(_problem(binding, "choice-twice", message, "Give each text one meaning."))
            seen[text] = word
    return problems


def _packed(binding: Binding) -> list[Problem]:
    if bool(binding.split) != bool(binding.field):
        message = f"{binding.setting} has {'split' if binding.split else 'field'} without its partner."
        return [_problem(binding, "half-split", message, 'Give both: split = "/", field = 1.')]
    if binding.field < 0:
        return [_problem(binding, "field", "Fields are counted from 1.", "Write field = 1 for the first.")]
    if binding.split and binding.list and binding.split == binding.list:
        return [_problem(binding, "split-list", "split and list are the same text.", "Give them different texts.")]
    return []


def _relative(binding: Binding) -> list[Problem]:
    if binding.relative_to and binding.relative_key:
        message = f"{binding.setting} has both relative_to and relative_key."
        return [_problem(binding, "two-references", message, "Keep the one that the text means.")]
    if binding.from_horizontal and binding.is_relative:
        return [_problem(binding, "angle-share", "An angle cannot be a share and turned round.", "Drop one.")]
    return []


def _circles(key_map: KeyMap) -> list[Problem]:
    """Settings that are written relative to one another in a circle."""
    target = {binding.setting: binding for binding in key_map.bindings if binding.relative_to}
    problems, spoken_of = [], set()
    for start in target:
        path = [start]
        while path[-1] in target and target[path[-1]].relative_to not in path:
            path.append(target[path[-1]].relative_to)
        if path[-1] in target and target[path[-1]].relative_to == start and start not in spoken_of:
            spoken_of.update(path)
            message = f"{' -> '.join([*path, start])} are relative to one another."
            problems.append(_problem(target[start], "circle", message, "One of them must be absolute."))
    return problems
