"""What a derived file's ledger is asked for so that nobody need say it again, in sentences: map, facts, hand edits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from profilesmith.facts.facts import Facts, fact_kinds
from profilesmith.foundation.words import listed, plural
from profilesmith.review.render.command import command
from profilesmith.review.wording import visible

MOST_EDITS = 4


def map_remembered(path: str, text: str) -> str:
    """path: of the map; text: the derived file whose ledger names it."""
    return visible(f"The key map is {path}, as the ledger beside {text} says.")


def facts_remembered(count: int) -> list[str]:
    return [f"{plural(count, 'fact')} and answers are as the ledger beside it says."] if count else []


def facts_of_ledgers(sides: Mapping[str, Facts], disputed: Iterable[str]) -> list[str]:
    """sides: what each derived file's ledger knows; disputed: facts that they disagree on."""
    sentences = [f"{plural(len(side), 'fact')} from the ledger beside {text}." for text, side in sides.items()]
    sentences += [
        (
            f"{name} is {listed(fact_words(name, side) for side in sides.values())} in these files: what "
            "follows is judged with the last."
        )
        for name in disputed
    ]
    return list(map(visible, sentences))


def fact_words(name: str, side: Facts) -> str:
    """What a fact is on one side."""
    return fact_kinds()[name].show(side[name].value) if name in side else "not said"


def share_rewritten(name: str, old: str, new: str) -> str:
    """A share that was rewritten while what it comes to stayed."""
    return f"{name} comes to the same: {old or 'written in full'}, now {new or 'written in full'}."


def edited_since(edits: Iterable[str]) -> list[str]:
    """Every edit of a hand, as a sentence."""
    return [f"Edited since it was derived: {text}." for text in edits]


def first_edits(edits: Sequence[str], text: str) -> list[str]:
    """That a text is no longer as it was derived: the first few edits, and which command tells of all."""
    lines = [f"Edited since it was derived: {visible(edit)}" for edit in edits[:MOST_EDITS]]
    more = len(edits) - MOST_EDITS
    return [*lines, f"{plural(more, 'more edit')}: '{command('review', text)}' tells of all"] if more > 0 else lines
