"""Hours, metres, grams, pulls and the places to look at, as findings."""

from __future__ import annotations

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import listed, plural
from profilesmith.ledger.judgement import Finding, Verdict
from profilesmith.motion.figures import Figures
from profilesmith.motion.judging.levels import laid_layers, quickest_layer
from profilesmith.physics.answer import Bracket
from profilesmith.physics.bead import filament_area_mm2
from profilesmith.review.findings import not_judged
from profilesmith.review.motion.amounts import few, hours_bracket, place_text

TIME_SOURCE = (
    "trapezoidal moves (Biagiotti and Melchiorri 2008, ch. 3) with look-ahead; corners and, where nothing tells them, "
    "accelerations from a usual range: common practice"
)
GRINDS = 20  # pulls on one piece of strand, from which it is worth a look [common practice, no source]


class Spool(NamedTuple):
    """What is known of the spool. left_g: what is on it still; price: of a kilogram, in whatever money."""

    diameter_mm: float
    density_g_cm3: float | None = None
    left_g: float | None = None
    price: float | None = None

    def grams(self, fed_mm: float) -> float | None:
        if self.density_g_cm3 is None:
            return None
        return fed_mm * filament_area_mm2(self.diameter_mm) / 1000.0 * self.density_g_cm3


def totals(figures: Figures, spool: Spool) -> tuple[Finding, ...]:
    """What the file comes to, whether a ledger is at hand or not."""
    return (time_finding(figures), filament_finding(figures, spool), *_heat(figures), *_places(figures))


def doubted(figures: Figures, *subjects: str) -> bool:
    return any(set(subjects) & set(doubt.subjects) for doubt in figures.doubts)


def time_finding(figures: Figures) -> Finding:
    times = figures.times
    if doubted(figures, "time", "speed", "path"):
        reason = "words of the file change speeds, lengths or waits in a way that is not followed"
        return not_judged("motion-time", "Printing time", reason)
    parts = [f"travels {hours_bracket(times.travels)}", f"pulls {hours_bracket(times.pulls)}"]
    if times.dwells.high:
        parts.append(f"dwells {hours_bracket(times.dwells)}")
    text = f"Of it {listed(parts, 'and')}. How sharp the machine takes its corners is not known: that makes the range."
    if times.heating:
        text += f" Heat is waited for {plural(times.heating, 'time', 'times')}; that, homing and probing come on top."
    if times.persons:
        text += f" In line {times.persons[0]} it waits for a person."
    if not figures.end_told:
        text += " The file ends in the middle: this is the time as far as it goes."
    return Finding("motion-time", "note", "Printing time", text, after=hours_bracket(times.moving), source=TIME_SOURCE)


def filament_finding(figures: Figures, spool: Spool) -> Finding:
    if doubted(figures, "strand"):
        reason = "words of the file change what E means in a way that is not followed"
        return not_judged("motion-filament", "Filament", reason)
    metres, grams = figures.fed / 1000.0, spool.grams(figures.fed)
    after = f"{few(metres)} m" + ("" if grams is None else f", {few(grams, 1)} g")
    ask = "" if spool.density_g_cm3 else "How dense is the filament? (spool.density in a facts file)"
    texts = [f"{few(metres)} m of {few(spool.diameter_mm)} mm filament."]
    if grams is not None and spool.price is not None:
        texts.append(f"At {few(spool.price)} a kilogram that is {few(grams / 1000 * spool.price)}.")
    if grams is None or spool.left_g is None:
        return Finding("motion-filament", "note", "Filament", " ".join(texts), after=after, ask=ask, source="geometry")
    enough = grams <= spool.left_g
    texts.append(
        f"The spool holds {few(spool.left_g, 1)} g: "
        + ("enough." if enough else "not enough. Take a fuller one, or be there when it runs out.")
    )
    verdict: Verdict = "passed" if enough else "caution"
    limit = f"{few(spool.left_g, 1)} g left"
    return Finding("motion-filament", verdict, "Filament", " ".join(texts), after=after, limit=limit, source="geometry")


def _heat(figures: Figures) -> list[Finding]:
    if figures.heat_before is None or doubted(figures, "heat"):
        return []
    title = "Heat before the first laid line"
    if figures.heat_before:
        return [Finding("motion-heat", "passed", title, "The nozzle is waited for before anything is laid.")]
    text = (
        "No word waits for the nozzle's heat (M109) before the first line is laid. Cold filament grinds in the drive. "
        "Put the wait into the start block, unless your machine does it by itself."
    )
    return [Finding("motion-heat", "caution", title, text, source="common practice")]


def _places(figures: Figures) -> list[Finding]:
    if doubted(figures, "strand", "path"):
        return []
    findings = []
    pulls = figures.pulls
    spot = pulls.most_on_one_spot
    if spot is not None:
        often = plural(int(spot.value), "time", "times")
        text = (
            f"The same piece of strand is pulled up to {often} ({place_text(spot)}), "
            f"{plural(pulls.count, 'pull', 'pulls')} in all. Soft filament wears where the drive grips "
            "it again and again."
        )
        findings.append(Finding("motion-pulls", "note", "Pulls on one spot", text, after=often))
    if pulls.longest_bare is not None and pulls.longest_bare.value > 0.01:
        bare = pulls.longest_bare
        text = f"The longest travel without a pull ({place_text(bare)}). Strings are likeliest there."
        findings.append(
            Finding("motion-travel", "note", "Longest travel without a pull", text, after=f"{few(bare.value)} mm")
        )
    return [*findings, *_quickest(figures)]


def _quickest(figures: Figures) -> list[Finding]:
    layers = laid_layers(figures)[1:]
    if not layers or doubted(figures, "time", "height", "speed"):
        return []
    layer = quickest_layer(layers)
    mean = sum(held.length for held in layer.sums()) / max(layer.slow, 1e-9)
    took = hours_bracket(Bracket(layer.fast, layer.slow))
    text = (
        f"The layer at {few(layer.z)} mm (line {layer.line}), laid at {few(mean, 1)} mm/s on average. "
        "Small layers need time to set."
    )
    return [Finding("motion-layer", "note", "Quickest layer", text, after=took)]
