"""Outside checks of what the machine does: units, bead, moves, transport, melt, heat and drying."""

from __future__ import annotations

import math
from fractions import Fraction

from profilesmith.foundation.quantity import UNITS
from profilesmith.physics import bead, buckling, drying, heat, melt, moves, skins, tube
from tests.physics import oracles
from tests.physics.outside_check import OTHER_CODE, OTHER_LAW, PUBLISHED, OutsideCheck, point

_I = buckling.strand_second_moment_mm4(1.75)
_AREA = bead.filament_area_mm2(1.75)
_SLOPE = math.tan(math.radians(30))
_SKINS = ((3, "0.2", "0.2"), (3, "0.2", "0.1"), (4, "0.2", "0.12"), (3, "0.28", "0.12"), (5, "0.2", "0.15"))


def _in_canonical(number: str, unit: str) -> float:
    return float(UNITS[unit].to_canonical(Fraction(number)))


def _our_units() -> tuple[float, ...]:
    given = (("1", "in"), ("446", "°F"), ("3600", "mm/min"), ("1", "psi"))
    inch, hot, fast, psi = (_in_canonical(*one) for one in given)
    return inch, hot, float(UNITS["cm3/h"].from_canonical(Fraction(5))), fast, psi * 1e6


def _pint_units() -> tuple[float, ...]:
    import pint

    u = pint.UnitRegistry()
    return (
        float((1 * u.inch).to("mm").magnitude),
        float(u.Quantity(446, "degF").to("degC").magnitude),
        float((5 * u.mm**3 / u.s).to("cm^3/hour").magnitude),
        float((3600 * u.mm / u.min).to("mm/s").magnitude),
        float((1 * u.psi).to("Pa").magnitude),
    )


def _tube_pressure() -> tuple[float, ...]:
    from scipy import optimize

    def off(mpa: float) -> float:
        return oracles.power_law_flow(mpa * 1e6, 0.2e-3, 0.6e-3, 2000, 0.45) / 5e-9 - 1

    return (float(optimize.brentq(off, 0.1, 1.0, rtol=1e-12)),)


