"""Outside checks of what the part is: core, section, bending, finish, overhang and hardness."""

from __future__ import annotations

import math

from profilesmith.physics import bending, core, finish, hardness, overhang, section
from tests.physics import oracles
from tests.physics.outside_check import OTHER_CODE, OTHER_LAW, PUBLISHED, OutsideCheck, point

_BAR = section.BarSection(20, 6, 0.9, 0.8, 0.8)
_UNEVEN = section.BarSection(20, 6, 0.9, 0.4, 1.2)
_CORES = (0.05, 0.0025, 0.30, 0.09)
_MANDRELS_MM = (25.4, 19.05, 12.7, 9.525, 6.35, 3.175)


def _gyroid() -> tuple[float, ...]:
    from tests.physics.oracle_gyroid import cubic_modulus, gyroid_sheet

    return (cubic_modulus(gyroid_sheet(40, 0.30)),)


def _second_moments(bar: section.BarSection) -> list[float]:
    solid = section.solid_second_moment_mm4(bar)
    return [section.bending_ratio(bar, ratio) * solid for ratio in _CORES]


def _meshed(bar: section.BarSection) -> list[float]:
    sizes = (bar.width_mm, bar.height_mm, bar.side_wall_mm, bar.bottom_skin_mm, bar.top_skin_mm)
    return [oracles.second_moment(*sizes, ratio)[0] for ratio in _CORES]


ROWS = (
    OutsideCheck(
        "elongation over six mandrels [%]",
        lambda: [100 * bending.mandrel_elongation_share(0.79375, 0.0254, d) for d in _MANDRELS_MM],
        (3.3, 4.4, 6.75, 9.0, 14.0, 28.0),
        0.06,
        "ASTM D522/D522M method B, table for 25 um (its own rounding; our fit is up to 5 % low)",
        PUBLISHED,
    ),
    OutsideCheck(
        "EI over E of a bar with a core [mm4]",
        lambda: _second_moments(_BAR),
        lambda: _meshed(_BAR),
        1e-7,
        "sectionproperties, finite elements",
        OTHER_CODE,
    ),
    OutsideCheck(
        "EI over E, unequal skins [mm4]",
        lambda: _second_moments(_UNEVEN),
        lambda: _meshed(_UNEVEN),
        1e-7,
        "sectionproperties, finite elements",
        OTHER_CODE,
    ),
    OutsideCheck(
        "EA over E of a bar with a core [mm2]",
        lambda: (section.stretching_ratio(_BAR, 0.05) * 120,),
        lambda: (oracles.second_moment(20, 6, 0.9, 0.8, 0.8, 0.05)[1],),
        1e-7,
        "sectionproperties, finite elements",
        OTHER_CODE,
    ),
    OutsideCheck(
        "stiffness of two skins, t 0.8, c 4.4 [mm4]",
        lambda: ((section.bending_ratio(section.BarSection(20, 6, 0, 0.8, 0.8), 0.0)) * 360,),
        (20 * 0.8**3 / 6 + 20 * 0.8 * 5.2**2 / 2,),
        1e-9,
        "Allen 1969, sandwich panels: b t^3 / 6 + b t d^2 / 2",
        PUBLISHED,
    ),
    OutsideCheck(
        "sag of a bar on two supports [mm]",
        lambda: (section.midspan_deflection_mm(10, 100, 3500, 231.12),),
        lambda: (oracles.midspan_deflection(10, 100, 3500, 231.12),),
        1e-9,
        "scipy: the bent line as a boundary value problem",
        OTHER_CODE,
    ),
    OutsideCheck(
        "Gent's modulus, 60A and 85A [MPa]",
        lambda: [point(hardness.gent_modulus_mpa(shore)) for shore in (60, 85)],
        (3.605073, 13.18224),
        1e-6,
        "Gent 1958 (formula from several transcriptions)",
        PUBLISHED,
    ),
    OutsideCheck(
        "Gent's modulus against a flat punch, 20A to 90A",
        lambda: [point(hardness.gent_modulus_mpa(shore)) for shore in range(20, 91, 5)],
        lambda: [oracles.punch_modulus(shore) for shore in range(20, 91, 5)],
        0.005,
        "rigid punch in rubber, Shore A spring (ISO 868, ASTM D2240 [from memory])",
        OTHER_LAW,
    ),
    OutsideCheck(
        "Qi's modulus, 60A and 80A [MPa]",
        lambda: [point(hardness.qi_modulus_from_a_mpa(shore)) for shore in (60, 80)],
        (5.884370, 17.36601),
        1e-6,
        "Qi, Joyce & Boyce 2003, doi 10.5254/1.3547752 (coefficients from secondary pages)",
        PUBLISHED,
    ),
    OutsideCheck(
        "gyroid law, densities 10, 15, 20, 30 %",
        lambda: [point(core.gyroid_ratio(density)) for density in (0.10, 0.15, 0.20, 0.30)],
        (0.0291, 0.0469, 0.0662, 0.1107),
        0.06,
        "recorded homogenisation with 128^3 voxels; the law was fitted to these four",
        OTHER_CODE,
    ),
    OutsideCheck(
        "gyroid law, density 30 %, worked out now",
        lambda: (point(core.gyroid_ratio(0.30)),),
        _gyroid,
        0.06,
        "numpy and scipy, homogenisation with 40^3 voxels",
        OTHER_CODE,
    ),
    OutsideCheck(
        "hexagons at 20 %, across and along",
        lambda: (point(core.hexagon_across_ratio(0.2)), core.hexagon_along_ratio(0.2)),
        (2.31 * (0.2 / 1.15) ** 3, 1.15 * 0.2 * math.sqrt(3) / 2),
        0.02,
        "Gibson & Ashby 1997: 2.31 (t/l)^3 and 1.15 t/l",
        PUBLISHED,
    ),
    OutsideCheck(
        "stiffest isotropic core at 5, 15, 30 %, Poisson 1/3",
        lambda: [core.isotropic_bound_ratio(density) for density in (0.05, 0.15, 0.30)],
        (0.02564103, 0.08108108, 0.1764706),
        1e-6,
        "Hashin & Shtrikman 1963 in closed form, rho / (2 - rho) [from memory]",
        PUBLISHED,
    ),
    OutsideCheck(
        "step of a 45° overhang, cusp of a 45° face [mm]",
        lambda: (point(overhang.step_over_mm(0.2, 45)), finish.stair_cusp_mm(0.2, 45)),
        (0.2, 0.2 / math.sqrt(2)),
        1e-9,
        "triangle with two equal sides; cusp: Dolenc & Makela 1994 [from memory]",
        OTHER_LAW,
    ),
)
