"""Rules laid over by hand: a few settings and reasons as a recipe of this profile alone, which its ledger keeps."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.engine.read import Source
from profilesmith.foundation.number import read_number
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, did_you_mean, refuse_if
from profilesmith.ledger.history import BY_HAND
from profilesmith.mend.as_rules import AIM
from profilesmith.recipe.as_text import head_text, rule_text
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting, Unreadable, read_value

SOURCE = "set by hand"
ALL_HINT = "'profilesmith vocabulary' lists them all."


def by_hand(sets: Sequence[str], whys: Sequence[str]) -> tuple[Source, ...]:
    """``nozzle.temperature=212 °C`` and so on as one recipe of aims; () for none. whys: one for all, or one for each.

    Raises Refused with all that cannot be read.
    """
    pairs = [(name.strip(), sign, value.strip()) for name, sign, value in (text.partition("=") for text in sets)]
    problems = [problem for words in pairs for problem in _wrong(*words)]
    names = [name for name, _, _ in pairs]
    twice = dict.fromkeys(name for number, name in enumerate(names) if name in names[:number])
    problems += [_problem("set-twice", f"{name} is set twice.", "Set it once.") for name in twice]
    refuse_if([*problems, *_without_reason(sets, whys)])
    if not sets:
        return ()
    reasons = [why.strip() for why in ([*whys] * len(sets) if len(whys) == 1 else whys)]
    rules = [
        rule_text({"setting": name, AIM: value}, why, SOURCE)
        for (name, _, value), why in zip(pairs, reasons, strict=True)
    ]
    text = "\n".join([head_text(BY_HAND, "Set by hand", "1.0.0"), *rules])
    return (Source(BY_HAND, text.encode()),)


def _wrong(name: str, sign: str, value: str) -> list[Problem]:
    """What is wrong with one of them: its form, its name, its value."""
    if not sign or not value:
        hint = 'Write --set "nozzle.temperature=212 °C", with the unit.'
        return [_problem("set-form", f"{name!r} has no value.", hint)]
    vocabulary = load_vocabulary()
    setting = vocabulary.settings.get(name)
    if setting is None:
        hint = did_you_mean(name, vocabulary.settings, ALL_HINT)
        if name in vocabulary.groups:
            hint = f"It is a group: set each by itself, such as {vocabulary.groups[name].members[0]}."
        return [_problem("unknown-setting", f"The setting {name!r} is not known.", hint)]
    read = read_value(setting, value)
    if isinstance(read, Unreadable):
        return [_problem("set-value", f"{name}: {read.reason}.", _unit_hint(name, setting, value))]
    if setting.kind == "choice" and setting.values and read not in setting.values:
        return [_problem("set-value", f"{name} cannot be {value!r}.", f"Write one of {', '.join(setting.values)}.")]
    odd = setting.implausible(read)  # an aim is held inside of bounds: a slip of the keys would move to their hot end
    return [_problem("set-range", f"{name} would be {odd}.", "Is the number right, and its unit?")] if odd else []


def _unit_hint(name: str, setting: Setting, value: str) -> str:
    takes = f"It takes {setting.range_text()}."
    if setting.unit and read_number(value) is not None:
        return f'Write --set "{name}={value} {setting.unit}". {takes}'
    return takes


def _without_reason(sets: Sequence[str], whys: Sequence[str]) -> list[Problem]:
    if len(whys) == len(sets) or (sets and len(whys) == 1 and whys[0].strip()):
        blank = any(not why.strip() for why in whys)
        return [Problem("no-reason", "A reason is empty.", Place("--why"), "Say in a few words why.")] if blank else []
    if not sets:
        return [Problem("no-set", "A reason without a setting.", Place("--why"), 'Add --set "SETTING=VALUE".')]
    if not whys:
        hint = 'Add --why "It strung at 215.": in a month nobody knows it by heart.'
        return [Problem("no-reason", "What is set by hand needs a reason.", Place("--why"), hint)]
    message = f"There are {len(whys)} reasons for {len(sets)} settings."
    return [Problem("no-reason", message, Place("--why"), "Give one for all, or one behind each --set.")]


def _problem(code: str, message: str, hint: str) -> Problem:
    return Problem(code, message, Place("--set"), hint)
