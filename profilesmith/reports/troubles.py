"""A trouble for a person who looks a word up: what it looks like, and what its causes move, the likeliest first."""

from __future__ import annotations

from profilesmith.mend.troubles import Trouble, TroubleCause
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def trouble_text(trouble: Trouble) -> str:
    """``  nozzle.temperature: down, when the melt is hotter than it needs``, a line for each cause."""
    lines = [f"{trouble.name}: {trouble.looks}"]
    also = trouble.words.get("en", ())
    lines += [f"  also called: {', '.join(also)}"] if also else []
    lines += ["  what may be the matter, the likeliest first:"]
    lines += [f"    {_mend(cause):<33} {cause.what}" for cause in trouble.causes]
    call = f"profilesmith mend DERIVED --saw {_quoted(f'{trouble.name}=poor')}"
    return "\n".join([*lines, f"  after a print: {call}"]) + "\n"


def _mend(cause: TroubleCause) -> str:
    """``nozzle.temperature down``, ``retraction.on: on``, ``dry the spool``."""
    if cause.do:
        return cause.do
    if cause.to is None:
        return f"{cause.setting} {cause.direction}"
    return f"{cause.setting}: {load_vocabulary().settings[cause.setting].show(cause.to)}"


def _quoted(text: str) -> str:
    return f'"{text}"' if " " in text else text
