"""Words on beads and layers: against the nozzle, the first of them, their time and air, taking the part off; on
what closes the part, what hangs, and what holds it up.
"""

from collections.abc import Mapping

from profilesmith.checks.amounts import few, shown
from profilesmith.checks.sizes import FAST_SHARE
from profilesmith.foundation.words import plural
from profilesmith.review.findings import Numbers, Say, Words, fixed

SIDES = {"skin-top": "Closing layers above", "skin-bottom": "Closing layers below"}
STATES = ("none", "thin", "closed")


def _skin(numbers: Numbers) -> str:
    parts = [f"{_layers(numbers, 'layers')} {'makes' if numbers.number('layers') == 1 else 'make'} {numbers['after']}."]
    if numbers.number("after") == 0:
        parts = ["No closing layers: the filling stays open to this side."]
    elif numbers.get("layers-to-close"):
        more = f"{_layers(numbers, 'layers-to-close')} would make at least {numbers['least']}."
        parts.append(f"So thin a skin may show holes; {more}")
    if numbers.get("layers-as-before"):
        more = f"{_layers(numbers, 'layers-as-before')} would keep it."
        parts.append(f"That is thinner than the {numbers['before']} it was; {more}")
    return " ".join(parts)


def _layers(numbers: Numbers, name: str) -> str:
    return plural(round(numbers.number(name)), "layer")


def _rests(numbers: Numbers) -> str:
    return (
        f"On a face that leans {numbers['lean']} from the vertical, {numbers['after']} of the bead "
        "rests on the one below."
    )


def _droops(numbers: Numbers) -> str:
    help_ = f"let support begin at {numbers['better-lean']} or lay thinner layers."
    return f"{_rests(numbers)} Less than a quarter droops easily: {help_}"


_FACES: Mapping[tuple[str, str], Words] = {
    **{
        (check, f"skin-{state}{more}"): Words(title, _skin)
        for check, title in SIDES.items()
        for state in STATES
        for more in ("", "-thinner")
    },
    ("overhang", "overhang-rests"): Words("Overhang without support", _rests),
    ("overhang", "overhang-droops"): Words("Overhang without support", _droops),
}


TITLE = "Distance between support lines"
SUPPORTS_OFF = "Supports are off here: it counts once you turn them on."


def _sags(what: str, contact: bool = False, off: bool = False) -> Say:
    def say(numbers: Numbers) -> str:
        text = (
            f"{what} sags between lines so far apart. At {numbers['enough-density']} they would stand "
            f"{numbers['most']} "
            "apart."
        )
        text += f" The {round(numbers.number('contact-layers'))} contact layers between help." if contact else ""
        return f"{text} {SUPPORTS_OFF}" if off else text

    return say


def _parallel(numbers: Numbers) -> str:
    return (
        "Close enough if the lines run in one direction; in a crossed pattern they stand "
        f"{few(numbers.number('crossed'))} mm apart. Look at your text's pattern, or lay contact layers between: they "
        "carry the face."
    )


_SUPPORTS: Mapping[tuple[str, str], Words] = {
    ("support-spacing", "softness-not-said"): Words(
        TITLE,
        fixed("nobody said whether the spool is soft"),
        asked=True,
        known=lambda n: f"The lines of a support stand {n['after']} apart.",
    ),
    ("support-spacing", "lines-close"): Words(TITLE, fixed("Close enough that an underside stays level.")),
    ("support-spacing", "lines-close-if-parallel"): Words(TITLE, _parallel),
    **{
        ("support-spacing", f"{reason}{contact}{off}"): Words(TITLE, _sags(what, bool(contact), bool(off)))
        for reason, what in (("soft-sags-between-lines", "A soft underside"), ("sags-between-lines", "An underside"))
        for contact in ("", "-contact")
        for off in ("", "-off")
    },
}


_CLOSING: Mapping[tuple[str, str], Words] = {**_FACES, **_SUPPORTS}


LAYER, BEAD, FIRST = "Layer height and nozzle", "Bead width and nozzle", "First layer's height"
NEEDS_A_NOZZLE = (("layer-height", LAYER), ("bead-width", BEAD), ("first-layer-height", FIRST))
NOT_SAID = "nobody said how wide the nozzle is"


def _layer(more: str = "") -> Say:
    return lambda n: f"Layers are {n['of-nozzle']} of the nozzle's {n['nozzle']}. {more}".rstrip()


def _bead(more: str = "") -> Say:
    return lambda n: f"Beads are {shown(n.number('of-nozzle'), '%', 3)} of the nozzle's {n['nozzle']}. {more}".rstrip()


def _below_layer(numbers: Numbers) -> str:
    return (
        f"A bead of {numbers['narrowest']} is narrower than its layer is high ({numbers['layer']}): "
        "it is not pressed flat "
        "and holds badly."
    )


def _two_nozzles(numbers: Numbers) -> str:
    return f"the text is for a nozzle of {numbers['in-the-text']} and the facts name one of {numbers['fitted']}"


_SIZES: Mapping[tuple[str, str], Words] = {
    **{
        ("layer-height", reason): Words(LAYER, _layer(more))
        for reason, more in (
            ("layer-pressed", ""),
            ("layer-too-thick", "So thick a layer is hardly pressed onto the one below: layers part easily."),
            ("layer-thick", "That is near the most that is still pressed flat."),
            ("layer-thin", "So thin a layer is hard to lay evenly, and the print takes longer in proportion."),
        )
    },
    **{
        ("bead-width", reason): Words(BEAD, _bead(more))
        for reason, more in (
            ("bead-usual", ""),
            ("bead-too-wide", "The plastic does not flow that far to the sides: beads stay apart."),
            ("bead-unusual", "Usual are 100 to 150 %: look at a first wall before you print on."),
        )
    },
    ("bead-width", "bead-below-layer"): Words(BEAD, _below_layer),
    **{(check, "nozzle-not-said"): Words(title, fixed(NOT_SAID), asked=True) for check, title in NEEDS_A_NOZZLE},
    **{(check, "two-nozzles"): Words(title, _two_nozzles) for check, title in NEEDS_A_NOZZLE},
}


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


_FIRST_LAYER: Mapping[tuple[str, str], Words] = {
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


TIME, BRIDGE, OFF = "Time for a layer to set", "Fan on bridges", "Taking the part off"


def _bare_bed(numbers: Numbers) -> str:
    name = numbers.names[0]
    return (
        f"{name[:1].upper()}{name[1:]} may hold a smooth bed so hard that peeling tears the part or "
        "the bed's face. Put a "
        "release layer on it that suits the surface, or print on a raft, and let it cool before you peel."
    )


_LAYERS: Mapping[tuple[str, str], Words] = {
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


_BEADS: Mapping[tuple[str, str], Words] = {**_SIZES, **_FIRST_LAYER, **_LAYERS}
WORDS: Mapping[tuple[str, str], Words] = {**_BEADS, **_CLOSING}
