"""Two motion files side by side: hours, metres, grams, pulls, speeds. The ratio of times first: it is the surest
number.
"""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith import __version__
from profilesmith.ledger.file import MotionFile
from profilesmith.ledger.judgement import Finding
from profilesmith.motion.figures import Figures
from profilesmith.physics.answer import Bracket
from profilesmith.review.build_comparison import comparison_review
from profilesmith.review.findings import not_judged
from profilesmith.review.motion.amounts import few, hours_bracket
from profilesmith.review.motion.doubts import doubt_finding
from profilesmith.review.motion.layer_figures import layer_figures
from profilesmith.review.motion.report import NO_PROMISE, figures_json
from profilesmith.review.motion.totals import TIME_SOURCE, Spool, doubted
from profilesmith.review.review import Review
from profilesmith.vocabulary.setting import Vocabulary

Side = tuple[str, Figures]


def time_ratio(old: Sequence[Figures], new: Sequence[Figures]) -> Bracket:
    """How many times as long, on one machine: quotients at the same corners and accelerations, over all that were
    tried.
    """
    quotients = [
        after / before
        for one, other in zip(old, new, strict=True)
        for before, after in (
            (one.times.moving.low, other.times.moving.low),
            (one.times.moving.high, other.times.moving.high),
        )
        if before > 0
    ]
    return Bracket(min(quotients, default=1.0), max(quotients, default=1.0))


def compared_review(old: Side, new: Side, ratio: Bracket, spool: Spool, vocabulary: Vocabulary) -> Review:
    """Old beside new."""
    findings = [*_ratio(old[1], new[1], ratio), *_amounts(old[1], new[1], spool), *_speeds(old[1], new[1])]
    for name, figures in (old, new):
        findings += [
            finding._replace(title=f"{name}, {finding.title}") for finding in map(doubt_finding, figures.doubts[:10])
        ]
    more = {
        "time_ratio": {"low": ratio.low, "high": ratio.high},
        "motion": {"old": figures_json(old[1], spool), "new": figures_json(new[1], spool)},
    }
    drawn = layer_figures([("before", old[1]), ("after", new[1])], spool.diameter_mm, None)
    file = MotionFile(f"profilesmith {__version__}", more, tuple(findings), (NO_PROMISE,), drawn)
    return comparison_review((), vocabulary, "Two motion files", f"{old[0]} → {new[0]}", [], file)


def _ratio(old: Figures, new: Figures, ratio: Bracket) -> list[Finding]:
    if doubted(old, "time", "speed", "path") or doubted(new, "time", "speed", "path"):
        reason = "words of the files change speeds, lengths or waits in a way that is not followed"
        return [not_judged("motion-time", "Printing time", reason)]
    times = f"{few(ratio.low)} to {few(ratio.high)}" if few(ratio.low) != few(ratio.high) else few(ratio.low)
    text = (
        f"It takes {times} times as long on the same machine. That ratio is surer than either time, "
        "in which the machine's corners are not known. Heating comes on top."
    )
    before, after = hours_bracket(old.times.moving), hours_bracket(new.times.moving)
    return [Finding("motion-time", "note", f"Time: {times} times", text, before, after, source=TIME_SOURCE)]


def _amounts(old: Figures, new: Figures, spool: Spool) -> list[Finding]:
    findings = []
    if not (doubted(old, "strand") or doubted(new, "strand")):
        findings.append(_side_by_side("Filament", f"{few(old.fed / 1000)} m", f"{few(new.fed / 1000)} m"))
        grams = spool.grams(old.fed), spool.grams(new.fed)
        if grams[0] is not None and grams[1] is not None:
            findings.append(_side_by_side("Mass", f"{few(grams[0], 1)} g", f"{few(grams[1], 1)} g"))
        findings.append(_side_by_side("Pulls", str(old.pulls.count), str(new.pulls.count)))
    if not (doubted(old, "height") or doubted(new, "height")):
        findings.append(_side_by_side("Layers", str(len(old.layers)), str(len(new.layers))))
    return findings


def _speeds(old: Figures, new: Figures) -> list[Finding]:
    """The fastest ordered speed of each kind of line that both lay."""
    if doubted(old, "speed") or doubted(new, "speed"):
        return []
    fastest = [_fastest(figures) for figures in (old, new)]
    kinds = [kind for kind in fastest[0] if kind in fastest[1]]
    return [
        _side_by_side(
            f"Fastest {kind.replace('_', ' ') or 'laying'}",
            f"{few(fastest[0][kind])} mm/s",
            f"{few(fastest[1][kind])} mm/s",
        )
        for kind in kinds
    ]


def _fastest(figures: Figures) -> dict[str, float]:
    speeds: dict[str, float] = {}
    for layer in figures.layers:
        for kind, held in layer.kinds.items():
            speeds[kind] = max(speeds.get(kind, 0.0), held.top_speed)
    return speeds


def _side_by_side(title: str, before: str, after: str) -> Finding:
    return Finding("motion-compare", "note", title, "Read from the two files.", before, after)
