"""A face under a finger or sanding paper: how far it gives between the lines of the filling, and whether it pillows."""

from profilesmith.checks.amounts import bracket, few, mm
from profilesmith.checks.bar import poses
from profilesmith.checks.beads import wall_mm
from profilesmith.checks.case import Case, ask, choice, number, size
from profilesmith.checks.finding import amount, not_said
from profilesmith.checks.materials import Modulus, modulus, rigid_modulus
from profilesmith.checks.skins import thickness as skin_thickness
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.face import face_dent_mm, free_span_mm
from profilesmith.profile.profile import Profile

CHECK, TITLE = "face", "Faces between the lines of the filling"
PILLOW, PILLOW_TITLE = "pillowing", "Closing layers over sparse filling"
PRESSURE_MPA = 0.01  # a finger's light press, paper under a block (own assumption; part.face_pressure goes before it)
FELT_MM = 0.05  # waves that are seen in paint and felt by a finger (own threshold)
RUBBER, RIGID = 0.5, 0.35  # Poisson's ratios; the first for everything soft
# Above this span of the first closing layer beads hang through between the lines: common practice, no source.
PILLOW_MM, PILLOW_SKIN_MM = 6.0, 1.0
SOURCE = (
    "dent of a clamped plate, square to strip (Timoshenko and Woinowsky-Krieger 1959), over the widest circle between "
    "the lines of the pattern (geometry)"
)
GIVES = {"passed": "face-stands", "note": "face-may-give", "caution": "face-gives"}
SETTINGS = ("infill.density", "infill.pattern", "top.layers", "bottom.layers", "wall.count")


class Face(NamedTuple):
    """The face of a side: its thickness and the free span below it [mm]."""

    skin: float
    span: Bracket


def check(case: Case) -> tuple[Finding, ...]:
    """The dent only where a face is asked about (sanded, painted, pressed); pillowing wherever closing layers are."""
    found = (_dent(case) if _asked(case) else None, _pillowing(case))
    return tuple(finding for finding in found if finding is not None)


def _asked(case: Case) -> bool:
    painted = case.word("part.coating") in ("rigid", "elastic")
    return bool(case.quantity("part.sanding_allowance")) or painted or case.quantity("part.face_pressure") is not None


def face_of(case: Case, profile: Profile) -> Face | None:
    """The thinnest face that stands over filling; None where there is none, or the text does not tell."""
    width, density = size(profile, "bead.width"), size(profile, "infill.density")
    skins = [skin for skin in _skins(case, profile) if skin]
    thickness = case.quantity("part.thickness")
    if width is None or density is None or density >= 100 or not skins:
        return None
    if thickness is not None and 2 * min(skins) >= thickness:
        return None
    return Face(min(skins), free_span_mm(choice(profile, "infill.pattern"), width, density / 100))


def _skins(case: Case, profile: Profile) -> list[float | None]:
    found: list[float | None] = []
    for pose in poses(case):
        if pose.standing:
            found.append(wall_mm(profile))
        else:
            found += [float(held) for side in ("top", "bottom") if (held := skin_thickness(profile, side))]
    return found


def dent(case: Case, profile: Profile, plastic: Modulus, poisson: float) -> Bracket | NotValid | None:
    """How far the face gives [mm]; a rigid plastic is given its own Poisson's ratio."""
    face = face_of(case, profile)
    if face is None:
        return None
    pressure = case.quantity("part.face_pressure") or PRESSURE_MPA
    ends = [
        face_dent_mm(pressure, span, mpa, face.skin, poisson)
        for span, mpa in ((face.span.low, plastic.mpa.high), (face.span.high, plastic.mpa.low))
    ]
    if isinstance(ends[0], NotValid):
        return ends[0]
    if isinstance(ends[1], NotValid):
        return Bracket(ends[0].low, max(face.skin / 2, ends[0].high))
    return spanning([ends[0], ends[1]])


def _dent(case: Case) -> Finding | None:
    face, own = face_of(case, case.now), modulus(case)
    if face is None:
        return None
    if own is None:
        return not_said(CHECK, TITLE, "how soft the filament is", ask("spool.hardness"), SETTINGS)
    pressure = case.quantity("part.face_pressure") or PRESSURE_MPA
    given = dent(case, case.now, own, RUBBER)
    before = None if case.derived is None else dent(case, case.base, rigid_modulus(), RIGID)
    verdict, text = _words(given, face, f"{few(pressure * 1000)} kPa")
    return Finding(
        CHECK,
        verdict,
        TITLE,
        text,
        before=bracket(before, "mm") if isinstance(before, Bracket) else "",
        after=bracket(given, "mm") if isinstance(given, Bracket) else "will dent",
        limit=f"at most {few(FELT_MM)} mm",
        reason=GIVES[verdict],
        amounts=(
            *amount("skin", face.skin, "mm"),
            Amount("span", face.span.low, face.span.high, "mm"),
            *((Amount("after", given.low, given.high, "mm"),) if isinstance(given, Bracket) else ()),
            *amount("most", FELT_MM, "mm"),
        ),
        source=(
            f"{SOURCE}; modulus: {own.source}; {few(PRESSURE_MPA * 1000)} kPa and {few(FELT_MM)} mm: own assumptions"
        ),
        settings=SETTINGS,
    )


def _words(given: Bracket | NotValid | None, face: Face, pressure: str) -> tuple[Verdict, str]:
    text = f"A face of {mm(face.skin)} spans {bracket(face.span, 'mm')} between the lines of the filling"
    cure = "Lay more closing layers or walls, or denser filling."
    if not isinstance(given, Bracket):
        return "caution", f"{text} and will dent under {pressure}: paper sands it into waves. {cure}"
    text = f"{text} and gives by {bracket(given, 'mm')} under {pressure}"
    if given.high <= FELT_MM:
        return "passed", f"{text}: paper and fingers hardly feel the lines."
    if given.low > FELT_MM:
        return "caution", f"{text}: paper sands it into waves. {cure}"
    return "note", f"{text}: paper may sand it into waves. {cure}"


def _pillowing(case: Case) -> Finding | None:
    """Top layers that hang through between the lines below."""
    profile = case.now
    width, density, top = size(profile, "bead.width"), number(profile, "infill.density"), skin_thickness(profile, "top")
    thickness = case.quantity("part.thickness")
    if width is None or not density or density >= 100 or not top or (thickness and float(top) * 2 >= thickness):
        return None
    span = free_span_mm(choice(profile, "infill.pattern"), width, density / 100)
    if span.low <= PILLOW_MM or float(top) >= PILLOW_SKIN_MM:
        return None
    text = f"Top layers hang through between lines {bracket(span, 'mm')} apart and come out as pillows or with holes."
    text += f" Denser filling, or {mm(PILLOW_SKIN_MM)} of top layers, closes them."
    return Finding(
        PILLOW,
        "note",
        PILLOW_TITLE,
        text,
        after=mm(float(top)),
        reason="top-layers-pillow",
        amounts=(*amount("after", float(top), "mm"), Amount("span", span.low, span.high, "mm")),
        source=f"spans above {few(PILLOW_MM)} mm under less than {mm(PILLOW_SKIN_MM)}: common practice, no source",
        settings=("infill.density", "infill.pattern", "top.layers"),
    )
