"""A plan's TOML to a Plan, or all of its mistakes with their lines."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

from profilesmith.coupon.designs import MOST_FACTORS, design, possible_rows
from profilesmith.coupon.pairs import LEAST_EACH, LEAST_PAIRS
from profilesmith.coupon.plan import KINDS, MOST_PRINTS, START_BLOCK, USUAL_MOST, WAYS, WORSE, Factor, Plan, Stop
from profilesmith.coupon.scale import is_ratio
from profilesmith.foundation.problem import Problem, did_you_mean
from profilesmith.foundation.quantity import read_quantity
from profilesmith.foundation.toml_table import TomlTable, TooManyMistakes, parse_toml
from profilesmith.foundation.words import listed
from profilesmith.vocabulary.setting import Setting, Unreadable, Value, Vocabulary, read_value

NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
MARK = re.compile(r"[0-9a-f]{8}")
LONGEST_NAME = 40


def parse_plan(raw: bytes, name: str, vocabulary: Vocabulary) -> tuple[Plan | None, list[Problem]]:
    """The plan of a file's bytes; all of its mistakes in one run. name: for messages."""
    top, problems = parse_toml(raw, name, "coupon plan")
    if top is None:
        return None, problems
    try:
        plan = _plan(top, vocabulary)
    except TooManyMistakes:
        return None, top.file.problems
    return (None if top.file.problems else plan), top.file.problems


def _plan(top: TomlTable, vocabulary: Vocabulary) -> Plan | None:
    head, stop = top.table("plan", required=True), top.table("stop")
    kind = _one_of(head, "kind", KINDS, required=True)
    way = _one_of(head, "way", WAYS) or WAYS[0]
    name = head.text("name", required=True)
    if name and not (NAME.fullmatch(name) and len(name) <= LONGEST_NAME):
        head.complain("name", f"{name!r} is no plain name.", "name", "Write small letters, digits and hyphens.")
    mark = head.text("mark", required=True)
    if mark and not MARK.fullmatch(mark):
        head.complain("mark", f"{mark!r} is no mark.", "mark", "Write eight digits of 0-9 and a-f, drawn at random.")
    judged = head.text("judged", required=True)
    texts = {key: head.texts(key) or () for key in ("recipes", "bases", "facts")}
    about, key_map = head.text("about"), head.text("keymap")
    start_block = _one_of(head, "start_block", START_BLOCK) or ""
    head.done()
    factors = tuple(factor for table in top.tables("factor") if (factor := _factor(table, vocabulary, kind)))
    whole = kind is not None and not top.file.problems
    limits = _stop(stop, kind, factors, vocabulary) if whole else Stop()
    top.done()
    if whole and kind is not None:
        _counts(top, kind, way, factors, limits)
    if top.file.problems or kind is None:
        return None
    return Plan(
        name=name,
        kind=kind,  # type: ignore[arg-type]
        factors=factors,
        stop=limits,
        judged=judged,
        mark=mark,
        about=about,
        way=way,  # type: ignore[arg-type]
        key_map=key_map,
        start_block=start_block,
        file=top.file.name,
        place=top.file.place(("plan",)),
        **texts,
    )


def _one_of(table: TomlTable, key: str, words: tuple[str, ...], required: bool = False) -> str | None:
    word = table.text(key, required=required)
    if word and word not in words:
        table.complain("word", f"{key} is {word!r}.", key, f"Write {listed(words, 'or')}.")
        return None
    return word or None


def _factor(table: TomlTable, vocabulary: Vocabulary, kind: str | None) -> Factor | None:
    name = table.text("setting", required=True)
    ends = table.texts("range", required=True) or ()
    worse = _one_of(table, "worse", WORSE)
    around_text = table.text("around")
    table.done()
    setting = vocabulary.settings.get(name)
    if setting is None:
        if name:
            hint = did_you_mean(name, vocabulary.settings, "Name a setting of 'profilesmith vocabulary'.")
            table.complain("unknown-setting", f"The setting {name!r} is not known.", "setting", hint)
        return None
    values = [_value(table, setting, text, "range") for text in ends]
    around = _value(table, setting, around_text, "around") if around_text else None
    if len(values) != 2 or values[0] == values[1]:
        table.complain("range", "The range has not two different ends.", "range", 'Write range = ["A", "B"].')
        return None
    if kind == "threshold" and not _increasing(values):
        table.complain("range", "The range of a threshold goes from less to more.", "range", "Turn its ends round.")
    if kind == "threshold" and worse is None:
        table.complain("worse", "'worse' is missing.", "", 'Say where prints get worse: worse = "high" or "low".')
    if any(value is None for value in values):
        return None
    low, high = values
    return Factor(
        name,
        low,  # type: ignore[arg-type]
        high,  # type: ignore[arg-type]
        worse or "high",  # type: ignore[arg-type]
        around if isinstance(around, Fraction) else None,
        table.file.place(table.path),
    )


