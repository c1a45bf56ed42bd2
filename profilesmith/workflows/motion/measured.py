"""What a motion file tells the checks of a profile, in place of their brackets: hours, grams, flow."""

from __future__ import annotations

from profilesmith.checks.case import Measure, Measured
from profilesmith.engine.judge_motion import Known, measured_by, read_figures, spool_of
from profilesmith.ledger import Ledger
from profilesmith.ledger.judgement import Figures
from profilesmith.review.motion.layer_figures import layer_figures
from profilesmith.workflows.motion.check import MotionOrder, gather, portions
from profilesmith.workflows.request import Request


def with_motion(request: Request, name: str, words: str, old: bool) -> Request:
    """The request, with what a motion file tells. old: it is the print before the recipes. Raises Refused."""
    known = gather(MotionOrder("", words, request.facts, request.library))
    role = "before" if old else "after"
    measure, figures = _measure(name, known, role)
    measured = request.measured._replace(figures=(*request.measured.figures, *figures))
    return request._replace(measured=measured._replace(before=measure) if old else measured._replace(after=measure))


def measured_of(name: str, words: str, ledger: Ledger) -> Measured:
    """Of the print that a ledger's derived profile makes. Raises Refused."""
    known = gather(MotionOrder("", words))
    measure, figures = _measure(name, known._replace(ledger=ledger), "after")
    return Measured(after=measure, figures=figures)


def _measure(name: str, known: Known, role: str) -> tuple[Measure, Figures]:
    """Numbers for the checks, and speed and flow over the layers to draw."""
    read = read_figures(portions(name), name, known)
    spool = spool_of(known, read)
    return measured_by(read, spool), layer_figures([(role, read)], spool.diameter_mm, None)
