"""Outside checks of bends, paint, faces, layers, slopes and lines."""

from __future__ import annotations

from fractions import Fraction

from profilesmith.physics import bending, infill, skins, surface
from profilesmith.physics.answer import Bracket
from tests.physics import oracle_shapes, oracle_solvers, oracles
from tests.physics.outside_check import OTHER_CODE, OTHER_LAW, PUBLISHED, OutsideCheck, point

_MANDRELS_MM = (25.4, 19.05, 12.7, 9.525, 6.35, 3.175)
_SKINS = ((3, "0.2", "0.2"), (3, "0.2", "0.1"), (4, "0.2", "0.12"), (3, "0.28", "0.12"), (5, "0.2", "0.15"))
_LEANS = (30, 45, 60)


def _low(held: object) -> float:
    return held.low if isinstance(held, Bracket) else float("nan")


def _high(held: object) -> float:
    return held.high if isinstance(held, Bracket) else float("nan")


def _walls(wanted: float) -> float:
    """Beads laid side by side, by shapely, until the wall is thick enough."""
    spacing_mm = oracle_shapes.bead(0.45, 0.2).area / 0.2
    return next(float(n) for n in range(1, 20) if oracle_shapes.wall_width(n, 0.45, 0.2, spacing_mm) >= wanted - 1e-6)


def _span(pattern: str) -> list[float]:
    held = infill.free_span_mm(pattern, 0.45, 0.15)
    return [held.low, held.high]


