"""The vocabulary in words: all of it in a list, or what a word means in full."""

from __future__ import annotations

from collections.abc import Iterable

from profilesmith.facts.facts import FactKind, fact_kinds
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.reports.troubles import trouble_text
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Group, Setting, Vocabulary
from profilesmith.workflows.vocabulary import Meant


def described(meant: Iterable[Meant]) -> str:
    """Each in full, a blank line between them."""
    return "\n".join(map(_described, meant))


def _described(item: Meant) -> str:
    if isinstance(item, Setting):
        return _setting(item, load_vocabulary())
    if isinstance(item, Group):
        return _group(item)
    return _fact(item) if isinstance(item, FactKind) else trouble_text(item)


def whole_vocabulary() -> str:
    """All settings, groups and facts, a line each."""
    vocabulary = load_vocabulary()
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
