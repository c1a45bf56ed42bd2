"""Pressure that drives a melt through a nozzle, for a viscosity that the maker gives. Only to compare.

Round channel, steady, no slip, one temperature. The real push is several times higher: melting, backflow and friction
are left out; so no force is offered. Viscosities of soft filaments are not well published: have the maker give them.
Sources: Bird, Stewart & Lightfoot, Transport Phenomena; cone: Bellini, Guceri & Bertoldi 2004, J. Manuf. Sci. Eng.
126:237 [from memory]; both checked by integration in the tests.
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import NotValid
from profilesmith.physics.inputs import require_positive

_PA_TO_MPA = 1e-6
_POWER_RANGE = (0.1, 1.5)
_NO_POWER = NotValid("power laws with an exponent outside 0.1 to 1.5 are not plastics melts", "the melt's data sheet")


def newtonian_pressure_mpa(viscosity_pa_s: float, flow_mm3_s: float, radius_mm: float, length_mm: float) -> float:
    """Pressure drop of a melt with one viscosity: ``8 eta L Q / (pi R^4)`` [MPa]. Source: Hagen-Poiseuille.

    Plastics thin when sheared, so give the viscosity at ``wall_shear_rate_per_s``.
    """
    require_positive(viscosity_pa_s=viscosity_pa_s, flow_mm3_s=flow_mm3_s, radius_mm=radius_mm, length_mm=length_mm)
    return 8 * viscosity_pa_s * length_mm * flow_mm3_s / (math.pi * radius_mm**4) * _PA_TO_MPA


def wall_shear_rate_per_s(flow_mm3_s: float, radius_mm: float, power: float = 1.0) -> float | NotValid:
    """Shear rate at the wall: ``(3 n + 1) / (4 n) 4 Q / (pi R^3)`` [1/s]; n = 1 for a melt with one viscosity.

    NotValid for powers that no melt has. Source: Rabinowitsch correction.
    """
    require_positive(flow_mm3_s=flow_mm3_s, radius_mm=radius_mm, power=power)
    if not _is_melt(power):
        return _NO_POWER
    return (3 * power + 1) / (4 * power) * 4 * flow_mm3_s / (math.pi * radius_mm**3)


def power_law_tube_pressure_mpa(
    consistency_pa_s_n: float, power: float, flow_mm3_s: float, radius_mm: float, length_mm: float
) -> float | NotValid:
    """Pressure drop of a melt with stress ``K gamma^n``: ``(2 K L / R) gamma_wall^n`` [MPa]; K in Pa s^n.

    NotValid for powers that no melt has. Source: see the module.
    """
    require_positive(consistency_pa_s_n=consistency_pa_s_n, length_mm=length_mm)
    rate = wall_shear_rate_per_s(flow_mm3_s, radius_mm, power)
    if isinstance(rate, NotValid):
        return rate
    return 2 * consistency_pa_s_n * length_mm / radius_mm * float(rate**power) * _PA_TO_MPA


def power_law_cone_pressure_mpa(
    consistency_pa_s_n: float,
    power: float,
    flow_mm3_s: float,
    wide_radius_mm: float,
    narrow_radius_mm: float,
    half_angle_deg: float,
) -> float | NotValid:
    """The same through a cone: ``2 K / (3 n tan(a)) (r^-3n - R^-3n) (Q (3 n + 1) / (pi n))^n`` [MPa].

    NotValid for powers that no melt has, and above a half angle of 45 deg, where the flow is no longer nearly straight
    (limit [from memory]). ValueError when the cone does not narrow. Source: see the module.
    """
    require_positive(consistency_pa_s_n=consistency_pa_s_n, power=power, flow_mm3_s=flow_mm3_s)
    require_positive(narrow_radius_mm=narrow_radius_mm, half_angle_deg=half_angle_deg)
    if not wide_radius_mm > narrow_radius_mm:
        raise ValueError("a cone must be wider at its entry than at its exit")
    if not _is_melt(power):
        return _NO_POWER
    if half_angle_deg > 45:
        return NotValid("in a cone with a half angle above 45 deg the melt does not flow straight")
    slope = math.tan(math.radians(half_angle_deg))
    narrowing = float(narrow_radius_mm ** (-3 * power) - wide_radius_mm ** (-3 * power))
    rate = float((flow_mm3_s * (3 * power + 1) / (math.pi * power)) ** power)
    return 2 * consistency_pa_s_n / (3 * power * slope) * narrowing * rate * _PA_TO_MPA


def equal_flow_pressure_ratio(old_radius_mm: float, new_radius_mm: float, power: float) -> float | NotValid:
    """Pressure, new over old, of two nozzles of one shape at one flow: ``(r / r')^(3 n + 1)``.

    Length and viscosity drop out where channels are equally long. NotValid for powers that no melt has. Source: as
    ``power_law_tube_pressure_mpa``, divided by itself.
    """
    require_positive(old_radius_mm=old_radius_mm, new_radius_mm=new_radius_mm, power=power)
    return float((old_radius_mm / new_radius_mm) ** (3 * power + 1)) if _is_melt(power) else _NO_POWER


def _is_melt(power: float) -> bool:
    return _POWER_RANGE[0] <= power <= _POWER_RANGE[1]
