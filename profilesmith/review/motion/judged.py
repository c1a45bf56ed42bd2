"""A judged setting as a finding: what, where, why it matters, what to do."""

from __future__ import annotations

from profilesmith.ledger.judgement import Finding
from profilesmith.motion.judging.outcome import JudgedSetting
from profilesmith.review.findings import not_judged
from profilesmith.review.motion.amounts import few, places_text, seen_text
from profilesmith.review.motion.doubts import doubts_clause
from profilesmith.vocabulary.setting import Setting

CHECK = "motion"
ASK_WORDS = (
    "Which remark of the file stands before which kind of line? (profilesmith motion suggest FILE -o words.toml)"
)

# By reason. {seen}, {want}: values; {times}, {layers} ...: numbers of the outcome.
PASSED = {
    "first-height-met": "The first layer lies at {seen}.",
    "height-met": "All {layers} layers are {seen} thick.",
    "height-mostly-met": (
        "Most layers are {seen} thick; {odd} of the steps differ, as they may where software thins them."
    ),
    "heat-met": "{seen} in all of the layers that it is for ({layers}).",
    "at-most-met": "Never more than {seen}.",
    "fan-off-met": "The first {seen} layers are laid with the fan off.",
    "fan-met": "The fan runs at {seen} in all {layers} cooled layers.",
    "fan-at-most-met": "The fan runs at {seen}, never at more; it varies, so that no more can be said.",
    "fan-at-least-met": "No cooled layer has less than {seen}.",
    "pulls-on-met": "Pulls: {seen}, {times} in all.",
    "pull-met": "{seen} in all pulls or nearly all.",
    "lift-met": "{seen} in all lifts between lines or nearly all.",
    "pulled-short-met": "No shorter travel is made with a pull.",
    "no-faster-met": "Nothing is faster than {seen}. That the software slows down by itself is no fault.",
    "travel-met": "No travel is faster than {seen}.",
    "flow-met": "The largest flow over 1 mm of path is {seen}.",
    "laid-met": "It is {seen} in the file.",
    "count-met": "Counted in the file: {seen}.",
    "count-mostly-met": "Counted in most layers: {seen}.",
    "section-met": "The laid bead has a section of {seen}, as such a width gives ({low} to {high} mm²).",
    "density-met": "About {seen}, by how far its straight lines lie apart in {layers} layers.",
    "ordered-met": "The file orders it.",
    "layer-time-met": "The quickest layer takes {seen}.",
    "first-over-raft-met": "The part's first layer above the raft's gap is {above} mm thick.",
    "raft-step-met": "The step from the raft to the part is {seen}: gap and first layer together.",
}
FOUND = {
    "first-height-not-met": (
        "The first layer lies at {seen}. Soft filament needs its bead pressed on as promised, or it lets go."
    ),
    "first-over-raft-not-met": (
        "The raft begins with a layer of {seen}, the part above its gap with one of {above} mm: "
        "whichever is meant by the "
        "first layer, its bead is not pressed on as promised."
    ),
    "height-below-spiral-not-met": (
        "The {layers} flat layers below the spiral are {seen} apart; the spiral climbs by the same setting."
    ),
    "height-not-met": "All {layers} layers are {seen} thick; flow and bonding were worked out for the promised one.",
    "height-mostly-not-met": "Most layers are {seen} thick; flow and bonding were worked out for the promised one.",
    "heat-not-met": (
        "The file orders {seen} while it lays these layers. Heat bonds the layers, and holds the first on the bed."
    ),
    "at-most-not-met": "The file orders up to {seen}: warm air softens the part and the filament on its way.",
    "fan-off-not-met": "The first {seen} layers are laid with the fan off; they hold the part on the bed.",
    "fan-not-met": "The fan runs at {seen}; soft layers bond by heat, and set by air.",
    "fan-at-most-not-met": "The fan runs at {seen}; soft layers bond by heat, and set by air.",
    "fan-at-least-not-met": "A cooled layer has only {seen}: it may still be soft when the next one comes.",
    "pulls-on-not-met": "Pulls are {seen} in the file. Without them soft filament strings; each of them wears it.",
    "pull-not-met": "The file has {seen}. More wears and jams soft filament, less lets it ooze.",
    "lift-not-met": (
        "Between lines the nozzle is lifted by {seen}. Too little and it knocks soft edges, too much and it strings."
    ),
    "pulled-short-not-met": "A travel of {seen} already has a pull: each pull wears soft filament.",
    "no-faster-not-met": "Up to {seen} is ordered ({fast_text}). A soft filament buckles when it is pushed fast.",
    "travel-not-met": "Travels go at up to {seen}: a soft part is knocked or dragged more easily.",
    "flow-not-met": "Up to {seen} over 1 mm of path: more than the melt keeps up with, so that walls come out thin.",
    "laid-not-met": "It is {seen} in the file, so that another part is laid than the ledger describes.",
    "count-not-met": "Counted in the file: {seen}. The part comes out otherwise than the ledger says.",
    "count-mostly-not-met": "Counted in most layers: {seen}. How soft the part is hangs on it.",
    "density-not-met": "About {seen}, by how far its lines lie apart in {layers} layers. Softness hangs on it.",
    "section-not-met": (
        "The laid bead has a section of {seen}; such a width gives {low} to {high} mm². Gaps or "
        "overfilled lines follow."
    ),
}
OPEN = {
    "not-in-file": "a motion file does not tell it",
    "no-words": "the file's remarks are not known",
    "nothing-laid": "nothing is laid in this file",
    "one-layer": "it has one layer only",
    "resumed": "the file begins in the middle of a print, at {seen}",
    "origin-moved": "G92 gives Z another zero, so that the height over the bed is not known",
    "over-raft": "a raft lies below, or is promised and not yet told apart from the part",
    "spiral": "it is laid in a spiral, without layers",
    "spiral-above": "the flat layers below are {seen} apart, and all above is a spiral, which has no layers to measure",
    "height-varies": "the layers vary from {seen}",
    "no-heat-word": "the file holds no such temperature",
    "fan-never-on": "the fan is never on",
    "no-cooled-layer": "no layer is laid after those without fan",
    "fan-at-least": "the fan runs at its least power, {seen}, all the time; larger layers do that",
    "no-long-travel": "no travel is long enough to need a pull",
    "pulls-not-measured": "the pulls are the machine's own (G10), and their length is not in the file",
    "no-pull": "there is no pull in it",
    "all-wiped": "all pulls are made on the move",
    "pull-varies": "the pulls vary from {seen}",
    "bare-travel": "a travel of {seen} has no pull (line {line}); inside the part software leaves them out on purpose",
    "none-laid": "none of it is laid",
    "none-needed": "none of it is laid; perhaps nothing leans enough",
    "no-travel": "there is no travel between laid lines",
    "no-closed-walls": "no closed loops of walls were seen",
    "walls-vary": "their number varies from {seen}",
    "closed-through": "every layer of the part is a closing one",
    "closing-runs-on": "sloped faces close {seen} layers in a row",
    "runs-vary": "their number varies from {seen}",
    "no-closed-loops": "its loops are not closed",
    "no-height": "the promised width and height make no bead",
    "no-order": "the file orders none",
    "other-orders": "the file orders others: {seen}",
    "layer-time-open": "the quickest layer takes {seen}, depending on the machine's corners",
    "raft-step-open": "the step from the raft to the part is {seen}: gap and first layer cannot be told apart",
    "no-straight-lines": "its straight parallel lines are too few to tell",
    "density-near": "by its lines it is about {seen}, and lines tell it to a tenth only",
    "no-end": "the file ends in the middle; as far as it goes, the promise is kept",
}
# Codes whose values have another kind than the setting.
KINDS = {
    "section-met": "area",
    "section-not-met": "area",
    "no-height": "area",
    "height-varies": "length",
    "resumed": "length",
    "closing-runs-on": "count",
}
MOST_PLACES = 2
DO = "Look at the profile that your software really used, and write the file again."


