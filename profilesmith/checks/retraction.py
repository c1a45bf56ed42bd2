"""Retraction through a long tube: how much of a pull a soft strand swallows. Compared with rigid PLA, never in mm."""

import math

from profilesmith.checks.amounts import bracket, mm
from profilesmith.checks.case import Case, ask, switch
from profilesmith.checks.finding import amount, not_judged, not_said
from profilesmith.checks.materials import Modulus, flexible, modulus, rigid_modulus, spool_name
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.tube import slack_mm, stored_length_ratio

STRETCH, STRETCH_TITLE = "retraction-stretch", "Retraction through the tube"
SLACK, SLACK_TITLE = "retraction-slack", "Retraction and the tube's play"
# From here on even the stiffest strand of its kind takes up several pulls of a rigid one (own threshold).
MANY_TIMES = 5.0
VERY_SOFT_A = 85  # softer strands often stick in a long tube: common practice, no source
SOURCE = "stored length is inverse to the modulus (elasticity; friction after the capstan equation, arXiv 2012.13353)"
SLACK_SOURCE = "play of the filament in the tube times its bend: geometry"
SETTINGS = ("retraction.distance",)
STRETCHES = {"passed": "stretches-as-rigid", "note": "stretches-more", "caution": "stretches-much-more"}


def check(case: Case) -> tuple[Finding, ...]:
    """None for a direct drive, for a rigid spool or where nothing is retracted."""
    drive = case.word("machine.drive")
    if drive == "direct" or not case.size("retraction.distance") or switch(case.now, "retraction.on") is False:
        return ()
    if flexible(case) is False:
        return _slack(case) if drive else ()
    if not drive:
        return (not_said(STRETCH, STRETCH_TITLE, "how the filament is driven", ask("machine.drive"), SETTINGS),)
    stretch = _stretch(case)
    return (stretch, *_slack(case, stretch.verdict in ("caution", "note")))


def _stretch(case: Case) -> Finding:
    own = modulus(case)
    if own is None:
        reason = "which filament it is"
        return not_said(STRETCH, STRETCH_TITLE, reason, ask("spool.material"), SETTINGS)
    ratio = stretch_bracket(case, own)
    verdict: Verdict = "passed" if ratio.high <= 1.5 else "caution" if ratio.low >= MANY_TIMES else "note"
    text = (
        f"In the same tube {spool_name(case)} stretches {bracket(ratio)} times as far as rigid PLA, so part of each "
        "pull never reaches the melt; a longer pull only stretches it."
    )
    if verdict == "passed":
        text = f"In the same tube {spool_name(case)} stretches about as far as rigid PLA."
    length = case.quantity("machine.tube_length")
    if length is not None and verdict != "passed":
        text += f" It grows with the tube's length ({mm(length)})."
    hardness = case.hardness()
    if hardness is not None and hardness.scale == "A" and hardness.number <= VERY_SOFT_A:
        verdict, text = "caution", f"So soft a strand may not pass a long tube at all: a direct drive is safer. {text}"
    before, now = case.before("retraction.distance"), case.size("retraction.distance") or 0.0
    return Finding(
        STRETCH,
        verdict,
        STRETCH_TITLE,
        text,
        before="" if before is None else mm(before),
        after=mm(now),
        source=f"{SOURCE}; modulus: {own.source}; rigid PLA: {rigid_modulus().source}",
        settings=SETTINGS,
        reason=STRETCHES[verdict],
        amounts=(Amount("times", ratio.low, ratio.high),),
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
        return (not_judged(SLACK, SLACK_TITLE, slack.reason, ask("machine.tube_bore"), settings),)
    before = case.before("retraction.distance")
    finding = Finding(
        SLACK,
        "passed",
        SLACK_TITLE,
        f"The filament first changes sides in the bends, which takes up about {mm(slack)} of a pull.",
        before="" if before is None else mm(before),
        after=mm(now),
        limit=f"more than about {mm(slack)}",
        headroom=mm(now - slack) if now > slack else "",
        source=SLACK_SOURCE,
        settings=settings,
        reason="play-leaves-a-pull",
        amounts=(*amount("play", slack, "mm"), *amount("after", now, "mm")),
    )
    if now > slack and not stretched:
        return (finding,)
    if now > slack:
        left = (
            f"Of a pull of {mm(now)} it leaves {mm(now - slack)}, and from that the stretch of the strand comes off "
            "too."
        )
        text = f"{finding.text} {left}"
        return (finding._replace(verdict="note", text=text, headroom="", reason="play-and-stretch-add"),)
    text = f"{finding.text} The whole pull is lost: a tube that is bored closer loses less."
    return (finding._replace(verdict="caution", text=text, reason="play-takes-the-pull"),)
