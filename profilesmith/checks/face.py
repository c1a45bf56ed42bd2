"""A face under a finger or sanding paper: how far it gives between the lines of the filling, and whether it pillows."""

from profilesmith.checks.amounts import amount, between, choice, few, mm, number, size
from profilesmith.checks.bar import poses
from profilesmith.checks.beads import wall_mm
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import Modulus, modulus, rigid_modulus
from profilesmith.checks.skins import thickness as skin_thickness
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Finding, Verdict
from profilesmith.physics.answer import Bracket, NotValid, spanning
from profilesmith.physics.infill import face_dent_mm, free_span_mm
from profilesmith.profile.profile import Profile

CHECK, PILLOW = "face", "pillowing"
PRESSURE_MPA = 0.01  # a finger's light press, paper under a block (own assumption; part.face_pressure goes before it)
FELT_MM = 0.05  # waves that are seen in paint and felt by a finger (own threshold)
RUBBER, RIGID = 0.5, 0.35  # Poisson's ratios; the first for everything soft
# Above this span of the first closing layer beads hang through between the lines: common practice, no source.
PILLOW_MM, PILLOW_SKIN_MM = 6.0, 1.0
SOURCE = (
    "dent of a clamped plate, square to strip (Timoshenko and Woinowsky-Krieger 1959), over the widest circle between "
    "the lines of the pattern (geometry)"
)
SETTINGS = ("infill.density", "infill.pattern", "top.layers", "bottom.layers", "wall.count")


class Face(NamedTuple):
    """The face of a side: its thickness and the free span below it [mm]."""

    skin: float
    span: Bracket


def check(case: Case) -> tuple[Finding, ...]:
    """The dent only where a face is asked about (sanded, painted, pressed); pillowing wherever closing layers are."""
    findings = (_dent(case) if _asked(case) else None, _pillowing(case))
    return tuple(finding for finding in findings if finding is not None)


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
    skins: list[float | None] = []
    for pose in poses(case):
        if pose.standing:
            skins.append(wall_mm(profile))
        else:
            skins += [float(held) for side in ("top", "bottom") if (held := skin_thickness(profile, side))]
    return skins


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
        asked = ask("spool.hardness")
        return Finding(CHECK, "not judged", reason="filament-softness-not-said", ask=asked, settings=SETTINGS)
    given = dent(case, case.now, own, RUBBER)
    before = None if case.derived is None else dent(case, case.base, rigid_modulus(), RIGID)
    verdict, reason = _reason(given)
    return Finding(
        CHECK,
        verdict,
        reason=reason,
        amounts=(
            *between("before", before if isinstance(before, Bracket) else None, "mm"),
            *between("after", given if isinstance(given, Bracket) else None, "mm"),
            *amount("most", FELT_MM, "mm"),
            *amount("skin", face.skin, "mm"),
            *between("span", face.span, "mm"),
            *amount("pressure", (case.quantity("part.face_pressure") or PRESSURE_MPA) * 1000, "kPa"),
        ),
        source=(
            f"{SOURCE}; modulus: {own.source}; {few(PRESSURE_MPA * 1000)} kPa and {few(FELT_MM)} mm: own assumptions"
        ),
        settings=SETTINGS,
    )


def _reason(given: Bracket | NotValid | None) -> tuple[Verdict, str]:
    if not isinstance(given, Bracket):
        return "caution", "face-dents"
    if given.high <= FELT_MM:
        return "passed", "face-stands"
    return ("caution", "face-gives") if given.low > FELT_MM else ("note", "face-may-give")


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
    return Finding(
        PILLOW,
        "note",
        reason="top-layers-pillow",
        amounts=(*amount("after", float(top), "mm"), *between("span", span, "mm")),
        source=f"spans above {few(PILLOW_MM)} mm under less than {mm(PILLOW_SKIN_MM)}: common practice, no source",
        settings=("infill.density", "infill.pattern", "top.layers"),
    )
