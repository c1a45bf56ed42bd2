"""Data of the engine as the page shows them: plain JSON, strangers' text with its control characters visible."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from profilesmith.engine.derive import Derivation
from profilesmith.engine.questions import InputQuestion, choices
from profilesmith.facts.facts import FactKind, FactValue, fact_kinds, read_fact, why_not
from profilesmith.foundation.package_data import package_text
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.quantity import CANONICAL, show_quantity
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.consequences import headline
from profilesmith.review.render.names import trade_name
from profilesmith.review.wording import show_values, visible
from profilesmith.translation.document_to_profile import Translation
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

LONGEST_LINE = 160
Json = dict[str, Any]


def stem(name: str) -> str:
    """A file's name without its ending."""
    return name.rpartition(".")[0] or name or "settings"


def next_name(name: str) -> str:
    """``soft-2.settings`` after ``soft.settings``, ``soft-3.settings`` after that."""
    base, ending = (name.rpartition(".")[0], f".{name.rpartition('.')[2]}") if "." in name else (name, "")
    first, _, number = base.rpartition("-")
    return f"{first}-{int(number) + 1}{ending}" if first and number.isdecimal() else f"{base}-2{ending}"


def problem(item: Problem) -> Json:
    """What is wrong, and what to do. A door's own words for a place are left out."""
    place = "" if item.place.file.startswith("--") else str(item.place)
    return {"code": item.code, "message": visible(item.message), "hint": visible(item.hint), "place": visible(place)}


def recipe(word: str, item: Recipe) -> Json:
    return {
        "word": word,
        "name": visible(item.name),
        "version": visible(item.version),
        "title": visible(item.title or item.name),
        "from": visible(item.source_material),
        "to": visible(item.target_material),
        "licence": visible(item.licence),
        "cautions": [visible(text) for text in item.cautions],
        "goes_with": list(item.goes_with),
        "rules": len(item.rules),
    }


def fact_kind(kind: FactKind) -> Json:
    ends = [end for end in (kind.low, kind.high) if end is not None]
    hours = kind.unit_kind == "duration" and bool(ends) and ends[0] >= 600
    return {
        "name": kind.name,
        "kind": kind.kind,
        "unit": "h" if hours else CANONICAL.get(kind.unit_kind, ""),
        "values": list(kind.values),
        "meaning": kind.meaning,
        "ask": kind.ask,
        "range": " to ".join(
            f"{float(end / 3600):g} h" if hours else show_quantity(end, kind.unit_kind) for end in ends
        ),
    }


def names(language: str) -> dict[str, str]:
    """What people call each setting: its first word in that language."""
    if language not in ("de", "fr"):
        return {name: trade_name(name) for name in load_vocabulary().settings}
    words = tomllib.loads(package_text(f"knowledge/vocabulary.{language}.toml"))["words"]
    return {name: listed[0][:1].upper() + listed[0][1:] for name, listed in words.items() if listed}


def fact(name: str, value: FactValue) -> str:
    """A fact's value; long times in hours, as labels have them."""
    kind = fact_kinds()[name]
    if kind.unit_kind == "duration" and isinstance(value, Fraction) and value >= 600:
        return f"{float(value / 3600):g} h"
    return kind.show(value)


def question(asked: InputQuestion) -> Json:
    """A question with what it decides."""
    return {
        **fact_kind(asked.kind),
        "name": asked.name,
        "ask": visible(asked.ask),
        "default": visible(asked.default),
        "settings": list(asked.settings),
        "reasons": [visible(text) for text in asked.reasons],
    }


def reading(read: Translation) -> Json:
    """What a text reads as with a map."""
    vocabulary = load_vocabulary()
    return {
        "map": visible(read.key_map.name),
        "values": [
            {
                "setting": name,
                "name": trade_name(name),
                "area": vocabulary.areas[vocabulary.settings[name].area],
                "value": show_values(vocabulary.settings[name], entry.values),
                "key": visible(entry.origin.key),
                "text": visible(entry.origin.text[:LONGEST_LINE]),
                "file": visible(entry.origin.file),
                "line": entry.origin.line,
                "odd": any(vocabulary.settings[name].implausible(value) for value in entry.values),
            }
            for name, entry in read.profile.entries.items()
        ],
        "absent": list(read.profile.absent),
        "unknown": len(read.unmapped),
        "problems": [problem(item) for item in read.problems],
    }


def wrong(name: str, text: str, kinds: Mapping[str, InputQuestion]) -> str:
    """Why an answer cannot be taken; "" for one that can."""
    kind = kinds[name].kind if name in kinds else fact_kinds().get(name)
    if kind is None or read_fact(kind, text) is not None:
        return ""
    return visible(why_not(kind, text))


def outcome(made: Derivation, follow: bool, shares: str) -> Json:
    """What a page says around the review: how much changed, what stands against it, what is open and to be chosen."""
    review = made.review
    return {
        "headline": headline(review),
        "changed": review.count(),
        "by_hand": len(review.by_hand),
        "conflicts": [problem(item) for item in review.conflicts],
        "open": [question.ask for question in review.questions],
        "alarms": sum(item.verdict in ("caution", "stop") for item in review.consequences),
        "choices": [
            {**item._asdict(), "about": [visible(text) for text in item.about]}
            for item in choices(review, follow, shares)
        ],
        "writes": bool(made.outputs),
    }
