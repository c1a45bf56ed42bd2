"""Supports: do their lines stand so close that a soft underside does not sag between them?"""

import math

from profilesmith.checks.amounts import bracket, few
from profilesmith.checks.case import Case, ask, choice, count, size, switch
from profilesmith.checks.finding import not_said
from profilesmith.checks.materials import flexible
from profilesmith.ledger.judgement import Finding, Verdict
from profilesmith.physics.answer import Bracket
from profilesmith.physics.spacing import density_at_spacing_share, line_spacing_mm
from profilesmith.profile.profile import Profile

CHECK, TITLE = "support-spacing", "Distance between support lines"
# How far a fresh bead is laid across a gap without sagging: common practice, no source.
SOFT_MM, SOFT_MOST_MM, RIGID_MM = 2.0, 3.0, 6.0
SOURCE = (
    "distance = bead width / density (times 2 for a crossed grid): geometry; 2 mm for soft plastic: common "
    "practice, no source"
)
DIRECTIONS = {"lines": 1, "concentric": 1, "grid": 2, "triangles": 3}
SETTINGS = ("support.density", "support.contact_density", "support.contact_layers", "support.pattern", "bead.width")


def check(case: Case) -> tuple[Finding, ...]:
    """None where the text tells no density of supports; where supports are off, at most a note."""
    now = spacing_mm(case.now)
    if now is None:
        return ()
    soft = flexible(case)
    if soft is None and now.high > SOFT_MM:
        known = f"The lines of a support stand {bracket(now, 'mm')} apart."
        return (not_said(CHECK, TITLE, "whether the spool is soft", ask("spool.material"), SETTINGS, known),)
    before = spacing_mm(case.base) if case.derived is not None else None
    verdict, text = _words(case, now, soft is not False)
    limit = SOFT_MM if soft is not False else RIGID_MM
    return (
        Finding(
            CHECK,
            verdict,
            TITLE,
            text,
            before=bracket(before, "mm") if before else "",
            after=bracket(now, "mm"),
            limit=f"at most {few(limit)} mm",
            headroom=f"{few(limit - now.high)} mm" if now.high < limit else "",
            source=SOURCE,
            settings=SETTINGS,
        ),
    )


def spacing_mm(profile: Profile) -> Bracket | None:
    """Distance between the lines that carry the face; a range where the pattern is not known."""
    density, width = _face_density(profile), size(profile, "bead.width")
    if density is None or width is None or density > 100:
        return None
    directions = DIRECTIONS.get(choice(profile, "support.pattern"))
    fewest, most = (directions, directions) if directions else (1, 2)
    return Bracket(line_spacing_mm(width, density / 100, fewest), line_spacing_mm(width, density / 100, most))


def _face_density(profile: Profile) -> float | None:
    """The density of what lies right below the face: of the contact layers, where there are any that tell theirs."""
    contact = size(profile, "support.contact_density") if count(profile, "support.contact_layers") else None
    return contact or size(profile, "support.density")


def _words(case: Case, now: Bracket, soft: bool) -> tuple[Verdict, str]:
    near, far = (SOFT_MM, SOFT_MOST_MM) if soft else (RIGID_MM, RIGID_MM)
    if now.high <= near:
        return "passed", "Close enough that an underside stays level."
    if now.low <= near:
        text = (
            f"Close enough if the lines run in one direction; in a crossed pattern they stand {few(now.high)} mm apart."
        )
        return "note", f"{text} Look at your text's pattern, or lay contact layers between: they carry the face."
    word = "A soft underside" if soft else "An underside"
    text = (
        f"{word} sags between lines so far apart. At {math.ceil(_density(case, near) * 100 - 1e-9)} % they would "
        f"stand {few(near)} mm apart."
    )
    verdict: Verdict = "caution" if now.low > far else "note"
    layers = count(case.now, "support.contact_layers")
    if verdict == "caution" and layers:
        verdict, text = "note", f"{text} The {layers} contact layers between help."
    if switch(case.now, "support.on") is False:
        return "note", f"{text} Supports are off here: it counts once you turn them on."
    return verdict, text


def _density(case: Case, distance: float) -> float:
    """The share at which the lines stand this far apart."""
    now, density, width = spacing_mm(case.now), _face_density(case.now), case.size("bead.width")
    assert now is not None  # it was judged
    assert density is not None
    assert width is not None
    lines = max(1, round(now.low * density / 100 / width))
    return density_at_spacing_share(width, distance, lines)
