"""What mend says, as data."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from profilesmith.engine.mend import Mended
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def advice_json(mended: Mended) -> Mapping[str, Any]:
    """The first first, and the look that would tell most."""
    settings = load_vocabulary().settings
    return {
        "format": 1,
        "kind": "profilesmith advice",
        "seen": dict(mended.so_far.seen),
        "proposals": [
            {
                "do": item.do.name if item.do else "",
                "moves": [
                    {
                        "setting": m.setting,
                        "before": settings[m.setting].show(m.before),
                        "after": settings[m.setting].show(m.after),
                    }
                    for m in item.moves
                ],
                "trouble": item.trouble.name if item.trouble else "",
                "cause": item.cause.what if item.cause else "",
                "why": item.cause.why if item.cause else "",
                "source": item.cause.source if item.cause else "",
                "gain": round(item.gain, 4),
                "written": item in mended.chosen,
            }
            for item in mended.proposals
        ],
        "look": mended.advice.look,
    }
