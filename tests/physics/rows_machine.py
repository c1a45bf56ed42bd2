"""Outside checks of what the machine does: units, bead, moves, transport and melt."""

from __future__ import annotations

import math
from fractions import Fraction

from profilesmith.foundation.quantity import UNITS
from profilesmith.physics import bead, feed_path, melt, moves
from tests.physics import oracle_shapes, oracle_solvers, oracles
from tests.physics.outside_check import OTHER_CODE, PUBLISHED, OutsideCheck, point

_BEADS = ((0.45, 0.2), (0.48, 0.3), (0.42, 0.1))
_STRAND = 1.75
_LENGTHS = (1e-3, 0.1, 1.0, 10.0, 1e5)


def _in_canonical(number: str, unit: str) -> float:
    return float(UNITS[unit].to_canonical(Fraction(number)))


def _our_units() -> tuple[float, ...]:
    given = (("1", "in"), ("446", "°F"), ("3600", "mm/min"), ("1", "psi"), ("1", "kg"))
    inch, hot, fast, psi, kilo = (_in_canonical(*one) for one in given)
    return inch, hot, float(UNITS["cm3/h"].from_canonical(Fraction(5))), fast, psi * 1e6, kilo


def _pint_units() -> tuple[float, ...]:
    import pint

    u = pint.UnitRegistry()
    return (
        float((1 * u.inch).to("mm").magnitude),
        float(u.Quantity(446, "degF").to("degC").magnitude),
        float((5 * u.mm**3 / u.s).to("cm^3/hour").magnitude),
        float((3600 * u.mm / u.min).to("mm/s").magnitude),
        float((1 * u.psi).to("Pa").magnitude),
        float((1 * u.kg).to("g").magnitude),
    )


def _pint_length() -> tuple[float, ...]:
    import pint

    u = pint.UnitRegistry()
    area = oracle_shapes.bead(_STRAND, _STRAND * (1 - 1e-12)).area * u.mm**2
    return (float((1 * u.kg / (1.24 * u.g / u.cm**3) / area).to("m").magnitude),)


def _factors(old: float, new: float, before: float, after: float) -> tuple[float, float]:
    """Extremes of the time factor over moves of all lengths, by ruckig."""
    return oracle_solvers.extremes(
        oracles.move_time(d, new, after) / oracles.move_time(d, old, before) for d in _LENGTHS
    )


def _factor_bracket(old: float, new: float, before: float, after: float) -> tuple[float, float]:
    held = moves.time_factor_bracket(old, new, before, after)
    return held.low, held.high


def _eigenvalue(modulus: float, diameter: float, gap: float) -> float:
    return oracles.column_load(modulus, math.pi * diameter**4 / 64, gap, clamped=False)


def _circle_moment() -> tuple[float, ...]:
    from sectionproperties.analysis import Section
    from sectionproperties.pre.library import circular_section

    geometry = circular_section(d=_STRAND, n=400)
    geometry.create_mesh(mesh_sizes=[0.05])
    section = Section(geometry)
    section.calculate_geometric_properties()
    return (float(section.get_ic()[0]),)


