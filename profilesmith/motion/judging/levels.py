"""Which layers are the part's, and what lies below them."""

from collections.abc import Sequence

from profilesmith.motion.figures import PREPARATION, Figures, Layer

PART = frozenset({"outer_wall", "inner_wall", "infill", "top", "bottom", "closing", "bridge"})
BESIDE = frozenset({PREPARATION})
# A stroke to prime the nozzle is far less than a layer of any part [common practice, no source].
PRIMING_SHARE = 0.2
RESUMED_MM = 2.0  # no first layer is thicker than this


def laid_layers(figures: Figures) -> list[Layer]:
    """All layers by height, without what only primes the nozzle."""
    layers = [layer for layer in figures.layers if any(kind not in BESIDE for kind in layer.kinds)]
    while len(layers) > 2 and _primes(layers[0], layers[1]):
        del layers[0]
    return [layer for at, layer in enumerate(layers) if not (at and _stray(layer, layers))]


def quickest_layer(layers: Sequence[Layer]) -> Layer:
    """The one that takes least time, by the slow end of its bracket; of several that are alike, the lowest.

    Two ways to add up differ in the last digits: they must not name two layers.
    """
    least = min(layer.slow for layer in layers) * (1 + 1e-9)
    return next(layer for layer in layers if layer.slow <= least)


def _primes(layer: Layer, above: Layer) -> bool:
    """It was laid first, in one or two strokes, and the next level is no whole layer above it."""
    sums = layer.sums()
    return (
        layer.order == 0
        and sum(held.stretches for held in sums) <= 2
        and sum(held.length for held in sums) < PRIMING_SHARE * sum(held.length for held in above.sums())
        and above.z - layer.z < 0.5 * layer.z
    )


def _stray(layer: Layer, layers: list[Layer]) -> bool:
    """Laid before everything else and above it: a stroke at the nozzle's own height before the first layer."""
    return layer.order == 0 and layer is not layers[0] and sum(held.stretches for held in layer.sums()) <= 2


def part_layers(figures: Figures) -> list[Layer]:
    """Those that hold lines of the part, where kinds are known; else all that were laid."""
    layers = laid_layers(figures)
    if not figures.kinds_told:
        return layers
    return [layer for layer in layers if any(kind in PART for kind in layer.kinds)]


def resumed(figures: Figures) -> bool:
    """The file begins in the middle of a print: the first thing that it lays is high above the bed."""
    layers = laid_layers(figures)
    return bool(layers) and layers[0].z > RESUMED_MM


def with_kind(figures: Figures, kind: str) -> list[Layer]:
    return [layer for layer in laid_layers(figures) if kind in layer.kinds]


def step_above_raft(figures: Figures) -> float | None:
    """From the raft's top to the part's lowest layer, mm: gap and layer together. None without either."""
    rafts = with_kind(figures, "raft")
    above = [layer for layer in part_layers(figures) if rafts and layer.z > rafts[-1].z]
    return above[0].z - rafts[-1].z if above else None


def spiral(figures: Figures) -> bool:
    """Most of it is laid while rising."""
    laid = sum(held.length for layer in figures.layers for held in layer.sums(BESIDE))
    return laid > 0 and sum(layer.sloped for layer in figures.layers) > 0.3 * laid