ROWS = (
    OutsideCheck(
        "elongation over six mandrels [%]",
        ("bending.mandrel_elongation_share",),
        lambda: [100 * bending.mandrel_elongation_share(0.79375, 0.0254, d) for d in _MANDRELS_MM],
        (3.3, 4.4, 6.75, 9.0, 14.0, 28.0),
        0.06,
        "ASTM D522/D522M method B, table for 25 um (its own rounding; our fit is up to 5 % low)",
        PUBLISHED,
    ),
    OutsideCheck(
        "stretch of the outside at a bend",
        ("bending.outer_strain_share",),
        lambda: [point(bending.outer_strain_share(t, r)) for t, r in ((2, 20), (1.2, 10), (3, 15))],
        lambda: [oracle_shapes.arc_strain(t, 0, r) for t, r in ((2, 20), (1.2, 10), (3, 15))],
        1e-7,
        "shapely, lengths of two arcs",
        OTHER_CODE,
    ),
    OutsideCheck(
        "stretch of a coating, pure bending",
        ("bending.coating_strain_bracket",),
        lambda: (_low(bending.coating_strain_bracket(2, 0.05, 20)),),
        lambda: (oracle_shapes.arc_strain(2, 0.05, 20),),
        1e-7,
        "shapely, lengths of two arcs",
        OTHER_CODE,
    ),
    OutsideCheck(
        "sharpest bend within 5 and 3.3 % [mm]",
        ("bending.smallest_inner_radius_mm",),
        lambda: [point(bending.smallest_inner_radius_mm(2, e)) for e in (0.05, 0.033)],
        lambda: [
            oracle_solvers.solve(lambda r, e=e: oracle_shapes.arc_strain(2, 0, r) - e, 2, 99) for e in (0.05, 0.033)
        ],
        1e-6,
        "scipy, root of shapely's arcs",
        OTHER_CODE,
    ),
    OutsideCheck(
        "sharpest painted bend, stretch 12 % halved [mm]",
        ("bending.coated_radius_bracket_mm",),
        lambda: (_low(bending.coated_radius_bracket_mm(1.8, 0.05, 0.06)),),
        lambda: (oracle_solvers.solve(lambda r: oracle_shapes.arc_strain(1.8, 0.05, r) - 0.06, 2, 99),),
        1e-6,
        "scipy, root of shapely's arcs",
        OTHER_CODE,
    ),
    OutsideCheck(
        "painted bends of a standard's mandrels [mm]",
        ("bending.coated_radius_bracket_mm",),
        lambda: [_high(bending.coated_radius_bracket_mm(0.79375, 0.0254, e)) for e in (0.033, 0.0675, 0.14)],
        (12.7, 6.35, 3.175),
        0.06,
        "ASTM D522/D522M method B, table for 25 um, read backwards",
        PUBLISHED,
    ),
    OutsideCheck(
        "plate of 0.8 mm, 13 MPa [N mm]",
        ("infill.plate_stiffness_n_mm",),
        lambda: (infill.plate_stiffness_n_mm(13, 0.8, 0.5),),
        (0.7395556,),
        1e-6,
        "E t^3 / (12 (1 - nu^2)), Timoshenko & Woinowsky-Krieger 1959, worked by hand",
        PUBLISHED,
    ),
    OutsideCheck(
        "dent of a clamped strip of 9 mm [mm]",
        ("infill.face_dent_mm",),
        lambda: (_high(infill.face_dent_mm(0.01, 9, 13, 0.8)),),
        lambda: (oracle_solvers.strip_dent(0.01, 9, 0.7395556),),
        1e-6,
        "scipy, boundary value problem of D w'''' = p",
        OTHER_CODE,
    ),
    OutsideCheck(
        "dent of a clamped square of 9 mm [mm]",
        ("infill.face_dent_mm",),
        lambda: (_low(infill.face_dent_mm(0.01, 9, 13, 0.8)),),
        lambda: (oracle_solvers.square_dent(0.01, 9, 0.7395556),),
        0.01,
        "scipy, finite differences of the biharmonic equation",
        OTHER_CODE,
    ),
    OutsideCheck(
        "free span of crossed lines at 15 % [mm]",
        ("free span of a grid",),
        lambda: _span("grid"),
        lambda: [oracle_shapes.widest_circle((0, 90), 0.45, 0.15)] * 2,
        1e-3,
        "shapely, largest circle in a cell",
        OTHER_CODE,
    ),
    OutsideCheck(
        "free span of triangles at 15 % [mm]",
        ("free span of triangles",),
        lambda: _span("triangles"),
        lambda: [oracle_shapes.widest_circle((0, 60, 120), 0.45, 0.15)] * 2,
        1e-3,
        "shapely, largest circle in a cell",
        OTHER_CODE,
    ),
    OutsideCheck(
        "free span of cubic filling at 15 % [mm]",
        ("free span of cubic filling",),
        lambda: _span("cubic"),
        lambda: [oracle_shapes.widest_circle((0, 60, 120), 0.45, 0.15, shift) for shift in (0.0, 0.5)],
        1e-3,
        "shapely, largest circle where the three sets meet in a point and where they do not",
        OTHER_CODE,
    ),
    OutsideCheck(
        "free span of hexagons at 15 % [mm]",
        ("free span of hexagons",),
        lambda: _span("hexagons"),
        lambda: [oracle_shapes.hexagon_circle(0.45, 0.15)] * 2,
        0.06,
        "shapely, honeycomb of walls one bead thick (ours is for thin walls)",
        OTHER_CODE,
    ),
    OutsideCheck(
        "free span of a gyroid at 15 % [mm]",
        ("free span of a gyroid", "infill.free_span_mm"),
        lambda: _span("gyroid"),
        lambda: sorted(span * oracle_solvers.gyroid_area() * 0.45 / 0.15 for span in oracle_solvers.gyroid_spans()),
        0.02,
        "scipy, distance transform of level cuts",
        OTHER_CODE,
    ),
    OutsideCheck(
        "free span of lines at 15 % [mm]",
        ("infill.line_spacing_mm", "free span of lines"),
        lambda: (infill.line_spacing_mm(0.45, 0.15), infill.free_span_mm("lines", 0.45, 0.15).high),
        lambda: (oracle_solvers.solve(lambda s: 0.45 / s - oracle_shapes.covered_share(0.45, 3.0), 1, 9),) * 2,
        1e-6,
        "shapely, covered area of a plate",
        OTHER_CODE,
    ),
    OutsideCheck(
        "density of lines 3 and 4.5 mm apart",
        ("infill.density_at_spacing_share",),
        lambda: [infill.density_at_spacing_share(0.45, s) for s in (3.0, 4.5)],
        lambda: [oracle_shapes.covered_share(0.45, s) for s in (3.0, 4.5)],
        1e-9,
        "shapely, covered area of a plate",
        OTHER_CODE,
    ),
    OutsideCheck(
        "groove between layers of an upright wall [mm]",
        ("surface.wall_valley_mm",),
        lambda: (surface.wall_valley_mm(0.2),),
        lambda: (oracle_shapes.valley_depth(0.2),),
        0.03,
        "shapely, two beads stacked (its corners round the tip)",
        OTHER_CODE,
    ),
    OutsideCheck(
        "steps of slopes of 30, 45, 60° [mm]",
        ("surface.stair_cusp_mm",),
        lambda: [surface.stair_cusp_mm(0.2, lean) for lean in _LEANS],
        lambda: [oracle_shapes.stair_depth(0.2, lean) for lean in _LEANS],
        1e-9,
        "shapely, corner to slope; formula: Dolenc & Makela 1994 [from memory]",
        OTHER_CODE,
    ),
    OutsideCheck(
        "beads for walls of 0.9, 1.2, 1.7 mm",
        ("surface.beads_for_thickness",),
        lambda: [float(surface.beads_for_thickness(t, 0.45, 0.2)) for t in (0.9, 1.2, 1.7)],
        lambda: [_walls(t) for t in (0.9, 1.2, 1.7)],
        0,
        "shapely, beads laid until thick enough",
        OTHER_CODE,
    ),
    OutsideCheck(
        "what sanding leaves of 1.26 mm [mm]",
        ("surface.thickness_left_mm",),
        lambda: [surface.thickness_left_mm(1.26, off) for off in (0.3, 1.5)],
        lambda: [max(0.0, float(Fraction("1.26") - Fraction(off))) for off in ("0.3", "1.5")],
        1e-12,
        "fractions",
        OTHER_CODE,
    ),
    OutsideCheck(
        "what rests of a bead on slopes",
        ("surface.overlap_share",),
        lambda: [surface.overlap_share(0.45, 0.2, lean) for lean in _LEANS],
        lambda: [oracle_shapes.resting_share(0.45, 0.2, lean) for lean in _LEANS],
        1e-9,
        "shapely, overlap of two boxes",
        OTHER_CODE,
    ),
    OutsideCheck(
        "slope on which half a bead rests [°]",
        ("surface.angle_at_overlap_deg",),
        lambda: (surface.angle_at_overlap_deg(0.45, 0.2, 0.5),),
        lambda: (oracle_solvers.solve(lambda a: oracle_shapes.resting_share(0.45, 0.2, a) - 0.5, 1, 60),),
        1e-9,
        "scipy, root of shapely's overlap",
        OTHER_CODE,
    ),
    OutsideCheck(
        "step of a 45° overhang [mm]",
        ("surface.step_over_mm",),
        lambda: (point(surface.step_over_mm(0.2, 45)),),
        (0.2,),
        1e-9,
        "triangle with two equal sides",
        OTHER_LAW,
    ),
    OutsideCheck(
        "layers of the same thickness",
        ("skins.layers_for_same_thickness",),
        lambda: [skins.layers_for_same_thickness(n, Fraction(old), Fraction(new)) for n, old, new in _SKINS],
        lambda: [oracles.counted_layers(n, old, new) for n, old, new in _SKINS],
        0,
        "decimal, adding layers until thick enough",
        OTHER_CODE,
    ),
    OutsideCheck(
        "layers for 0.6 and 0.8 mm with a first layer of 0.24 mm",
        ("skins.layers_for_thickness",),
        lambda: [skins.layers_for_thickness(Fraction(t), Fraction("0.12"), Fraction("0.24")) for t in ("0.6", "0.8")],
        lambda: [1 + oracles.counted_layers(1, t, "0.12") for t in ("0.36", "0.56")],
        0,
        "decimal, adding layers until thick enough",
        OTHER_CODE,
    ),
    OutsideCheck(
        "thickness of skins of 1, 4, 7 layers [mm]",
        ("skins.skin_thickness",),
        lambda: [float(skins.skin_thickness(n, Fraction("0.12"), Fraction("0.24"))) for n in (1, 4, 7)],
        lambda: [oracles.stacked("0.24", "0.12", n) for n in (1, 4, 7)],
        1e-12,
        "decimal, layers added one by one",
        OTHER_CODE,
    ),
    OutsideCheck(
        "until a slab warmed from one side is warm through [s]",
        ("bending.warm_through_s",),
        lambda: [bending.warm_through_s(t, 0.1) for t in (1.2, 1.8, 4)],
        lambda: [oracle_solvers.warm_through(t, 0.1) for t in (1.2, 1.8, 4)],
        0.005,
        "numpy, heat conduction in 200 slices as an eigenvalue problem",
        OTHER_CODE,
    ),
    OutsideCheck(
        "stretch from which a groove grows",
        ("bending.growth_strain_share",),
        lambda: [bending.growth_strain_share(0.05, c, e) for c, e in ((0.1, 27), (0.05, 13), (0.16, 54))],
        lambda: [oracle_solvers.growth_strain(0.05, c, e) for c, e in ((0.1, 27), (0.05, 13), (0.16, 54))],
        0.01,
        "scipy, Bueckner's weight function of an edge crack integrated (1970, its constants from memory)",
        OTHER_LAW,
    ),
)
