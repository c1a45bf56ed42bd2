"""Going through what is to be checked, one proposal after the other, on a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

import typer

from profilesmith.cli.terminal import say, say_error
from profilesmith.foundation.problem import nearest

if TYPE_CHECKING:
    from collections.abc import Sequence

    from profilesmith.engine.suggest import Answer, Instead, SuggestedMap
    from profilesmith.suggest.proposal import Proposal
    from profilesmith.text.document import Document

AROUND = 2  # lines above and below
MOST_NAMED = 4  # settings that are offered for a word that names none
SHORTEST = 2  # letters of a setting's name that begin it plainly enough
WORDS = {"y": True, "yes": True, "n": False, "no": False}


def gone_through(outcome: SuggestedMap) -> SuggestedMap:
    """The outcome with a person's answers in it."""
    from profilesmith.engine.suggest import answered

    return answered(outcome, ask_all(outcome))


def ask_all(outcome: SuggestedMap) -> dict[str, Answer]:
    """A person's answers by setting; what they leave for later has none."""
    from profilesmith.engine.suggest import could_hold
    from profilesmith.suggest.proposal import CHECK

    answers: dict[str, Answer] = {}
    asked = outcome.suggestion.of(CHECK)
    for number, proposal in enumerate(asked, 1):
        left = len(asked) - number
        say(question(f"{number} of {len(asked)}, {left} left after it:", proposal, outcome))
        answer = _answer(proposal, could_hold(outcome, proposal))
        if answer == "stop":
            break
        if not isinstance(answer, str):
            answers[proposal.setting] = answer
    return answers


def _answer(proposal: Proposal, settings: Sequence[str]) -> Answer | str:
    """Asks until the answer is one of those offered. Returns ``later`` or ``stop`` for no answer.

    settings: those that the key could hold by its value, the likeliest first.
    """
    most = len(proposal.alternatives)
    keys = f", 1 to {most} for that key" if most > 1 else ", 1 for that key" if most else ""
    offer = f"yes, no for good, later, stop{keys}, or the setting that it holds instead"
    while True:
        word = str(typer.prompt(f"Take it? ({offer})", default="later")).strip().casefold()
        if word in WORDS:
            return WORDS[word]
        if word in ("later", "l", "stop", "s"):
            return {"l": "later", "s": "stop"}.get(word, word)
        if word.isdecimal() and 1 <= int(word) <= most:
            return proposal.alternatives[int(word) - 1]
        instead = _setting(word, settings)
        if instead is not None:
            return instead


def _setting(word: str, settings: Sequence[str]) -> Instead | None:
    """The setting that a word names or begins; None, and a line on what is nearest, for any other word."""
    from profilesmith.engine.suggest import Instead
    from profilesmith.vocabulary.load_vocabulary import load_vocabulary

    known = load_vocabulary().settings
    begun = [name for name in settings if name.startswith(word)] if "." in word or len(word) > SHORTEST else []
    name = word if word in known else begun[0] if len(begun) == 1 else ""
    if name in settings:
        say_error(f"It is taken for {name}.")
        return Instead(name)
    if name:
        say_error(f"Its value cannot be read as {name}. It could be: {', '.join(settings[:MOST_NAMED])}.")
        return None
    near = begun[:MOST_NAMED] or [close for close in (nearest(word, known),) if close]
    none_of_these(word, f" Did you mean {' or '.join(near)}?" if near else "")
    return None


def none_of_these(word: str, more: str = "") -> None:
    """One line for an answer that was not offered, before the question comes again."""
    from profilesmith.review.wording import visible

    say_error(f"{visible(word)!r} is none of these answers.{more}")


def question(count: str, proposal: Proposal, outcome: SuggestedMap) -> str:
    """One proposal with its line in its surroundings."""
    from profilesmith.review.wording import visible
    from profilesmith.vocabulary.load_vocabulary import load_vocabulary

    meaning = load_vocabulary().settings[proposal.setting].meaning
    document = next(document for document in outcome.documents if document.name == proposal.file)
    lines = ["", f"{count}  {proposal.setting}: {meaning}", *_surroundings(document, proposal.line)]
    lines.append(
        f"  would be read as {proposal.value}"
        + (f" (because {'; '.join(proposal.reasons)})" if proposal.reasons else "")
    )
    lines += [f"  but: {visible(doubt)}" for doubt in proposal.doubts]
    lines += [
        f"  {number}  {visible(f'{other.name} = {other.text}')} (line {other.line})"
        for number, other in enumerate(proposal.alternatives, 1)
    ]
    return "\n".join(lines)


def _surroundings(document: Document, line: int) -> list[str]:
    from profilesmith.review.wording import visible

    lines = document.lines()
    first = max(1, line - AROUND)
    return [
        f"  {'>' if number == line else ' '} {number:>5}  {visible(text)}"
        for number, text in enumerate(lines[first - 1 : line + AROUND], first)
    ]
