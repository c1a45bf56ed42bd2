"""Words on the first layer: its height and its speed."""

from collections.abc import Mapping

from profilesmith.checks.amounts import shown
from profilesmith.checks.first_layer import FAST_SHARE
from profilesmith.review.findings.said import Numbers, Say, Words

USUAL = (30, 50)
"""Of the outer wall's speed [%]: common practice, no source."""
HEIGHT, SPEED = "First layer's height", "First layer's speed"


def _height(more: str = "") -> Say:
    def say(numbers: Numbers) -> str:
        text = f"It is {numbers['of-nozzle']} of the nozzle's {numbers['nozzle']}"
        # Of a layer one digit more: 130 %, not 1.3e2.
        text += f" and {shown(numbers.number('of-layer'), '%', 3)} of a layer." if numbers.get("of-layer") else "."
        return f"{text} {more}".rstrip()

    return say


def _speed(more: str = "") -> Say:
    def say(numbers: Numbers) -> str:
        share = numbers.number("of-wall")
        usual = "above the usual" if share > USUAL[1] else "below the usual" if share < USUAL[0] else "as usual:"
        text = f"It is {numbers['of-wall']} of the outer wall's speed, {usual} {USUAL[0]} to {USUAL[1]} %."
        near = f"Up to {FAST_SHARE:.0%} passes here; slower sticks better.".replace("%", " %")
        return f"{text} {more or (near if share > USUAL[1] else '')}".rstrip()

    return say


WORDS: Mapping[tuple[str, str], Words] = {
    **{
        ("first-layer-height", reason): Words(HEIGHT, _height(more))
        for reason, more in (
            ("first-layer-pressed", ""),
            ("first-layer-thick", "That is near the most that is still pressed flat."),
            ("first-layer-too-thick", "So thick a first layer is not pressed onto the bed and comes loose."),
            ("first-layer-thin", "Thinner than the others, it forgives little unevenness of the bed."),
        )
    },
    **{
        ("first-layer-speed", reason): Words(SPEED, _speed(more))
        for reason, more in (
            ("first-layer-paced", ""),
            ("first-layer-fast", "A slower first layer sticks better."),
            (
                "first-layer-slow",
                "So slow a nozzle dwells on the bead, heats and drags it, and the flow is uneven.",
            ),
        )
    },
}
