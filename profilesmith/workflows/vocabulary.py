"""Vocabulary: all settings in a list, or those that a word means in full."""

from __future__ import annotations

from profilesmith.facts.facts import FactKind, fact_kinds
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.foundation.quantity import CANONICAL
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
    if word in fact_kinds():
        return _fact(fact_kinds()[word])
    folded = word.casefold()
    found = [
        item
        for item in vocabulary.settings.values()
        if folded in item.id or any(folded in known for known in item.words) or folded in item.meaning.casefold()
    ]
    if not found:
        words = {known: item.id for item in vocabulary.settings.values() for known in (*item.words, item.id)}
        hint = did_you_mean(word, words, "'profilesmith vocabulary' lists them all.")
        raise Refused([Problem("unknown-word", f"No setting is called {word!r}.", Place(), hint)])
    return "\n".join(_setting(item, vocabulary) for item in found)


def _all(vocabulary: Vocabulary) -> str:
    lines: list[str] = []
    for area, title in vocabulary.areas.items():
        lines += ["", title] if lines else [title]
        lines += [
            f"  {item.id:<31} {item.unit or item.kind:<7} {item.meaning}"
            for item in vocabulary.settings.values()
            if item.area == area
        ]
    lines += ["", "Groups that a rule may name"]
    lines += [f"  {group.name:<31} {'':<7} {group.meaning}" for group in vocabulary.groups.values()]
    lines += ["", "Facts that a facts file may hold, or --answer may give"]
    lines += [f"  {kind.name:<36} {_fact_form(kind)}  {kind.meaning}" for kind in fact_kinds().values()]
    return "\n".join(lines) + "\n"


def _setting(setting: Setting, vocabulary: Vocabulary) -> str:
    lines = [
        f"{setting.id}: {setting.meaning}",
        f"  kind: {setting.kind}{f' in {setting.unit}' if setting.unit else ''}",
    ]
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


def _fact_form(kind: FactKind) -> str:
    """How a fact is written: ``direct | remote``, ``mm``, ``°C to °C``."""
    unit = CANONICAL.get(kind.unit_kind, "")
    forms = {"choice": " | ".join(kind.values), "window": f"{unit} to {unit}", "hardness": "92 Shore A", "text": "text"}
    return f"{forms.get(kind.kind, unit):<16}"


def _fact(kind: FactKind) -> str:
    subject, _, key = kind.name.partition(".")
    lines = [f"{kind.name}: {kind.meaning}", f"  in a facts file: [{subject}], {key} = {_fact_sample(kind)}"]
    return "\n".join([*lines, f"  on the command line: --answer {kind.sample()}"]) + "\n"


def _fact_sample(kind: FactKind) -> str:
    unit = CANONICAL.get(kind.unit_kind, "")
    if kind.kind == "window":
        return f'["... {unit}", "... {unit}"]'
    return f'"{_fact_form(kind).strip()}"' if kind.kind != "quantity" else f'"... {unit}"'


def _group(group: Group) -> str:
    return "\n".join([f"{group.name}: {group.meaning}", *(f"  {member}" for member in group.members)]) + "\n"
