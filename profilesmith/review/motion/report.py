"""A Review of a motion file, in the form of every other review: worst first, all renderings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from profilesmith import __version__
from profilesmith.ledger.file import MotionFile
from profilesmith.ledger.judgement import Caution, Finding
from profilesmith.motion.figures import Figures
from profilesmith.motion.judging.judge import certainties
from profilesmith.motion.judging.outcome import JudgedSetting
from profilesmith.review.build_comparison import comparison_review
from profilesmith.review.motion.doubts import doubt_finding
from profilesmith.review.motion.judged import finding_of
from profilesmith.review.motion.layer_figures import layer_figures
from profilesmith.review.motion.totals import Spool, totals
from profilesmith.review.review import Review
from profilesmith.vocabulary.setting import Vocabulary

NO_PROMISE = Caution(
    "motion-no-promise",
    "A file that passed is no promise: stay near the printer, and stop it when something "
    "smells, smokes or comes loose. "
    "This program reads motion files; it never writes one and never speaks to a printer.",
    "common practice",
)
MOST_DOUBTS_SHOWN = 30


def findings_of(
    figures: Figures, judged: Sequence[JudgedSetting], spool: Spool, vocabulary: Vocabulary
) -> tuple[Finding, ...]:
    """Found settings first, then doubts, totals, what passed, what was not judged."""
    settings = [finding_of(item, vocabulary.settings[item.setting]) for item in judged]
    end = () if figures.end_told or not figures.lines else (_cut_off(figures),)
    doubts = [doubt_finding(doubt) for doubt in figures.doubts[:MOST_DOUBTS_SHOWN]]
    return (
        *end,
        *(f for f in settings if f.verdict == "caution"),
        *totals(figures, spool),
        *doubts,
        *_others(settings),
    )


def _others(settings: Iterable[Finding]) -> list[Finding]:
    """What passed, and what was not judged: one finding for all settings that share a reason."""
    by_words: dict[tuple[str, str], Finding] = {}
    for finding in settings:
        if finding.verdict == "caution":
            continue
        key = (finding.verdict, finding.title if finding.verdict == "passed" else finding.text)
        old = by_words.get(key)
        if old is not None:
            both = (*old.settings, *finding.settings)
            finding = old._replace(title=f"{old.title}, {finding.title}", settings=both)
        by_words[key] = finding
    return list(by_words.values())


def _cut_off(figures: Figures) -> Finding:
    text = (
        f"The file ends in the middle, in line {figures.lines}: nothing ends it (M2, M30, a closing "
        "%), and neither the "
        "nozzle nor the motors are switched off after the last laid line. Write it again, or finish copying it."
    )
    return Finding("motion-end", "caution", "The file ends in the middle", text, source="NISTIR 6556; common practice")


def motion_review(
    name: str,
    against: str,
    figures: Figures,
    judged: Sequence[JudgedSetting],
    spool: Spool,
    vocabulary: Vocabulary,
    full: bool = False,
) -> Review:
    """name: of the motion file; against: of the ledger, "" without one."""
    findings = findings_of(figures, judged, spool, vocabulary)
    more = {
        "motion": figures_json(figures, spool),
        "judged": [_judged_json(item) for item in judged],
    }
    drawn = layer_figures([("in the file", figures)], spool.diameter_mm, _flow_limit(judged))
    file = MotionFile(f"profilesmith {__version__}", more, tuple(findings), (NO_PROMISE,), drawn)
    subject = f"{name}, held against {against}" if against else name
    notes = list(certainty_lines(judged, vocabulary)) if full else []
    return comparison_review((), vocabulary, "What the motion file does", subject, notes, file)


def _flow_limit(judged: Sequence[JudgedSetting]) -> float | None:
    promised = {item.setting: item.promised for item in judged}.get("filament.maximum_flow")
    return None if promised is None or isinstance(promised, str | bool) else float(promised)


def certainty_lines(judged: Sequence[JudgedSetting], vocabulary: Vocabulary) -> Iterable[str]:
    """Every setting of the vocabulary: how much a motion file can say of it, and what this one says."""
    verdicts = {item.setting: item.outcome.verdict for item in judged}
    for name in vocabulary.settings:
        certainty = certainties()[name]
        but = f" ({certainty.but})" if certainty.but else ""
        yield f"{name}: {certainty.name}{but}; {verdicts.get(name, 'not in the ledger')}"


def _judged_json(item: JudgedSetting) -> dict[str, Any]:
    outcome = item.outcome
    promised = item.promised
    return {
        "setting": item.setting,
        "certainty": item.certainty,
        "verdict": outcome.verdict,
        "reason": outcome.code,
        "promised": promised if promised is None or isinstance(promised, str | bool) else float(promised),
        "seen": list(outcome.seen),
        "places": [{"line": spot.line, "height_mm": spot.z, "value": spot.value} for spot in outcome.spots],
        "doubts": [{"line": doubt.line, "word": doubt.word, "reason": doubt.code} for doubt in item.doubts],
    }


def figures_json(figures: Figures, spool: Spool) -> Mapping[str, Any]:
    """The totals as numbers."""
    times = figures.times
    return {
        "lines": figures.lines,
        "layers": len(figures.layers),
        "seconds": {"low": times.moving.low, "high": times.moving.high},
        "travel_seconds": {"low": times.travels.low, "high": times.travels.high},
        "pull_seconds": {"low": times.pulls.low, "high": times.pulls.high},
        "dwell_seconds": {"low": times.dwells.low, "high": times.dwells.high},
        "heating_waits": times.heating,
        "filament_mm": figures.fed,
        "filament_g": spool.grams(figures.fed),
        "pulls": figures.pulls.count,
        "complete": figures.end_told,
        "doubts": [
            {"line": d.line, "word": d.word, "reason": d.code, "times": d.times, "subjects": list(d.subjects)}
            for d in figures.doubts
        ],
    }
