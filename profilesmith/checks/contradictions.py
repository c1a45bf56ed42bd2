"""Settings that contradict each other: each is fine alone, together one of them is idle or spoils the other."""

from collections.abc import Callable, Mapping

from profilesmith.checks.amounts import mm, shown
from profilesmith.checks.case import Case, number, switch
from profilesmith.ledger.judgement import Finding, Verdict
from profilesmith.profile.profile import Profile

TITLE = "Settings that do not go together"
Fault = tuple[Verdict, str, str, tuple[str, ...]] | None
"""Verdict, title, text, settings."""


def check(case: Case) -> tuple[Finding, ...]:
    """One finding for each contradiction; one that passed when there is none."""
    found = [
        Finding(f"together-{name}", *fault[:3], settings=fault[3], source="common practice, no source")
        for name, rule in RULES.items()
        if (fault := rule(case.now)) is not None
    ]
    if found:
        return tuple(found)
    return (
        Finding(
            "together", "passed", TITLE, "No two settings contradict each other.", source="own list of contradictions"
        ),
    )


def _fan(profile: Profile) -> Fault:
    least, usual = number(profile, "fan.minimum_power"), number(profile, "fan.power")
    if least is None or usual is None or least <= usual:
        return None
    text = f"The least is {shown(least, '%')}, the usual one {shown(usual, '%')}."
    return "caution", "The fan's least power is above its usual one", text, ("fan.minimum_power", "fan.power")


def _raft_and_brim(profile: Profile) -> Fault:
    if not (switch(profile, "raft.on") and switch(profile, "brim.on")):
        return None
    return "note", "Raft and brim are both on", "A part on a raft needs no brim.", ("raft.on", "brim.on")


def _fused_raft(profile: Profile) -> Fault:
    if not switch(profile, "raft.on") or number(profile, "raft.gap") != 0:
        return None
    text = "The two fuse, and a soft part tears when the raft is pulled off."
    return "caution", "The raft has no gap to the part", text, ("raft.on", "raft.gap")


def _empty_raft(profile: Profile) -> Fault:
    if not switch(profile, "raft.on") or number(profile, "raft.layers") != 0:
        return None
    text = "A raft of no layers is none. Give it layers, or turn it off."
    return "caution", "The raft is on but has no layers", text, ("raft.on", "raft.layers")


def _fused_support(profile: Profile) -> Fault:
    if switch(profile, "support.on") is False or number(profile, "support.gap") != 0:
        return None
    text = "The two fuse. That is meant for support of another plastic only."
    return "note", "Support has no gap to the part", text, ("support.gap",)


def _empty_support(profile: Profile) -> Fault:
    if not switch(profile, "support.on") or number(profile, "support.density") != 0:
        return None
    text = "It holds nothing up. Give it a density, or turn it off."
    return "caution", "Support is on but has a density of 0 %", text, ("support.on", "support.density")


def _loose_contact(profile: Profile) -> Fault:
    below, contact, layers = (
        number(profile, f"support.{name}") for name in ("density", "contact_density", "contact_layers")
    )
    if below is None or contact is None or contact >= below or layers == 0 or switch(profile, "support.on") is False:
        return None
    text = f"With {shown(contact, '%')} they are more open than the support below ({shown(below, '%')})."
    return "note", "The support's contact layers are open", text, ("support.contact_density", "support.density")


def _empty_brim(profile: Profile) -> Fault:
    if not switch(profile, "brim.on") or number(profile, "brim.width") != 0:
        return None
    return "note", "The brim is on but has a width of 0 mm", "A brim of no width is none.", ("brim.on", "brim.width")


def _idle_retraction(profile: Profile) -> Fault:
    if not switch(profile, "retraction.on") or number(profile, "retraction.distance") != 0:
        return None
    text = "So nothing is pulled back."
    return "note", "Retraction is on but pulls 0 mm", text, ("retraction.on", "retraction.distance")


def _hollow(profile: Profile) -> Fault:
    if number(profile, "wall.count") != 0 or number(profile, "infill.density") != 0:
        return None
    return "caution", "No walls and no filling", "Only closing layers are laid.", ("wall.count", "infill.density")


def _gap_below_layer(profile: Profile) -> Fault:
    gap, height = number(profile, "support.gap"), number(profile, "layer.height")
    if gap is None or height is None or not 0 < gap < height / 2 or switch(profile, "support.on") is False:
        return None
    text = f"A gap of {mm(gap)} with layers of {mm(height)} may be rounded to nothing."
    return "note", "The support's gap is less than half a layer", text, ("support.gap", "layer.height")


RULES: Mapping[str, Callable[[Profile], Fault]] = {
    "fan": _fan,
    "raft-brim": _raft_and_brim,
    "raft-gap": _fused_raft,
    "raft-layers": _empty_raft,
    "support-gap": _fused_support,
    "support-density": _empty_support,
    "support-contact": _loose_contact,
    "brim-width": _empty_brim,
    "retraction": _idle_retraction,
    "hollow": _hollow,
    "support-layer": _gap_below_layer,
}
