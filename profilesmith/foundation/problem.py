"""What can be wrong, as values: a code, one sentence what and where, one sentence what to do.

Rooms collect problems and return them; only ``workflows`` raises, once, with all that one run found.
"""

from collections.abc import Iterable

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place

INPUT, CONFLICT = 2, 3
MOST_LOOKED_AT = 10  # of those with most letters in common
MOST_CHOICES = 600  # to compare a word with: a text may have a hundred thousand keys


class Problem(NamedTuple):
    """One mistake or conflict.

    code: a stable word for tests and scripts, such as ``unknown-key``.
    message: one sentence that says what is wrong.
    place: where it stands.
    hint: one sentence that says what to do.
    severity: the exit code that it leads to: INPUT (2) or CONFLICT (3).
    meant: the known word that an unknown one was taken for a misspelling of; "" for none.
    setting: the setting whose demands cannot all be met; "" for other matters.
    key: the key of a TOML table that it speaks of, there or missing; "" for none.
    """

    code: str
    message: str
    place: Place = Place()
    hint: str = ""
    severity: int = INPUT
    meant: str = ""
    setting: str = ""
    key: str = ""

    def __str__(self) -> str:
        head = f"{self.place}: {self.message}" if str(self.place) else self.message
        return f"{head}\n  {self.hint}" if self.hint else head


def fault_of(error: Exception) -> Problem:
    """A fault of the program itself, where the work goes on without what it stopped."""
    return Problem("fault", f"profilesmith has a fault: {type(error).__name__}: {error}. Please report it.")


class Refused(Exception):
    """The call cannot be carried out. Carries every problem that was found; nothing was written."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(dict.fromkeys(problems))
        super().__init__("\n".join(str(problem) for problem in self.problems))

    @property
    def exit_code(self) -> int:
        """3 when all problems are conflicts or refusals, else 2: a wrong input comes first."""
        return min((problem.severity for problem in self.problems), default=INPUT)


def refuse_if(problems: Iterable[Problem]) -> None:
    """Raise ``Refused`` when there is any problem."""
    every = tuple(problems)
    if every:
        raise Refused(every)


def nearest(word: str, known: Iterable[str], alike: float = 0.6) -> str:
    """The known word that this one is a slip or a short form of, or "": one that is only somewhat alike is none.

    alike: the least share of letters in common, 0 to 1. Where no word is like it, the only one that it is a part of.
    """
    from difflib import get_close_matches  # only when something is wrong

    from profilesmith.foundation.likeness import is_like, is_part_of

    choices = list(known)
    if len(choices) > MOST_CHOICES:
        head = word[:2].casefold()
        choices = [choice for choice in choices if choice[:2].casefold() == head][:MOST_CHOICES]
    folded = {choice.casefold(): choice for choice in reversed(choices)}
    for match in get_close_matches(word.casefold(), folded, n=MOST_LOOKED_AT, cutoff=alike):
        if is_like(word, match):
            return folded[match]
    whole = [choice for choice in folded if is_part_of(word, choice)]
    return folded[whole[0]] if len(whole) == 1 else ""


def did_you_mean(word: str, known: Iterable[str], otherwise: str = "") -> str:
    """A hint that names the nearest known word."""
    near = nearest(word, known)
    return f"Did you mean {near!r}?" if near else otherwise
