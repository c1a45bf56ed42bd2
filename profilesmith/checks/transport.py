"""Pushing and pulling the filament: does it buckle where nothing guides it, what do stretch and play take of a pull?"""

import math

from profilesmith.checks.amounts import amount, between, switch
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import Modulus, flexible, modulus, rigid_modulus, spool_name
from profilesmith.ledger.judgement import Finding, Verdict
from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.feed_path import (
    LARGEST_STRAIN,
    buckling_load_ratio,
    buckling_strain_share,
    slack_mm,
    stored_length_ratio,
)

PUSH = "buckling"
# A strand that stands less than this share of the push needs a closed path from gear to nozzle (own threshold).
WEAK = 0.2
PUSH_SOURCE = "Euler's column in one gap, compared with rigid PLA only: Timoshenko and Gere 1961 (from memory)"
PUSH_SETTINGS = ("filament.diameter",)
PUSHES_AS_RIGID = 0.8  # of the push of rigid PLA is about as much (own threshold)


def check_push(case: Case) -> tuple[Finding, ...]:
    """None for a rigid spool."""
    if flexible(case) is False:
        return ()
    own = modulus(case)
    if own is None:
        asked = ask("spool.material")
        return (Finding(PUSH, "not judged", reason="filament-not-said", ask=asked, settings=PUSH_SETTINGS),)
    diameter, rigid = case.size("filament.diameter") or 1.75, rigid_modulus().mpa  # one diameter: it drops out
    ratio = Bracket(
        buckling_load_ratio(rigid.high, diameter, own.mpa.low, diameter),
        buckling_load_ratio(rigid.low, diameter, own.mpa.high, diameter),
    )
    gap = case.quantity("machine.unguided_gap")
    verdict, reason = _push_reason(ratio, gap, diameter)
    return (
        Finding(
            PUSH,
            verdict,
            reason=reason,
            names=(spool_name(case),),
            amounts=(*between("after", ratio, "%", 100), *amount("gap", gap, "mm")),
            source=f"{SOURCE}; modulus: {own.source}; rigid PLA: {rigid_modulus().source}",
            ask=ask("machine.unguided_gap") if gap is None else "",
            settings=PUSH_SETTINGS,
        ),
    )


def _push_reason(ratio: Bracket, gap: float | None, diameter: float) -> tuple[Verdict, str]:
    if ratio.low >= PUSHES_AS_RIGID:
        return "passed", "stands-as-rigid"
    if gap is None:
        return "note", "buckles-unguided"
    if gap == 0:
        return "passed", "no-gap"
    if buckling_strain_share(diameter, gap) > LARGEST_STRAIN:
        return "not judged", "gap-too-short"
    return "caution" if ratio.high < WEAK else "note", "gap-to-buckle-in"


STRETCH, SLACK = "retraction-stretch", "retraction-slack"
AS_RIGID = 1.5  # times as far are about as far (own threshold)
# From here on even the stiffest strand of its kind takes up several pulls of a rigid one (own threshold).
MANY_TIMES = 5.0
VERY_SOFT_A = 85  # softer strands often stick in a long tube: common practice, no source
SOURCE = "stored length is inverse to the modulus (elasticity; friction after the capstan equation, arXiv 2012.13353)"
SLACK_SOURCE = "play of the filament in the tube times its bend: geometry"
SETTINGS = ("retraction.distance",)
STRETCHES = {"passed": "stretches-as-rigid", "note": "stretches-more", "caution": "stretches-much-more"}


def check_pull(case: Case) -> tuple[Finding, ...]:
    """None for a direct drive, for a rigid spool or where nothing is retracted."""
    drive = case.word("machine.drive")
    if drive == "direct" or not case.size("retraction.distance") or switch(case.now, "retraction.on") is False:
        return ()
    if flexible(case) is False:
        return _slack(case) if drive else ()
    if not drive:
        asked = ask("machine.drive")
        return (Finding(STRETCH, "not judged", reason="drive-not-said", ask=asked, settings=SETTINGS),)
    stretch = _stretch(case)
    return (stretch, *_slack(case, stretch.verdict in ("caution", "note")))


def _stretch(case: Case) -> Finding:
    own = modulus(case)
    if own is None:
        asked = ask("spool.material")
        return Finding(STRETCH, "not judged", reason="filament-not-said", ask=asked, settings=SETTINGS)
    ratio = stretch_bracket(case, own)
    verdict: Verdict = "passed" if ratio.high <= AS_RIGID else "caution" if ratio.low >= MANY_TIMES else "note"
    hardness = case.hardness()
    very_soft = hardness is not None and hardness.scale == "A" and hardness.number <= VERY_SOFT_A
    return Finding(
        STRETCH,
        "caution" if very_soft else verdict,
        reason=STRETCHES[verdict],
        also=("very-soft",) if very_soft else (),
        names=(spool_name(case),),
        amounts=(
            *amount("before", case.before("retraction.distance"), "mm"),
            *amount("after", case.size("retraction.distance") or 0.0, "mm"),
            *between("times", ratio),
            *amount("tube", case.quantity("machine.tube_length"), "mm"),
        ),
        source=f"{SOURCE}; modulus: {own.source}; rigid PLA: {rigid_modulus().source}",
        settings=SETTINGS,
    )


def stretch_bracket(case: Case, own: Modulus) -> Bracket:
    """Stored length of the spool's filament over that of rigid PLA, both of one diameter."""
    diameter = case.size("filament.diameter") or 1.75  # the same on both sides: it drops out
    rigid = rigid_modulus().mpa
    return Bracket(
        stored_length_ratio(rigid.low, diameter, own.mpa.high, diameter),
        stored_length_ratio(rigid.high, diameter, own.mpa.low, diameter),
    )


def _slack(case: Case, stretched: bool = False) -> tuple[Finding, ...]:
    """stretched: the strand gives in the tube, which takes up more of the pull than its play does."""
    bore, bend, filament = (
        case.quantity("machine.tube_bore"),
        case.quantity("machine.tube_bend"),
        case.size("filament.diameter"),
    )
    if bore is None or bend is None or filament is None:
        return ()
    slack, now = slack_mm(bore, filament, math.radians(bend)), case.size("retraction.distance") or 0.0
    settings = ("retraction.distance", "filament.diameter")
    if isinstance(slack, NotValid):
        asked = ask("machine.tube_bore")
        return (Finding(SLACK, "not judged", reason="filament-wider-than-tube", ask=asked, settings=settings),)
    verdict, reason = _left(now, slack, stretched)
    return (
        Finding(
            SLACK,
            verdict,
            reason=reason,
            amounts=(
                *amount("before", case.before("retraction.distance"), "mm"),
                *amount("after", now, "mm"),
                *amount("headroom", now - slack if verdict == "passed" else None, "mm"),
                *amount("play", slack, "mm"),
                *amount("left", now - slack if now > slack else None, "mm"),
            ),
            source=SLACK_SOURCE,
            settings=settings,
        ),
    )


def _left(now: float, slack: float, stretched: bool) -> tuple[Verdict, str]:
    if now <= slack:
        return "caution", "play-takes-the-pull"
    return ("note", "play-and-stretch-add") if stretched else ("passed", "play-leaves-a-pull")
