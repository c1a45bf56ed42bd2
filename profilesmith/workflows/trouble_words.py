"""A trouble for a person who looks a word up: what it looks like, and what its causes move, the likeliest first."""

from __future__ import annotations

from profilesmith.mend.find_trouble import find_troubles, folded, words_of
from profilesmith.mend.troubles import Knowledge, Trouble, TroubleCause
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def meant_troubles(text: str, known: Knowledge) -> list[Trouble]:
    """Those that are called so, else those that have all its words in their names."""
    wanted = folded(text).split()
    in_names = (item for item in known.troubles.values() if _has_all(item, wanted))
    return find_troubles(text, known) or [item for item in in_names if wanted]


def _has_all(trouble: Trouble, wanted: list[str]) -> bool:
    names = folded(" ".join(words_of(trouble)))
    return all(word in names for word in wanted)


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
