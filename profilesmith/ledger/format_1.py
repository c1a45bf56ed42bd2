"""Ledgers of format 1, brought up: what they say in words stays words, since no sentence is read back into meaning.

They hold facts and answers as they were shown, rounded, with an answer's origin in brackets. Where the call of then has
the words that were typed, and those are shown so, they count.
"""

import json
from collections.abc import Mapping
from fractions import Fraction
from typing import Any, get_args

from profilesmith.facts.facts import FactKind, FactValue, fact_kinds, read_fact, show_fact
from profilesmith.ledger import bounds
from profilesmith.ledger.exact import fact_json
from profilesmith.ledger.ledger import AnswerOrigin

Json = dict[str, Any]
# Who asks, by the name that stood in a recipe's place.
_KINDS = {
    "vocabulary": "plausible range",
    "machine limit": "machine limit",
    "the text itself": "share",
    "hand edit": "hand edit",
    "follow-literals": "start block",
}
_FURTHER_LINE = "the same key again, kept alike"


def brought_up(data: Json) -> Json:
    """The data of a ledger of format 1 in the form of today. Raises KeyError, TypeError or ValueError for a damaged
    one.
    """
    return {
        **data,
        "format": 2,
        "facts": dict(filter(None, (_fact(name, shown, data) for name, shown in data["facts"].items()))),
        "recipes": [_use(use, data) for use in data["recipes"]],
        "rows": [_row(row) for row in data["rows"]],
        "literals": [{"words": _text(text)} for text in data["literals"]],
        "unmapped": [{"text": "", **line} for line in data["unmapped"]],
        **({"history": [_earlier(item) for item in data["history"]]} if "history" in data else {}),
    }


def _text(item: Any) -> str:
    if not isinstance(item, str):
        raise TypeError(item)
    return item


def _row(row: Json) -> Json:
    kind = _KINDS.get(row["recipe"], "rule")
    cause = {
        "kind": kind,
        "recipe": row["recipe"] if kind == "rule" else "",
        "version": row["version"],
        "rule": row["rule"] or 0,
        "why": row["why"],
        "source": row["source"],
        "words": row["demand"],
    }
    note, ask = _text(row["note"]), _text(row["ask"])
    notes = [{"code": "further line"} if note == _FURTHER_LINE else {"code": "said", "names": [note]}] if note else []
    question = {"question": {"about": "said", "name": "", "text": ask}} if ask else {}
    return {**row, "line": row["line"] or 0, "cause": cause, "notes": notes, **question}


def _earlier(item: Json) -> Json:
    return {**item, "decisions": [{**decision, "line": decision["line"] or 0} for decision in item["decisions"]]}


def _typed(data: Json) -> Mapping[str, str]:
    """The answers of the call as they were typed."""
    answers = data.get("call", {}).get("answers", {})
    return answers if isinstance(answers, dict) else {}


def _meant(kind: FactKind, typed: object, shown: str) -> FactValue | None:
    """What was typed, where it is shown as the ledger has it."""
    value = read_fact(kind, typed)
    return value if value is not None and show_fact(value, kind.unit_kind) == shown else None


def _fact(name: str, shown: str, data: Json) -> tuple[str, Json] | None:
    """A fact that still reads."""
    kind, typed = fact_kinds().get(name), _typed(data).get(name)
    if kind is None:
        return None
    exact = _meant(kind, typed, _text(shown))
    value = read_fact(kind, shown) if exact is None else exact
    return None if value is None else (name, {"said": shown if exact is None else typed, "value": _as_read(value)})


def _as_read(value: FactValue) -> Any:
    """As JSON that was read: with exact numbers."""
    return bounds.load(json.dumps(fact_json(value)))


def _use(use: Json, data: Json) -> Json:
    answers = {name: _answer(f"{use['name']}.{name}", name, text, data) for name, text in use["answers"].items()}
    return {**use, "answers": answers}


def _answer(whole: str, name: str, text: str, data: Json) -> Json:
    """An answer. What kind of thing it is only the recipe knows, so that it stays a text here."""
    shown, _, rest = text.rpartition(" (")
    origin = rest.removesuffix(")")
    if origin not in get_args(AnswerOrigin):
        raise ValueError(text)
    said = _typed(data).get(whole, _typed(data).get(name, shown)) if origin == "answer" else shown
    return {"said": said, "value": shown, "origin": origin, "unit_kind": ""}


def rounded(data: Json) -> tuple[str, ...]:
    """The facts and answers that are quantities, and of which nothing more exact was kept."""
    kinds, typed = fact_kinds(), _typed(data)
    names = [
        name
        for name, shown in data["facts"].items()
        if name in kinds
        and kinds[name].unit_kind
        and isinstance(read_fact(kinds[name], shown), Fraction | tuple)
        and _meant(kinds[name], typed.get(name), shown) is None
    ]
    names += [
        f"{use['name']}.{name}"
        for use in data["recipes"]
        for name, text in use["answers"].items()
        if text.endswith(" (answer)") and f"{use['name']}.{name}" not in typed and name not in typed
    ]
    return tuple(names)
