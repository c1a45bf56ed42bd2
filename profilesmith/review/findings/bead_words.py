"""Words on layer and bead against the nozzle."""

from collections.abc import Mapping

from profilesmith.checks.amounts import shown
from profilesmith.review.findings.said import Numbers, Say, Words, fixed

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


WORDS: Mapping[tuple[str, str], Words] = {
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
