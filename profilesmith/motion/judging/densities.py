"""Densities are judged from straight parallel lines; other patterns are not judged."""

from profilesmith.motion.judging.outcome import Case, Outcome, not_judged


def density(case: Case) -> Outcome:
    return not_judged("no-words" if not case.figures.kinds_told else "no-straight-lines")
