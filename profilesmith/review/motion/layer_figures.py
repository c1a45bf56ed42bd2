"""Speed and flow over the layers as figures: of one file, or of two, before and after."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from profilesmith.motion.figures import PREPARATION, Figures
from profilesmith.physics.bead import filament_area_mm2

MOST_POINTS = 200
Points = list[tuple[float, float]]


def layer_figures(
    sides: Sequence[tuple[str, Figures]], diameter_mm: float, limit_mm3_s: float | None
) -> tuple[dict[str, Any], ...]:
    """Two figures. sides: name and role of a file, with its figures; a file whose numbers are doubted is left out."""
    area = filament_area_mm2(diameter_mm)
    limits = [] if limit_mm3_s is None else [{"name": "promised at most", "value": limit_mm3_s}]
    every = [
        _figure("motion-speed", "Fastest laying speed of each layer", "mm/s", sides, _speeds, []),
        _figure("motion-flow", "Largest flow of each layer", "mm³/s", sides, lambda one: _flows(one, area), limits),
    ]
    return tuple(figure for figure in every if figure["series"])


def _figure(
    name: str,
    title: str,
    unit: str,
    sides: Sequence[tuple[str, Figures]],
    points: Callable[[Figures], Points],
    limits: list[dict[str, Any]],
) -> dict[str, Any]:
    series = [
        {"name": role, "role": role if role in ("before", "after") else "", "points": points(one)}
        for role, one in sides
    ]
    return {
        "id": name,
        "title": title,
        "kind": "line",
        "unit": unit,
        "series": [item for item in series if len(item["points"]) > 1],
        "limits": limits,
        "marks": [],
        "note": "Read from the motion file, as ordered; over 1 mm of path where it is a flow.",
        "x_name": "height",
        "x_unit": "mm",
        "y_name": unit,
    }


def _speeds(figures: Figures) -> Points:
    if any(set(doubt.subjects) & {"speed", "height"} for doubt in figures.doubts):
        return []
    points = []
    for layer in figures.layers:
        speeds = [held.top_speed for kind, held in layer.kinds.items() if kind != PREPARATION]
        if speeds:
            points.append((layer.z, round(max(speeds), 3)))
    return _thinned(points)


def _flows(figures: Figures, area: float) -> Points:
    if any(set(doubt.subjects) & {"speed", "height", "strand", "path"} for doubt in figures.doubts):
        return []
    return _thinned([(z, round(flow * area, 3)) for z, flow in sorted(figures.layer_flows.items())])


def _thinned(points: Points) -> Points:
    """At most MOST_POINTS: of neighbours the highest, so that no peak is lost."""
    step = -(-len(points) // MOST_POINTS) or 1
    return [max(points[at : at + step], key=lambda point: point[1]) for at in range(0, len(points), step)]
