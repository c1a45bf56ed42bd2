"""Outside checks of what the part is: hardness, section, core, change of stiffness."""

from __future__ import annotations

import math

from profilesmith.physics import hardness, infill, section
from profilesmith.physics.answer import Bracket
from tests.physics import oracle_solvers, oracles
from tests.physics.outside_check import OTHER_CODE, OTHER_LAW, PUBLISHED, Numbers, OutsideCheck, point

_BAR = section.BarSection(20, 6, 0.9, 0.8, 0.8)
_UNEVEN = section.BarSection(20, 6, 0.9, 0.4, 1.2)
_THIN = section.BarSection(20, 6, 0.45, 0.4, 0.4)
_CORES = (0.05, 0.0025, 0.30, 0.09)


def _ends(held: object) -> tuple[float, float]:
    return (held.low, held.high) if isinstance(held, Bracket) else (math.nan, math.nan)


def _second_moments(bar: section.BarSection) -> list[float]:
    solid = section.solid_second_moment_mm4(bar)
    return [ratio * solid for ratio in section.bending_ratios(bar, _CORES)]


def _meshed(bar: section.BarSection, ratio: float) -> tuple[float, float]:
    sizes = (bar.width_mm, bar.height_mm, bar.side_wall_mm, bar.bottom_skin_mm, bar.top_skin_mm)
    held: tuple[float, float] = oracles.second_moment(*sizes, ratio)
    return held


def _gyroid_held() -> list[float]:
    """Recorded homogenisations of a gyroid sheet (128^3 voxels) and one that is worked out now: inside or not."""
    from tests.physics.oracle_gyroid import cubic_modulus, gyroid_sheet

    known = ((0.10, 0.0291), (0.15, 0.0469), (0.20, 0.0662), (0.30, cubic_modulus(gyroid_sheet(40, 0.30))))
    return [_inside(infill.core_modulus_bracket(density, 100, 5), ratio) for density, ratio in known]


def _inside(held: object, value: float) -> float:
    return float(isinstance(held, Bracket) and held.holds(value))


def _hexagons_held() -> list[float]:
    """Across: 2.31 (t/l)^3 at rho = 1.15 t/l; along: rho."""
    held = [infill.core_modulus_bracket(rho, 100, 5, infill.HEXAGONS_ACROSS) for rho in (0.05, 0.1, 0.2)]
    across = [2.31 * (rho / 1.15) ** 3 for rho in (0.05, 0.1, 0.2)]
    return [_inside(one, value) for one, value in zip(held, across, strict=True)]


def _grid_of_cores(old: section.BarSection, new: section.BarSection, cores: Numbers) -> tuple[float, float]:
    return oracle_solvers.extremes(_meshed(new, r)[0] / _meshed(old, r)[0] for r in cores)


def _alike(ratio: float) -> float:
    """Deflection of a sheet of 26.6 MPa over one of 3.6 MPa and 2 mm, by beam elements: 1 when they bend alike."""
    soft = oracle_solvers.tip_stiffness(3.6, 20 * 2**3 / 12, 50)
    return oracle_solvers.tip_stiffness(26.6, 20 * (2 * ratio) ** 3 / 12, 50) / soft


