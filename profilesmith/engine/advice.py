"""What mend says, as data."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from profilesmith.engine.mend import Mended
from profilesmith.ledger.judgement import Finding
from profilesmith.mend.costs import Costs
from profilesmith.mend.proposal import Move
from profilesmith.mend.road import RoadChange
from profilesmith.review.findings.in_words import in_words
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def advice_json(mended: Mended) -> Mapping[str, Any]:
    """The first first, and the look that would tell most."""
    return {
        "format": 1,
        "kind": "profilesmith advice",
        "seen": dict(mended.so_far.seen),
        "proposals": [
            {
                "do": item.do.name if item.do else "",
                "moves": [_values(move) for move in item.moves],
                "trouble": item.trouble.name if item.trouble else "",
                "cause": item.cause.what if item.cause else "",
                "why": item.cause.why if item.cause else "",
                "source": item.cause.source if item.cause else "",
                "gain": round(item.gain, 4),
                "written": item in mended.chosen,
            }
            for item in mended.proposals
        ],
        "written": [_values(change) for change in mended.changes],
        "costs": _costs(mended.costs),
        "look": mended.advice.look,
        "print_again": mended.advice.again,
        "little_speaks_for_it": mended.advice.unlikely,
        "causes_left": [
            {"trouble": item.trouble, "cause": item.cause.what, "why_not": item.why} for item in mended.closed
        ],
    }


def _values(change: Move | RoadChange) -> Mapping[str, str]:
    """A setting's values before and after, for a person."""
    setting = load_vocabulary().settings[change.setting]
    return {
        "setting": change.setting,
        "before": setting.show(change.before),
        "after": setting.show(change.after),
    }


def _costs(costs: Costs) -> Mapping[str, Any]:
    """Figures with their brackets before and after; alarms that come with what is written, and those that it ends."""
    return {
        "figures": [
            {
                "figure": item.figure,
                "unit": item.unit,
                "before": [item.before.low, item.before.high],
                "after": [item.after.low, item.after.high],
                "partly": item.partly,
            }
            for item in costs.figures
        ],
        "worse": [_alarm(item) for item in costs.worse],
        "better": [_alarm(item) for item in costs.better],
    }


def _alarm(finding: Finding) -> Mapping[str, str]:
    worded = in_words(finding)
    return {"check": worded.check, "verdict": worded.verdict, "title": worded.title, "text": worded.text}
