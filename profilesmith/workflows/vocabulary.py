"""Vocabulary: all settings in a list, or those that a word means in full."""

from __future__ import annotations

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Group, Setting, Vocabulary


def describe(word: str) -> str:
    """Plain text. Raises Refused when nothing is called so."""
    vocabulary = load_vocabulary()
    if not word:
        return _all(vocabulary)
    exact = vocabulary.settings.get(word)
    if exact is not None:
        return _setting(exact, vocabulary)
    if word in vocabulary.groups:
        return _group(vocabulary.groups[word])
    folded = word.casefold()
    found = [item for item in vocabulary.settings.values() if folded in item.id or any(folded in known for known in item.words) or folded in item.meaning.casefold()]
    if not found:
        words = {known: item.id for item in vocabulary.settings.values() for known in (*item.words, item.id)}
        hint = did_you_mean(word, words, "'profilesmith vocabulary' lists them all.")
        raise Refused([Problem("unknown-word", f"No setting is called {word!r}.", Place(), hint)])
    return "\n".join(_setting(item, vocabulary) for item in found)


def _all(vocabulary: Vocabulary) -> str:
    lines: list[str] = []
    for area, title in vocabulary.areas.items():
        lines += ["", title] if lines else [title]
        lines += [f"  {item.id:<31} {item.unit or item.kind:<7} {item.meaning}" for item in vocabulary.settings.values() if item.area == area]
    lines += ["", "Groups that a rule may name"]
    lines += [f"  {group.name:<31} {'':<7} {group.meaning}" for group in vocabulary.groups.values()]
    return "\n".join(lines) + "\n"


def _setting(setting: Setting, vocabulary: Vocabulary) -> str:
    lines = [f"{setting.id}: {setting.meaning}", f"  kind: {setting.kind}{f' in {setting.unit}' if setting.unit else ''}"]
    word = "values" if setting.values else "plausible"
    lines.append(f"  {word}: {setting.range_text()}")
    if setting.step is not None:
        lines.append(f"  smallest step worth writing: {setting.show(setting.step)}")
    if setting.words:
        lines.append(f"  also called: {', '.join(setting.words)}")
    groups = [group.name for group in vocabulary.groups.values() if setting.id in group.members]
    if groups:
        lines.append(f"  in the group{'s' if len(groups) > 1 else ''}: {', '.join(groups)}")
    return "\n".join(lines) + "\n"


def _group(group: Group) -> str:
    return "\n".join([f"{group.name}: {group.meaning}", *(f"  {member}" for member in group.members)]) + "\n"
