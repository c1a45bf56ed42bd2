"""What a maker types of a print: troubles with grades, answers to looks, doings. Words in, names of the troubles
out.
"""

from __future__ import annotations

from collections.abc import Iterable

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean, refuse_if
from profilesmith.foundation.words import listed
from profilesmith.ledger.history import GRADES, MEND_VERDICTS, Grade, Verdict
from profilesmith.mend.find_trouble import find_troubles, words_of
from profilesmith.mend.troubles import Knowledge


def read_seen(texts: Iterable[str], known: Knowledge) -> dict[str, Grade]:
    """``stringing=poor`` for each trouble that was looked at. Raises Refused with all that is wrong."""
    seen: dict[str, Grade] = {}
    problems = []
    for text in texts:
        word, has_grade, grade = (part.strip() for part in text.partition("="))
        meant = find_troubles(word, known)
        place = Place("--saw")
        meant_grade = next((known_grade for known_grade in GRADES if known_grade == grade), None)
        if not has_grade or meant_grade is None:
            hint = f"Write TROUBLE=GRADE with {listed(GRADES, 'or')}, such as stringing=poor."
            problems.append(Problem("saw", f"{text!r} says no grade.", place, hint))
        elif len(meant) == 1:
            seen[meant[0].name] = meant_grade
        elif meant:
            hint = f"Write one of {listed((item.name for item in meant), 'or')}."
            problems.append(Problem("saw", f"{word!r} may be several troubles.", place, hint))
        else:
            words = {each: item.name for item in known.troubles.values() for each in words_of(item)}
            hint = did_you_mean(word, words, "'profilesmith mend --troubles' lists them.")
            problems.append(Problem("saw", f"No trouble is called {word!r}.", place, hint))
    refuse_if(problems)
    return seen


def read_looks(texts: Iterable[str], known: Knowledge) -> dict[str, bool]:
    """``hiss=yes``. Raises Refused."""
    answers: dict[str, bool] = {}
    problems = []
    for text in texts:
        word, _, answer = (part.strip() for part in text.partition("="))
        if word in known.signs and answer in ("yes", "no"):
            answers[word] = answer == "yes"
        else:
            hint = did_you_mean(word, known.signs, f"Looks: {', '.join(known.signs)}.")
            hint = "Write yes or no behind the sign." if word in known.signs else hint
            problems.append(Problem("look", f"{text!r} answers no look.", Place("--look"), hint))
    refuse_if(problems)
    return answers


def read_did(texts: Iterable[str], known: Knowledge) -> tuple[str, ...]:
    """Doings by name. Raises Refused."""
    refuse_if(
        Problem(
            "did",
            f"No doing is called {text!r}.",
            Place("--did"),
            did_you_mean(text, known.doings, f"Doings: {', '.join(known.doings)}."),
        )
        for text in texts
        if text not in known.doings
    )
    return tuple(texts)


def read_last(text: str) -> Verdict:
    """What came of the last mend; "" for nothing said. Raises Refused."""
    verdict = next((word for word in MEND_VERDICTS if word == text), None)
    if text and verdict is None:
        raise Refused([Problem("last", f"{text!r} is no verdict.", Place("--last"), "Write better, same or worse.")])
    return verdict or ""
