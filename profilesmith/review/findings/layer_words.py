"""Words on a layer's time and air, and on taking the part off."""

from collections.abc import Mapping

from profilesmith.review.findings.said import Numbers, Words, fixed

TIME, BRIDGE, OFF = "Time for a layer to set", "Fan on bridges", "Taking the part off"


def _bare_bed(numbers: Numbers) -> str:
    name = numbers.names[0]
    return (
        f"{name[:1].upper()}{name[1:]} may hold a smooth bed so hard that peeling tears the part or "
        "the bed's face. Put a "
        "release layer on it that suits the surface, or print on a raft, and let it cool before you peel."
    )


WORDS: Mapping[tuple[str, str], Words] = {
    ("cooling-time", "time-to-set"): Words(TIME, lambda n: f"A layer takes at least {n['after']}."),
    ("cooling-time", "time-for-rigid-only"): Words(
        TIME,
        lambda n: (
            f"A layer takes at least {n['after']}. That is enough for rigid plastic; a soft one wants {n['soft']}."
        ),
    ),
    ("cooling-time", "too-little-time-to-set"): Words(
        TIME,
        lambda n: (
            f"A layer takes at least {n['after']}. A small layer is still warm when the next one comes "
            "and gives way under "
            "the nozzle: raise it, or print several parts at once."
        ),
    ),
    ("cooling-bridges", "bridges-cooled"): Words(BRIDGE, fixed("Bridges get at least the air that other beads get.")),
    ("cooling-bridges", "bridges-less-air"): Words(
        BRIDGE,
        lambda n: (
            f"Bridges get less air ({n['after']}) than other beads ({n['least']}), though they hang free: they sag."
        ),
    ),
    ("release", "on-a-raft"): Words(
        OFF, fixed("Let the part cool, and bend the raft away from it, not the part from the raft.")
    ),
    ("release", "on-a-bare-bed"): Words(OFF, _bare_bed),
}