ROWS = (
    OutsideCheck(
        "inch, °F, cm3/h, mm/min, psi",
        _our_units,
        (25.4, 230.0, 18.0, 60.0, 6894.757293168),
        1e-12,
        "NIST SP 811 (2008), appendix B",
        PUBLISHED,
    ),
    OutsideCheck(
        "the same by a unit library",
        _our_units,
        _pint_units,
        1e-12,
        "pint",
        OTHER_CODE,
    ),
    OutsideCheck(
        "bead area 0.45 x 0.20, 0.48 x 0.30, 0.42 x 0.10 mm",
        lambda: [bead.bead_area_mm2(w, h) for w, h in ((0.45, 0.2), (0.48, 0.3), (0.42, 0.1))],
        lambda: [oracles.stadium_area(w, h) for w, h in ((0.45, 0.2), (0.48, 0.3), (0.42, 0.1))],
        1e-6,
        "shapely, polygon around a line",
        OTHER_CODE,
    ),
    OutsideCheck(
        "move with entry and exit speed [s]",
        lambda: (point(moves.move_time_s(10, 60, 1000, 10, 5)),),
        lambda: (oracles.move_time(10, 60, 1000, 10, 5),),
        1e-9,
        "ruckig",
        OTHER_CODE,
    ),
    OutsideCheck(
        "short move, speed not reached [s]",
        lambda: (point(moves.move_time_s(0.5, 60, 1000, 10, 5)),),
        lambda: (oracles.move_time(0.5, 60, 1000, 10, 5),),
        1e-9,
        "ruckig",
        OTHER_CODE,
    ),
    OutsideCheck(
        "trapezoid on a unit path, v 0.9, a 2",
        lambda: (point(moves.move_time_s(1, 0.9, 2)),),
        (1.561111,),
        1e-6,
        "Lynch & Park 2017, Modern Robotics, 9.2.2 [from memory]",
        PUBLISHED,
    ),
    OutsideCheck(
        "mean time of moves of 0.5, 2, 50 mm [s]",
        lambda: [moves.mean_move_time_s(m, 60, 1000) for m in (0.5, 2, 50)],
        lambda: [oracles.mean_move_time(m, 60, 1000) for m in (0.5, 2, 50)],
        1e-9,
        "scipy, quadrature over the exponential law",
        OTHER_CODE,
    ),
    OutsideCheck(
        "layers of the same thickness",
        lambda: [skins.layers_for_same_thickness(n, Fraction(old), Fraction(new)) for n, old, new in _SKINS],
        (3, 6, 7, 7, 7),
        0,
        "counting in whole hundredths of a millimetre, by hand",
        OTHER_LAW,
    ),
    OutsideCheck(
        "the same, counted layer by layer",
        lambda: [skins.layers_for_same_thickness(n, Fraction(old), Fraction(new)) for n, old, new in _SKINS],
        lambda: [oracles.counted_layers(n, old, new) for n, old, new in _SKINS],
        0,
        "decimal, adding layers until thick enough",
        OTHER_CODE,
    ),
    OutsideCheck(
        "Euler load, hinged and clamped [N]",
        lambda: [buckling.ideal_column_load_n(100, _I, 5 * k) for k in (buckling.HINGED, buckling.CLAMPED)],
        lambda: [oracles.column_load(100, _I, 5, clamped) for clamped in (False, True)],
        1e-5,
        "scipy, eigenvalue of 40 beam elements",
        OTHER_CODE,
    ),
    OutsideCheck(
        "nozzle pressure, one viscosity [MPa]",
        lambda: (melt.newtonian_pressure_mpa(1000, 5, 0.2, 0.6),),
        lambda: (oracles.laminar_pressure(1000, 5e-9, 0.2e-3, 0.6e-3) / 1e6,),
        1e-9,
        "fluids, friction factor of laminar flow",
        OTHER_CODE,
    ),
    OutsideCheck(
        "nozzle pressure, power law, tube [MPa]",
        lambda: (point(melt.power_law_tube_pressure_mpa(2000, 0.45, 5, 0.2, 0.6)),),
        _tube_pressure,
        1e-7,
        "scipy, velocity profile integrated back to the flow",
        OTHER_CODE,
    ),
    OutsideCheck(
        "nozzle pressure, power law, cone [MPa]",
        lambda: (point(melt.power_law_cone_pressure_mpa(2000, 0.45, 5, 1.0, 0.2, 30)),),
        lambda: (oracles.power_law_cone(2000, 0.45, 5e-9, 1e-3, 0.2e-3, _SLOPE) / 1e6,),
        1e-7,
        "scipy, quadrature over slices",
        OTHER_CODE,
    ),
    OutsideCheck(
        "length stored in a bent tube [mm]",
        lambda: (point(tube.stored_length_mm(5, 400, 100, 1.75, 0.15, math.pi)),),
        lambda: (oracles.stored_length(5, 400, 100, _AREA, 0.15, math.pi),),
        1e-6,
        "scipy, quadrature along the tube",
        OTHER_CODE,
    ),
    OutsideCheck(
        "moisture left at Fo 0.1, 0.2",
        lambda: [drying.moisture_left_share(number) for number in (0.1, 0.2)],
        lambda: [oracles.moisture_left(number) for number in (0.1, 0.2)],
        1e-6,
        "scipy, Crank's series with its Bessel zeros",
        OTHER_CODE,
    ),
    OutsideCheck(
        "hours until a tenth is left, D 2e-12 m2/s",
        lambda: (drying.drying_time_h(0.1, 1.75, 2e-12),),
        lambda: (oracles.drying_hours(0.1, 0.875e-3, 2e-12),),
        1e-6,
        "scipy, the series solved for the time",
        OTHER_CODE,
    ),
    OutsideCheck(
        "Fourier number when the middle lacks 10 %",
        lambda: (point(heat.fourier_number_at_lag(0.1)),),
        lambda: (oracles.fourier_of_cold_middle(0.1),),
        1e-5,
        "scipy, the whole series of the cylinder, solved",
        OTHER_CODE,
    ),
)