ROWS = (
    OutsideCheck(
        "inch, °F, cm3/h, mm/min, psi, kg",
        ("units",),
        _our_units,
        (25.4, 230.0, 18.0, 60.0, 6894.757293168, 1000.0),
        1e-12,
        "NIST SP 811 (2008), appendix B",
        PUBLISHED,
    ),
    OutsideCheck("the same by a unit library", ("units",), _our_units, _pint_units, 1e-12, "pint", OTHER_CODE),
    OutsideCheck(
        "bead area of three beads [mm2]",
        ("bead.bead_area_mm2",),
        lambda: [bead.bead_area_mm2(w, h) for w, h in _BEADS],
        lambda: [oracles.stadium_area(w, h) for w, h in _BEADS],
        1e-6,
        "shapely, polygon around a line",
        OTHER_CODE,
    ),
    OutsideCheck(
        "flow of three beads at 60 mm/s [mm3/s]",
        ("bead.flow_mm3_s",),
        lambda: [bead.flow_mm3_s(60, w, h) for w, h in _BEADS],
        lambda: [oracle_shapes.bead(w, h).area * 60 for w, h in _BEADS],
        1e-5,
        "shapely, volume laid in a second",
        OTHER_CODE,
    ),
    OutsideCheck(
        "speed at which a bead needs 12, 3, 1.5 mm3/s",
        ("bead.speed_at_flow_mm_s",),
        lambda: [bead.speed_at_flow_mm_s(flow, 0.45, 0.2) for flow in (12, 3, 1.5)],
        lambda: [
            oracle_solvers.solve(lambda v, q=flow: oracles.stadium_area(0.45, 0.2) * v - q, 1, 500)
            for flow in (12, 3, 1.5)
        ],
        1e-6,
        "scipy, root of shapely's area times speed",
        OTHER_CODE,
    ),
    OutsideCheck(
        "spacing that leaves no void [mm]",
        ("bead.solid_spacing_mm",),
        lambda: [bead.solid_spacing_mm(w, h) for w, h in _BEADS],
        lambda: [oracle_shapes.bead(w, h).area / h for w, h in _BEADS],
        1e-5,
        "shapely, area over height",
        OTHER_CODE,
    ),
    OutsideCheck(
        "thickness of walls of 1 to 4 beads [mm]",
        ("bead.wall_thickness_mm",),
        lambda: [bead.wall_thickness_mm(n, 0.45, 0.2) for n in (1, 2, 3, 4)],
        lambda: [
            oracle_shapes.wall_width(n, 0.45, 0.2, oracle_shapes.bead(0.45, 0.2).area / 0.2) for n in (1, 2, 3, 4)
        ],
        1e-5,
        "shapely, bounds of beads side by side",
        OTHER_CODE,
    ),
    OutsideCheck(
        "section of a filament, 1.75 and 2.85 mm [mm2]",
        ("bead.filament_area_mm2",),
        lambda: [bead.filament_area_mm2(d) for d in (1.75, 2.85)],
        lambda: [oracle_shapes.bead(d, d * (1 - 1e-12)).area for d in (1.75, 2.85)],
        1e-5,
        "shapely, polygon around a point",
        OTHER_CODE,
    ),
    OutsideCheck(
        "metres of a kilogram of PLA",
        ("bead.filament_length_m",),
        lambda: (bead.filament_length_m(1000, _STRAND, 1.24),),
        _pint_length,
        1e-5,
        "pint, mass over density over shapely's area",
        OTHER_CODE,
    ),
    OutsideCheck(
        "move with entry and exit speed; short; rest to rest [s]",
        ("moves.move_time_s", "moves.peak_speed_mm_s"),
        lambda: [
            point(moves.move_time_s(*move)) for move in ((10, 60, 1000, 10, 5), (0.5, 60, 1000, 10, 5), (10, 40, 1000))
        ],
        lambda: [oracles.move_time(*move) for move in ((10, 60, 1000, 10, 5), (0.5, 60, 1000, 10, 5), (10, 40, 1000))],
        1e-9,
        "ruckig",
        OTHER_CODE,
    ),
    OutsideCheck(
        "trapezoid on a unit path, v 0.9, a 2",
        ("moves.move_time_s",),
        lambda: (point(moves.move_time_s(1, 0.9, 2)),),
        (1.561111,),
        1e-6,
        "Lynch & Park 2017, Modern Robotics, 9.2.2 [from memory]",
        PUBLISHED,
    ),
    OutsideCheck(
        "mean time of moves of 0.5, 2, 50 mm [s]",
        ("moves.mean_move_time_s",),
        lambda: [moves.mean_move_time_s(m, 60, 1000) for m in (0.5, 2, 50)],
        lambda: [oracles.mean_move_time(m, 60, 1000) for m in (0.5, 2, 50)],
        1e-9,
        "scipy, quadrature over the exponential law",
        OTHER_CODE,
    ),
    OutsideCheck(
        "time factor, 60 to 20 mm/s, and with 1000 to 250 mm/s2",
        ("moves.time_factor_bracket",),
        lambda: [*_factor_bracket(60, 20, 1000, 1000), *_factor_bracket(60, 60, 1000, 250)],
        lambda: [*_factors(60, 20, 1000, 1000), *_factors(60, 60, 1000, 250)],
        1e-3,
        "ruckig, least and most over moves of 1 um to 100 m",
        OTHER_CODE,
    ),
    OutsideCheck(
        "layers of a part of 30 mm, 0.2 to 0.12 mm",
        ("moves.layer_count_factor",),
        lambda: (moves.layer_count_factor(0.2, 0.12),),
        lambda: (oracles.counted_layers(1, "30", "0.12") / oracles.counted_layers(1, "30", "0.2"),),
        1e-9,
        "decimal, layers counted one by one",
        OTHER_CODE,
    ),
    OutsideCheck(
        "buckling of a soft strand against PLA's",
        ("feed_path.buckling_load_ratio",),
        lambda: (feed_path.buckling_load_ratio(3500, 1.75, 13, 2.85),),
        lambda: (_eigenvalue(13, 2.85, 20) / _eigenvalue(3500, 1.75, 20),),
        1e-6,
        "scipy, eigenvalues of 40 beam elements",
        OTHER_CODE,
    ),
    OutsideCheck(
        "strain at which a strand buckles, gaps of 5, 10 mm",
        ("feed_path.buckling_strain_share",),
        lambda: [feed_path.buckling_strain_share(_STRAND, gap) for gap in (5, 10)],
        lambda: [_eigenvalue(1, _STRAND, gap) / (math.pi * _STRAND**2 / 4) for gap in (5, 10)],
        1e-5,
        "scipy, eigenvalue of 40 beam elements over the section",
        OTHER_CODE,
    ),
    OutsideCheck(
        "second moment of a strand [mm4]",
        ("feed_path.strand_second_moment_mm4",),
        lambda: (feed_path.strand_second_moment_mm4(_STRAND),),
        _circle_moment,
        2e-4,
        "sectionproperties, a circle of 400 corners",
        OTHER_CODE,
    ),
    OutsideCheck(
        "pressure of 0.4 over 0.8 mm nozzles at one flow, n 0.3 and 0.45",
        ("melt.equal_flow_pressure_ratio",),
        lambda: [point(melt.equal_flow_pressure_ratio(0.4, 0.2, n)) for n in (0.3, 0.45)],
        lambda: [
            oracle_solvers.pressure_at_flow(0.2, n) / oracle_solvers.pressure_at_flow(0.4, n) for n in (0.3, 0.45)
        ],
        1e-6,
        "scipy, velocity profile integrated to the flow and solved",
        OTHER_CODE,
    ),
    OutsideCheck(
        "length that a soft strand stores against PLA's",
        ("feed_path.stored_length_ratio",),
        lambda: (feed_path.stored_length_ratio(3500, 1.75, 100, 2.85),),
        lambda: (oracle_solvers.stored_length_ratio((3500, 1.75), (100, 2.85)),),
        1e-9,
        "scipy, the push along the tube integrated for both",
        OTHER_CODE,
    ),
    OutsideCheck(
        "play in half a turn of a 2 mm tube [mm]",
        ("feed_path.slack_mm",),
        lambda: (point(feed_path.slack_mm(2.0, 1.75, math.pi)),),
        lambda: (oracle_shapes.play(2.0, 1.75, math.pi),),
        1e-9,
        "difference of two arcs",
        OTHER_CODE,
    ),
)
