"""Outside checks of moisture, drying and materials."""

from __future__ import annotations

from profilesmith.checks.materials import materials
from profilesmith.physics import drying
from profilesmith.physics.answer import Bracket
from tests.physics import oracle_solvers, oracles
from tests.physics.outside_check import FROM_MEMORY, OTHER_CODE, PRACTICE, PUBLISHED, OutsideCheck, point


def _left(hours: float) -> float:
    return oracle_solvers.moisture_left(hours, 1.75, 2e-12)


def _ceilings() -> list[float]:
    held = drying.glassy_drying_ceiling_c(55)
    return [held.low, held.high] if isinstance(held, Bracket) else []


def _range_holds(material: str, name: str, *values: float) -> list[float]:
    held = materials()[material].ranges[name]
    return [float(held.low <= value <= held.high) for value in values]


ROWS = (
    OutsideCheck(
        "moisture left at Fo 0.01, 0.05, 0.1, 0.2",
        ("drying.moisture_left_share",),
        lambda: [drying.moisture_left_share(number) for number in (0.01, 0.05, 0.1, 0.2)],
        (0.7845261, 0.5478790, 0.3941758, 0.2178524),
        1e-6,
        "Crank 1975, cylinder; series summed by scipy and recorded",
        PUBLISHED,
    ),
    OutsideCheck(
        "moisture left after 1, 6, 24 h, D 2e-12 m2/s",
        ("drying.moisture_left_after",),
        lambda: [drying.moisture_left_after(hours, 1.75, 2e-12) for hours in (1, 6, 24)],
        lambda: [_left(hours) for hours in (1, 6, 24)],
        1e-3,
        "scipy, finite volumes and a stiff solver; no series",
        OTHER_CODE,
    ),
    OutsideCheck(
        "hours until a tenth is left, D 2e-12 m2/s",
        ("drying.drying_time_h",),
        lambda: (drying.drying_time_h(0.1, 1.75, 2e-12),),
        lambda: (oracles.drying_hours(0.1, 0.875e-3, 2e-12),),
        1e-6,
        "scipy, the series solved for the time",
        OTHER_CODE,
    ),
    OutsideCheck(
        "Fourier number at half and a tenth left",
        ("drying.fourier_at_moisture_left",),
        lambda: [drying.fourier_at_moisture_left(left) for left in (0.5, 0.1)],
        lambda: [
            oracle_solvers.solve(lambda n, left=left: oracles.moisture_left(n) - left, 1e-4, 2) for left in (0.5, 0.1)
        ],
        1e-6,
        "scipy, Bessel zeros of its own",
        OTHER_CODE,
    ),
    OutsideCheck(
        "52.9 kJ/mol double a rate from 25 to 35 °C",
        ("drying.warming_speedup_ratio",),
        lambda: (point(drying.warming_speedup_ratio(52.9, 25, 35)),),
        (2.0,),
        0.005,
        "a worked example of textbooks of physical chemistry on Arrhenius' law [from memory]",
        FROM_MEMORY,
    ),
    OutsideCheck(
        "hottest drying air for a glass transition of 55 °C",
        ("drying.glassy_drying_ceiling_c",),
        _ceilings,
        (45, 50),
        0,
        "PLA spools are dried at 45 °C, 5 to 10 °C below softening: common practice, no source",
        PRACTICE,
    ),
    OutsideCheck(
        "printed TPU of 100 and 146 MPa, glass transitions of PLA, lie in our ranges",
        ("materials",),
        lambda: [*_range_holds("TPU 95A", "modulus", 100, 146), *_range_holds("PLA", "glass_transition", 60, 63)],
        (1, 1, 1, 1),
        0,
        "Eng. Proc. 2025, 113(1), 19; calorimetry of a thermal analysis laboratory",
        PUBLISHED,
    ),
)
