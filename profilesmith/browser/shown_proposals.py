"""A proposed key map as the page shows it: each proposal with its line, its reasons and what speaks against it."""

from __future__ import annotations

from typing import Any

from profilesmith.browser.shown import LONGEST_LINE
from profilesmith.engine.suggest import SuggestedMap
from profilesmith.review.render.names import trade_name
from profilesmith.review.wording import visible
from profilesmith.suggest.proposal import CHECK, SURE, Proposal
from profilesmith.text.document import Document
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

AROUND = 2  # lines above and below one that is asked about
Json = dict[str, Any]


def proposals(outcome: SuggestedMap) -> Json:
    """What was proposed: sure, and to be looked at, each with its line in its surroundings."""
    documents = {document.name: document for document in outcome.documents}
    suggestion = outcome.suggestion
    return {
        "sure": [_proposal(item) for item in suggestion.of(SURE)],
        "check": [
            {**_proposal(item), "around": _around(documents[item.file], item.line)} for item in suggestion.of(CHECK)
        ],
        "leftover": len(suggestion.leftover),
    }


def _proposal(item: Proposal) -> Json:
    key = f"[{item.section}] {item.key}" if item.section else item.key
    return {
        "setting": item.setting,
        "name": trade_name(item.setting),
        "meaning": load_vocabulary().settings[item.setting].meaning,
        "key": visible(key),
        "text": visible(item.text[:LONGEST_LINE]),
        "file": visible(item.file),
        "line": item.line,
        "value": item.value,
        "reasons": [visible(text) for text in item.reasons],
        "doubts": [visible(text) for text in item.doubts],
        "others": [
            {"name": visible(other.name), "text": visible(other.text[:LONGEST_LINE]), "line": other.line}
            for other in item.alternatives
        ],
    }


def _around(document: Document, line: int) -> list[Json]:
    lines = document.lines()
    first = max(1, line - AROUND)
    return [
        {"line": number, "text": visible(text[:LONGEST_LINE])}
        for number, text in enumerate(lines[first - 1 : line + AROUND], first)
    ]
