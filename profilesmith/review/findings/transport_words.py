"""Words on pushing and pulling the filament: buckling below the gears, stretch and play in a tube."""

from collections.abc import Mapping

from profilesmith.review.findings.said import Numbers, Say, Words, begun, fixed, sentences

PUSH, PULL, PLAY = "Pushing the filament", "Retraction through the tube", "Retraction and the tube's play"
FILAMENT = "nobody said which filament it is"
VERY_SOFT = "So soft a strand may not pass a long tube at all: a direct drive is safer."
SQUEEZE = "Soft strands squeeze out of such gaps all the same (common practice): see that the path from gear to nozzle"


def _buckles(numbers: Numbers) -> str:
    return (
        f"Where nothing guides it, {numbers.names[0]} buckles at {numbers['after']} of the force that rigid PLA "
        "withstands."
    )


def _push(more: Say) -> Words:
    return Words(PUSH, lambda n: sentences(_buckles(n), more(n)), short=_push_short)


def _push_short(numbers: Numbers) -> dict[str, str]:
    return {"after": f"{numbers['after']} of rigid PLA"}


def _room(numbers: Numbers) -> str:
    return f"In your gap of {numbers['gap']} it has room to do so: close the path, or lay slowly."


def _stretches(numbers: Numbers) -> str:
    text = f"In the same tube {numbers.names[0]} stretches {numbers['times']} times as far as rigid PLA"
    tube = f"It grows with the tube's length ({numbers['tube']})." if numbers.get("tube") else ""
    return sentences(f"{text}, so part of each pull never reaches the melt; a longer pull only stretches it.", tube)


def _pull(say: Say) -> Words:
    return Words(PULL, lambda n: sentences(VERY_SOFT if "very-soft" in n.also else "", say(n)))


def _play(more: Say) -> Words:
    def say(numbers: Numbers) -> str:
        first = f"The filament first changes sides in the bends, which takes up about {numbers['play']} of a pull."
        return sentences(first, more(numbers))

    return Words(PLAY, say, short=lambda n: {"limit": f"more than about {n['play']}"})


def _adds(numbers: Numbers) -> str:
    left = f"Of a pull of {numbers['after']} it leaves {numbers['left']}"
    return f"{left}, and from that the stretch of the strand comes off too."


WORDS: Mapping[tuple[str, str], Words] = {
    ("buckling", "filament-not-said"): Words(PUSH, fixed(FILAMENT), asked=True),
    ("buckling", "stands-as-rigid"): Words(
        PUSH, lambda n: begun(f"{n.names[0]} stands about the push of rigid PLA."), short=_push_short
    ),
    ("buckling", "buckles-unguided"): _push(fixed("Slow, even laying keeps the push small.")),
    ("buckling", "no-gap"): _push(fixed("Your machine leaves it no gap in which it could.")),
    ("buckling", "gap-to-buckle-in"): _push(_room),
    ("buckling", "gap-too-short"): Words(
        PUSH,
        lambda n: f"a gap of {n['gap']} is too short for the theory of a slender column",
        known=lambda n: f"{_buckles(n)} {SQUEEZE} is closed.",
        short=_push_short,
    ),
    ("retraction-stretch", "drive-not-said"): Words(PULL, fixed("nobody said how the filament is driven"), asked=True),
    ("retraction-stretch", "filament-not-said"): Words(PULL, fixed(FILAMENT), asked=True),
    ("retraction-stretch", "stretches-as-rigid"): _pull(
        lambda n: f"In the same tube {n.names[0]} stretches about as far as rigid PLA."
    ),
    ("retraction-stretch", "stretches-more"): _pull(_stretches),
    ("retraction-stretch", "stretches-much-more"): _pull(_stretches),
    ("retraction-slack", "filament-wider-than-tube"): Words(
        PLAY, fixed("the filament is thicker than the inside of the tube")
    ),
    ("retraction-slack", "play-leaves-a-pull"): _play(fixed("")),
    ("retraction-slack", "play-and-stretch-add"): _play(_adds),
    ("retraction-slack", "play-takes-the-pull"): _play(
        fixed("The whole pull is lost: a tube that is bored closer loses less.")
    ),
}