def _increasing(values: list[Value | None]) -> bool:
    low, high = values
    return isinstance(low, Fraction) and isinstance(high, Fraction) and low < high


def _value(table: TomlTable, setting: Setting, text: str, key: str) -> Value | None:
    value = read_value(setting, text)
    reason = value.reason if isinstance(value, Unreadable) else setting.implausible(value)
    if not reason and setting.kind == "choice" and text not in setting.values:
        reason = f"{text!r} is not one of {', '.join(setting.values)}"
    if reason:
        hint = f"{setting.id} is {setting.range_text()}."
        table.complain("setting-value", f"{setting.id}: {reason}.", key, hint)
        return None
    return value  # type: ignore[return-value]


def _stop(table: TomlTable, kind: str | None, factors: tuple[Factor, ...], vocabulary: Vocabulary) -> Stop:
    usual = Stop(most=USUAL_MOST[kind or "threshold"])
    within, sure, most = table.text("within"), table.text("sure"), table.whole("most")
    table.done()
    members: dict[str, Any] = {}
    if most is not None:
        members["most"] = most
        if not 1 <= most <= MOST_PRINTS:
            table.complain("most", f"{most} prints are none or too many.", "most", f"Write 1 to {MOST_PRINTS}.")
    if sure:
        share = read_quantity(sure, "ratio")
        if isinstance(share, str) or not 50 <= share <= 99:
            table.complain("sure", f"{sure!r} is no chance from 50 % to 99 %.", "sure", 'Write sure = "90 %".')
        else:
            members["sure"] = share / 100
    if kind == "threshold" and factors:
        members |= _within(table, within, factors[0], vocabulary)
    return usual._replace(**members)


def _within(table: TomlTable, text: str, factor: Factor, vocabulary: Vocabulary) -> dict[str, Fraction]:
    setting, low, high = vocabulary.settings[factor.setting], factor.low, factor.high
    assert isinstance(low, Fraction)
    assert isinstance(high, Fraction)
    ratio = is_ratio(setting.kind, low)
    if not text:
        return {} if ratio else {"within": (high - low) / 20}
    value = read_quantity(text, "ratio" if ratio else setting.kind, difference=True)
    if isinstance(value, str) or value <= 0:
        word = '"10 %"' if ratio else f'"{setting.show((high - low) / 20)}"'
        table.complain("within", f"{text!r} is no width for {setting.id}.", "within", f"Write within = {word}.")
        return {}
    return {"within": value / 100 if ratio else value}


def _counts(top: TomlTable, kind: str, way: str, factors: tuple[Factor, ...], stop: Stop) -> None:
    """Whether the plan's numbers fit its kind."""
    names = [factor.setting for factor in factors]
    if len(set(names)) < len(names):
        top.complain("setting-twice", "A setting stands there twice.", "plan", "Keep one of them.")
    if kind == "threshold" and len(factors) != 1:
        top.complain("factors", "A threshold is of one setting.", "plan", "Write one [[factor]].")
    elif kind == "screen" and design(len(factors), stop.most) is None:
        rows = possible_rows(len(factors))
        hint = f"Write most = {listed(map(str, rows), 'or')} below [stop]." if rows else f"Name 2 to {MOST_FACTORS}."
        top.complain("factors", f"{stop.most} prints cannot hold {len(factors)} settings.", "plan", hint)
    elif kind == "pair":
        least = LEAST_PAIRS if way == "blind" else 2 * LEAST_EACH
        if not factors:
            top.complain("factors", "A pair differs in something.", "plan", "Write a [[factor]].")
        if stop.most < least:
            what = f"fewer than {LEAST_PAIRS} pairs" if way == "blind" else f"fewer than {LEAST_EACH} prints of each"
            message = f"With {what} nothing can be told, whatever is seen."
            top.complain("too-few", message, "stop", f"Write most = {least} or more below [stop].")
        elif way == "graded" and stop.most % 2:
            top.complain("odd", "Prints of A and of B are equally many.", "stop", "Write an even number.")
