"""What mend says, as the page shows it, and the troubles that a person may have seen."""

from __future__ import annotations

from typing import Any

from profilesmith.engine.mend import Mended
from profilesmith.mend.proposal import MendProposal, Move
from profilesmith.mend.troubles import Knowledge
from profilesmith.review.mend_cautions import cautions
from profilesmith.review.render.names import trade_name
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

MOST_DOINGS, MOST_LATER = 2, 2
Json = dict[str, Any]


def troubles(known: Knowledge) -> Json:
    """Everything that may be said of a print, with what people call it. words: language -> names."""
    return {
        "troubles": [
            {
                "name": visible(item.name),
                "looks": visible(item.looks),
                "words": {language: [visible(word) for word in words] for language, words in item.words.items()},
            }
            for item in known.troubles.values()
        ],
        "signs": [{"name": item.name, "ask": visible(item.ask)} for item in known.signs.values()],
        "doings": [{"name": item.name, "how": visible(item.how)} for item in known.doings.values()],
    }


def advice(mended: Mended, known: Knowledge) -> Json:
    """doings: what comes before any setting; change: the settings that are moved; later: what comes if that does not
    do.

    look: one look that would tell most, None where none would. again: the same printed again tells first; little:
    little speaks for what is proposed.
    """
    first = next((number for number, item in enumerate(mended.proposals) if not item.do), len(mended.proposals))
    doings = mended.proposals[:first][:MOST_DOINGS]
    named = {id(item) for item in (*doings, *mended.chosen)}
    sign = known.signs.get(mended.advice.look)
    return {
        "seen": dict(mended.so_far.seen),
        "doings": [_doing(item) for item in doings],
        "changes": [_change(item) for item in mended.chosen],
        "later": [_in_a_line(item) for item in mended.proposals if id(item) not in named][:MOST_LATER],
        "again": mended.advice.again,
        "little": mended.advice.unlikely and bool(mended.proposals),
        "look": {"name": sign.name, "ask": visible(sign.ask)} if sign else None,
    }


def _doing(item: MendProposal) -> Json:
    assert item.do is not None
    return {
        "name": visible(item.do.name),
        "how": visible(item.do.how),
        "caution": visible(item.do.caution),
        **_reason(item),
    }


def _reason(item: MendProposal) -> Json:
    """For which trouble, by which cause; "" all over where a change is only taken back."""
    cause, trouble = item.cause, item.trouble
    return {
        "trouble": visible(trouble.name) if trouble else "",
        "looks": visible(trouble.looks) if trouble else "",
        "cause": visible(cause.what) if cause else "",
        "why": visible(cause.why) if cause else "",
        "source": visible(cause.source) if cause else "",
        "costs": visible(cause.costs) if cause else "",
    }


def _change(item: MendProposal) -> Json:
    return {"moves": [_move(move) for move in item.moves], "cautions": cautions(item.moves), **_reason(item)}


def _move(move: Move) -> Json:
    setting = load_vocabulary().settings[move.setting]
    ends = [setting.show(end) for end in (move.low, move.high) if end is not None]
    return {
        "setting": move.setting,
        "name": trade_name(move.setting),
        "before": setting.show(move.before),
        "after": setting.show(move.after),
        "ends": ends if len(ends) == 2 else [],
    }


def _in_a_line(item: MendProposal) -> str:
    if item.do:
        return visible(item.do.name)
    moves = [_move(move) for move in item.moves]
    return "; ".join(f"{move['name']} {move['before']} → {move['after']}" for move in moves)