ROWS = (
    OutsideCheck(
        "EI over E of a bar with a core [mm4]",
        ("section.bending_ratios", "section.solid_second_moment_mm4"),
        lambda: _second_moments(_BAR),
        lambda: [_meshed(_BAR, ratio)[0] for ratio in _CORES],
        1e-7,
        "sectionproperties, finite elements",
        OTHER_CODE,
    ),
    OutsideCheck(
        "EI over E, unequal skins [mm4]",
        ("section.bending_ratios",),
        lambda: _second_moments(_UNEVEN),
        lambda: [_meshed(_UNEVEN, ratio)[0] for ratio in _CORES],
        1e-7,
        "sectionproperties, finite elements",
        OTHER_CODE,
    ),
    OutsideCheck(
        "both ends of a bar's bending stiffness",
        ("section.bending_bracket",),
        lambda: _ends(section.bending_bracket(_BAR, Bracket(0.0025, 0.05))),
        lambda: [_meshed(_BAR, ratio)[0] / 360 for ratio in (0.0025, 0.05)],
        1e-7,
        "sectionproperties, finite elements",
        OTHER_CODE,
    ),
    OutsideCheck(
        "EA over E of a bar with a core [mm2]",
        ("section.stretching_ratio",),
        lambda: (section.stretching_ratio(_BAR, 0.05) * 120,),
        lambda: (_meshed(_BAR, 0.05)[1],),
        1e-7,
        "sectionproperties, finite elements",
        OTHER_CODE,
    ),
    OutsideCheck(
        "plastic in a bar with 15 % filling",
        ("section.mass_ratio",),
        lambda: (section.mass_ratio(_BAR, 0.15),),
        lambda: (_meshed(_BAR, 0.15)[1] / 120,),
        1e-7,
        "sectionproperties, the core's area counted by its share",
        OTHER_CODE,
    ),
    OutsideCheck(
        "stiffness of two skins, t 0.8, c 4.4 [mm4]",
        ("section.bending_ratio",),
        lambda: ((section.bending_ratio(section.BarSection(20, 6, 0, 0.8, 0.8), 0.0)) * 360,),
        (20 * 0.8**3 / 6 + 20 * 0.8 * 5.2**2 / 2,),
        1e-9,
        "Allen 1969, sandwich panels: b t^3 / 6 + b t d^2 / 2",
        PUBLISHED,
    ),
    OutsideCheck(
        "force at the tip of a strip [N/mm]",
        ("section.tip_stiffness_n_per_mm",),
        lambda: (section.tip_stiffness_n_per_mm(26, 9.72, 50),),
        lambda: (oracle_solvers.tip_stiffness(26, 9.72, 50),),
        1e-7,
        "numpy, 20 beam elements",
        OTHER_CODE,
    ),
    OutsideCheck(
        "Gent's modulus, 60A and 85A [MPa]",
        ("hardness.gent_modulus_mpa",),
        lambda: [point(hardness.gent_modulus_mpa(shore)) for shore in (60, 85)],
        (3.605073, 13.18224),
        1e-6,
        "Gent 1958 (formula from several transcriptions)",
        PUBLISHED,
    ),
    OutsideCheck(
        "Gent's modulus against a flat punch, 20A to 90A",
        ("hardness.gent_modulus_mpa",),
        lambda: [point(hardness.gent_modulus_mpa(shore)) for shore in range(20, 91, 5)],
        lambda: [oracles.punch_modulus(shore) for shore in range(20, 91, 5)],
        0.005,
        "rigid punch in rubber, Shore A spring (ISO 868, ASTM D2240 [from memory])",
        OTHER_LAW,
    ),
    OutsideCheck(
        "Qi's modulus, 60A and 80A [MPa]",
        ("hardness.qi_modulus_from_a_mpa",),
        lambda: [point(hardness.qi_modulus_from_a_mpa(shore)) for shore in (60, 80)],
        (5.884370, 17.36601),
        1e-6,
        "Qi, Joyce & Boyce 2003, doi 10.5254/1.3547752 (coefficients from secondary pages)",
        PUBLISHED,
    ),
    OutsideCheck(
        "the same from Shore D: 30 D is 80 A",
        ("hardness.qi_modulus_from_d_mpa",),
        lambda: [point(hardness.qi_modulus_from_d_mpa(shore)) for shore in (30, 45)],
        (17.36601, 39.10),
        2e-4,
        "Qi, Joyce & Boyce 2003, S = D + 50 (coefficients from secondary pages)",
        PUBLISHED,
    ),
    OutsideCheck(
        "gyroids homogenised lie in the bracket",
        ("infill.core_modulus_bracket",),
        _gyroid_held,
        (1, 1, 1, 1),
        0,
        "numpy and scipy, homogenisation with voxels; no law of cellular solids is put in",
        OTHER_CODE,
    ),
    OutsideCheck(
        "hexagons across lie in the bracket",
        ("infill.core_modulus_bracket", "infill.voigt_ratio"),
        _hexagons_held,
        (1, 1, 1),
        0,
        "Gibson & Ashby 1997: 2.31 (t/l)^3 and 1.15 t/l",
        PUBLISHED,
    ),
    OutsideCheck(
        "cell of a gyroid whose sheet is one bead thick [mm]",
        ("infill.gyroid_cell_mm",),
        lambda: [infill.gyroid_cell_mm(0.45, rho) for rho in (0.05, 0.15, 0.30)],
        lambda: [oracle_solvers.gyroid_area() * 0.45 / rho for rho in (0.05, 0.15, 0.30)],
        0.01,
        "numpy, area of the surface by the coarea formula",
        OTHER_CODE,
    ),
    OutsideCheck(
        "whole cells in a core of 4.4 mm",
        ("infill.cell_count",),
        lambda: [float(int(infill.cell_count(4.4, cell))) for cell in (1.0, 1.5, 4.637)],
        lambda: [float(sum(1 for n in range(1, 99) if n * cell <= 4.4)) for cell in (1.0, 1.5, 4.637)],
        0,
        "cells laid one by one",
        OTHER_CODE,
    ),
    OutsideCheck(
        "fewer skins over one unknown core",
        ("section.shared_core_bracket",),
        lambda: _ends(section.shared_core_bracket(_BAR, _THIN, Bracket(0.0025, 0.15))),
        lambda: _grid_of_cores(_BAR, _THIN, (0.0025, 0.02, 0.05, 0.1, 0.15)),
        1e-6,
        "sectionproperties, least and most over cores of one modulus",
        OTHER_CODE,
    ),
    OutsideCheck(
        "30 to 5 % of one pattern: least and most over the powers",
        ("section.same_pattern_bracket",),
        lambda: _ends(section.same_pattern_bracket(_BAR, 0.30, _BAR, 0.05)),
        lambda: oracle_solvers.extremes(
            _meshed(_BAR, 0.05**n)[0] / _meshed(_BAR, 0.30**n)[0] for n in (1, 1.2, 1.4, 1.6, 1.7, 1.8, 2)
        ),
        1e-3,
        "sectionproperties, powers of Gibson & Ashby 1997 and Voigt 1889",
        OTHER_CODE,
    ),
    OutsideCheck(
        "30 to 5 % of too few cells: least and most over all pairs",
        ("section.ordered_cores_bracket",),
        lambda: _ends(section.ordered_cores_bracket(_BAR, Bracket(0, 0.30), _BAR, Bracket(0, 0.05))),
        lambda: oracle_solvers.extremes(
            _meshed(_BAR, after)[0] / _meshed(_BAR, before)[0]
            for before in (1e-9, 0.05, 0.30)
            for after in (1e-9, 0.05)
            if after <= before
        ),
        1e-6,
        "sectionproperties, every pair of which the denser is not the softer",
        OTHER_CODE,
    ),
    OutsideCheck(
        "sheets of two plastics that bend alike",
        ("section.solid_thickness_ratio",),
        lambda: _ends(section.solid_thickness_ratio(Bracket(3.6, 3.6), Bracket(26.6, 26.6))),
        lambda: (oracle_solvers.solve(lambda ratio: _alike(ratio) - 1, 0.1, 2),) * 2,
        1e-7,
        "numpy, beam elements, solved for equal deflection",
        OTHER_CODE,
    ),
)