def finding_of(judged: JudgedSetting, setting: Setting) -> Finding:
    """One finding for one setting."""
    outcome = judged.outcome
    seen = seen_text(outcome.seen, setting, KINDS.get(outcome.code, ""))
    values = {name: few(value, 3) for name, value in outcome.data.items()}
    values |= {"seen": seen, "fast_text": _fast(outcome.data.get("fast", 0.0))}
    want = "" if judged.promised is None else setting.show(judged.promised)
    title = f"{setting.id} {want}".strip()
    if outcome.verdict == "not judged":
        return _open(judged, setting, values)
    texts = PASSED if outcome.verdict == "passed" else FOUND
    text = texts[outcome.code].format_map(values)
    if outcome.verdict == "found":
        where = f" See {places_text(outcome.spots[:MOST_PLACES])}." if outcome.spots else ""
        text = f"{text}{where} {DO}"
        title = setting.id
    return Finding(
        CHECK,
        "passed" if outcome.verdict == "passed" else "caution",
        title,
        text,
        before=f"promised {want}" if outcome.verdict == "found" else "",
        after=f"{seen} in the file" if outcome.verdict == "found" else "",
        source=f"read from the file: {judged.certainty}",
        settings=(setting.id,),
    )


def _fast(layers: float) -> str:
    return f"{layers:.0f} layer{'s' if layers != 1 else ''}"


def _open(judged: JudgedSetting, setting: Setting, values: dict[str, str]) -> Finding:
    code = judged.outcome.code
    clause = doubts_clause(judged.doubts) if code == "doubt" else OPEN[code].format_map(values)
    ask = ASK_WORDS if code == "no-words" else ""
    finding = not_judged(CHECK, setting.id, clause, ask, (setting.id,))
    return finding._replace(source=f"certainty: {judged.certainty}")
