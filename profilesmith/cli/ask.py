"""Going through what is to be checked, one proposal after the other, on a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from profilesmith.engine.suggest import Answer, Outcome
    from profilesmith.suggest.proposal import Proposal
    from profilesmith.text.document import Document

AROUND = 2  # lines above and below
WORDS = {"y": True, "yes": True, "n": False, "no": False}


def gone_through(outcome: Outcome) -> Outcome:
    """The outcome with a person's answers in it."""
    from profilesmith.engine.suggest import answered

    return answered(outcome, ask_all(outcome))


def ask_all(outcome: Outcome) -> dict[str, Answer]:
    """A person's answers by setting; what they leave for later has none."""
    from profilesmith.cli.terminal import say
    from profilesmith.suggest.proposal import CHECK

    answers: dict[str, Answer] = {}
    asked = outcome.suggestion.of(CHECK)
    for number, proposal in enumerate(asked, 1):
        say(question(f"{number} of {len(asked)}", proposal, outcome))
        answer = _answer(proposal)
        if answer == "stop":
            break
        if not isinstance(answer, str):
            answers[proposal.setting] = answer
    return answers


def _answer(proposal: Proposal) -> Answer | str:
    """Asks until the answer is one of those offered. Returns ``later`` or ``stop`` for no answer."""
    most = len(proposal.alternatives)
    offer = "yes, no, later, stop" + (
        f", or 1 to {most} for that key" if most > 1 else ", or 1 for that key" if most else ""
    )
    while True:
        word = str(typer.prompt(f"Take it? ({offer})", default="later")).strip().casefold()
        if word in WORDS:
            return WORDS[word]
        if word in ("later", "l", "stop", "s"):
            return {"l": "later", "s": "stop"}.get(word, word)
        if word.isdecimal() and 1 <= int(word) <= most:
            return proposal.alternatives[int(word) - 1]
        none_of_these(word)


def none_of_these(word: str) -> None:
    """One line for an answer that was not offered, before the question comes again."""
    from profilesmith.cli.terminal import say_error
    from profilesmith.review.wording import visible

    say_error(f"{visible(word)!r} is none of these answers.")


def question(count: str, proposal: Proposal, outcome: Outcome) -> str:
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

    lines = document.text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    first = max(1, line - AROUND)
    return [
        f"  {'>' if number == line else ' '} {number:>5}  {visible(text)}"
        for number, text in enumerate(lines[first - 1 : line + AROUND], first)
    ]
