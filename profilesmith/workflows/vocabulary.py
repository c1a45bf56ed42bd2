"""Vocabulary: all settings in a list, or those that words mean in full, and what a trouble's causes move."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.facts.facts import FactKind, fact_kinds
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.mend.find_trouble import folded, words_of
from profilesmith.mend.troubles import Knowledge
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Group, Setting, Vocabulary
from profilesmith.workflows.trouble_words import meant_troubles, trouble_text
from profilesmith.workflows.troubles import known_troubles


def describe(word: str) -> str:
    """Plain text. word: one or several; then each must be found. Raises Refused when nothing is called so."""
    vocabulary = load_vocabulary()
    if not word.strip():
        return _all(vocabulary)
    exact = vocabulary.settings.get(word)
    if exact is not None:
        return _setting(exact, vocabulary)
    if word in vocabulary.groups:
        return _group(vocabulary.groups[word])
    if word in fact_kinds():
        return _fact(fact_kinds()[word])
    known = known_troubles(None)
    meant = meant_troubles(word, known)
    troubles = [trouble_text(item) for item in meant]
    wanted = folded(word).split()
    settings, facts = _settings_with(wanted, vocabulary), _facts_with(wanted)
    is_name = any(folded(word) in map(folded, words_of(item)) for item in meant)
    described = [*troubles, *settings, *facts] if is_name else [*settings, *troubles, *facts]
    if not described:
        raise Refused([_unknown(word, vocabulary, known)])
    return "\n".join(described)


def _settings_with(wanted: Sequence[str], vocabulary: Vocabulary) -> list[str]:
    """The groups and settings that have all these words in what they are called or mean."""
    groups = ((f"{group.name} {group.meaning}", _group(group)) for group in vocabulary.groups.values())
    settings = (
        (" ".join((item.id, *item.words, item.meaning)), _setting(item, vocabulary))
        for item in vocabulary.settings.values()
    )
    return [text for words, text in (*groups, *settings) if _has_all(words, wanted)]


def _facts_with(wanted: Sequence[str]) -> list[str]:
    return [_fact(kind) for kind in fact_kinds().values() if _has_all(f"{kind.name} {kind.meaning}", wanted)]


def _has_all(words: str, wanted: Sequence[str]) -> bool:
    plain = folded(words)
    return bool(wanted) and all(word in plain for word in wanted)


def _unknown(word: str, vocabulary: Vocabulary, known: Knowledge) -> Problem:
    words = {each for item in vocabulary.settings.values() for each in (*item.words, item.id)}
    words |= {each for item in known.troubles.values() for each in words_of(item)}
    fewer = "Try fewer words; " if len(word.split()) > 1 else ""
    hint = did_you_mean(word, sorted(words), f"{fewer}'profilesmith vocabulary' lists all settings.")
    return Problem("unknown-word", f"No setting, fact or trouble is called {word!r}.", Place(), hint)


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
