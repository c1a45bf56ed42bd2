"""Mends as recipes: the one that a mended file's ledger keeps, and the sum of what helped, for other printers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from profilesmith.foundation.number import decimal_text
from profilesmith.foundation.toml_values import pair_lines
from profilesmith.ledger.history import Verdict
from profilesmith.mend.road import RoadChange, RoadStep, standing, verdict_of
from profilesmith.recipe.as_text import head_text, rule_text
from profilesmith.recipe.operations import BY_NAME, SHIFT
from profilesmith.vocabulary.setting import Vocabulary

LAID = "mends"
AIM = next(operation.name for operation in BY_NAME.values() if operation.is_aim)
CAUTIONS = (
    "Found on one printer by a few prints. Print a small test piece first and stay with it.",
    (
        "Where it raises a temperature, stay inside the spool's window, ventilate, and keep to the "
        "printer's own instructions."
    ),
)


def mends_recipe(steps: Sequence[RoadStep], vocabulary: Vocabulary) -> str:
    """A recipe that aims at every mended value, inside all bounds; "" where nothing stands elsewhere than it began."""
    now = standing(steps)
    if not now:
        return ""
    rules = [
        rule_text(
            {"setting": name, AIM: vocabulary.settings[name].written(change.after)},
            _why(change),
            change.source or "the maker's own prints",
        )
        for name, change in now.items()
    ]
    head = head_text(LAID, "Mended after printing", f"1.0.{len(steps)}", CAUTIONS)
    return "\n".join([head, *rules])


def _why(change: RoadChange) -> str:
    seen = f"{change.trouble}: {change.what}. " if change.trouble else ""
    return f"{seen}{change.why}" or "Mended."


def helped(steps: Sequence[RoadStep], last: Verdict = "") -> list[RoadChange]:
    """The changes of steps after which a print was called better, and which were not taken back. last: of the newest
    step.
    """
    kept: list[tuple[RoadStep, bool]] = []
    for number, step in enumerate(steps):
        if step.undo:
            kept = kept[:-1]
        elif step.changes:
            kept.append((step, verdict_of(steps, number, last) == "better"))
    return [change for step, is_better in kept if is_better for change in step.changes]


def sum_rules(steps: Sequence[RoadStep], last: Verdict, vocabulary: Vocabulary) -> list[str]:
    """What helped, as rules in TOML: steps from whatever another printer has; [] where nothing is known to have
    helped.
    """
    by_setting: dict[str, list[RoadChange]] = {}
    for change in helped(steps, last):
        by_setting.setdefault(change.setting, []).append(change)
    rules: list[str] = []
    given: dict[str, str] = {}
    expect: dict[str, str] = {}
    for name, changes in by_setting.items():
        setting, named = (
            vocabulary.settings[name],
            next((item for item in reversed(changes) if item.trouble), changes[-1]),
        )
        moved = [
            item.after - item.before
            for item in changes
            if isinstance(item.after, Fraction) and isinstance(item.before, Fraction)
        ]
        if moved and sum(moved):
            rule = {"setting": name, SHIFT.name: f"{decimal_text(sum(moved, Fraction(0)), 6)} {setting.unit}".rstrip()}
        elif moved:
            continue
        else:
            rule = {"setting": name, AIM: setting.written(changes[-1].after)}
        rules.append(rule_text(rule, _why(named), named.source or "the maker's own prints"))
        given[name], expect[name] = setting.written(changes[0].before), setting.written(changes[-1].after)
    return [*rules, _example(given, expect)] if rules else []


def _example(given: Mapping[str, str], expect: Mapping[str, str]) -> str:
    """The printer that it was found on."""
    return "\n".join(["[[example]]", *pair_lines({"given": given, "expect": expect}), ""])
