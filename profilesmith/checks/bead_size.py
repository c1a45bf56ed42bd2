"""Layer and bead against the nozzle: thin enough to be pressed flat, wide enough to be laid at all. Advice, no rule."""

from profilesmith.checks.amounts import mm, percent, span_mm
from profilesmith.checks.beads import bead_width
from profilesmith.checks.case import Case, ask, size
from profilesmith.checks.finding import not_judged, not_said
from profilesmith.ledger.judgement import Finding, Verdict

LAYER, BEAD = "layer-height", "bead-width"
LAYER_TITLE, BEAD_TITLE = "Layer height and nozzle", "Bead width and nozzle"
# Shares of the nozzle's diameter: common practice, no source.
THIN, THICK, TOO_THICK = 0.25, 0.75, 0.8
NARROW, WIDE, TOO_WIDE = 1.0, 1.5, 2.0
SOURCE = "layers of 25 to 75 % and beads of 100 to 150 % of the nozzle's diameter: common practice, no source"
_NOZZLE = "machine.nozzle_diameter"


def check(case: Case) -> tuple[Finding, ...]:
    """One finding for the layer, one for the narrowest or widest bead."""
    nozzle, height, width = case.nozzle(), case.size("layer.height"), bead_width(case.now, "outer_wall")
    found = []
    if height is not None:
        found.append(_layer(case, height, nozzle) if nozzle else _unknown(case, LAYER, LAYER_TITLE, "layer.height"))
    if width is not None:
        found.append(_bead(case, width, nozzle) if nozzle else _unknown(case, BEAD, BEAD_TITLE, "bead.width"))
    return tuple(found)


def nozzle_not_known(case: Case, check_id: str, title: str, settings: tuple[str, ...]) -> Finding:
    """Not judged: text and facts name two nozzles, or nobody named one."""
    told, fitted, question = case.size("nozzle.diameter"), case.quantity("machine.nozzle_diameter"), ask(_NOZZLE)
    if told is None or fitted is None:
        return not_said(check_id, title, "how wide the nozzle is", question, settings)
    reason = f"the text is for a nozzle of {mm(told)} and the facts name one of {mm(fitted)}"
    return not_judged(check_id, title, reason, question, settings)


def _unknown(case: Case, check_id: str, title: str, setting: str) -> Finding:
    return nozzle_not_known(case, check_id, title, (setting, "nozzle.diameter"))


def _layer(case: Case, height: float, nozzle: float) -> Finding:
    share = height / nozzle
    text = f"Layers are {percent(share)} of the nozzle's {mm(nozzle)}."
    verdict: Verdict = "passed"
    if share > TOO_THICK:
        verdict, text = "caution", f"{text} So thick a layer is hardly pressed onto the one below: layers part easily."
    elif share > THICK:
        verdict, text = "note", f"{text} That is near the most that is still pressed flat."
    elif share < THIN:
        verdict, text = (
            "note",
            f"{text} So thin a layer is hard to lay evenly, and the print takes longer in proportion.",
        )
    before = case.before("layer.height")
    return Finding(
        LAYER,
        verdict,
        LAYER_TITLE,
        text,
        before=mm(before) if before else "",
        after=mm(height),
        limit=span_mm(THIN * nozzle, THICK * nozzle),
        headroom=_room(height, THICK * nozzle),
        source=SOURCE,
        settings=("layer.height", "nozzle.diameter"),
        unsuited=share < THIN and before is not None and height < before,
    )


def _bead(case: Case, outer: float, nozzle: float) -> Finding:
    height, inner = case.size("layer.height"), case.size("bead.width") or outer
    # The one that is farther from the middle of what is usual.
    width = max(outer, inner, key=lambda value: abs(value / nozzle - (NARROW + WIDE) / 2))
    share = width / nozzle
    text = f"Beads are {percent(share, 3)} of the nozzle's {mm(nozzle)}."
    verdict: Verdict = "passed"
    if height and min(outer, inner) < height:
        verdict, text = (
            "caution",
            (
                f"A bead of {mm(min(outer, inner))} is narrower than its layer is high ({mm(height)}): it "
                "is not pressed flat and holds badly."
            ),
        )
    elif share > TOO_WIDE:
        verdict, text = "caution", f"{text} The plastic does not flow that far to the sides: beads stay apart."
    elif share > WIDE or share < NARROW:
        verdict, text = "note", f"{text} Usual are 100 to 150 %: look at a first wall before you print on."
    before = (
        None
        if case.derived is None
        else size(case.base, "bead.width")
        if width == inner
        else bead_width(case.base, "outer_wall")
    )
    return Finding(
        BEAD,
        verdict,
        BEAD_TITLE,
        text,
        before=mm(before) if before else "",
        after=mm(width),
        limit=span_mm(NARROW * nozzle, WIDE * nozzle),
        headroom=_room(width, WIDE * nozzle),
        source=SOURCE,
        settings=("bead.width", "nozzle.diameter"),
    )


def _room(value: float, most: float) -> str:
    return mm(most - value) if value < most else ""
