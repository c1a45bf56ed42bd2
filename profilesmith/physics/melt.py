"""Pressure that drives a melt through a nozzle, as a ratio of two nozzles: no push is offered, only how it compares.

Round channel, steady, no slip, one temperature, a melt whose stress is ``K gamma^n``. Melting, backflow and friction
are left out. Source: Bird, Stewart & Lightfoot, Transport Phenomena; checked by integration in the tests.
"""

from __future__ import annotations

from profilesmith.physics.answer import NotValid, require_positive

_POWER_RANGE = (0.1, 1.5)
_NO_POWER = NotValid("power-outside-melts")


def equal_flow_pressure_ratio(old_radius_mm: float, new_radius_mm: float, power: float) -> float | NotValid:
    """Pressure, new over old, of two nozzles of one shape at one flow: ``(r / r')^(3 n + 1)``.

    Length and viscosity drop out where channels are equally long. NotValid for powers that no melt has. Source: the
    pressure drop ``(2 K L / R) ((3 n + 1) / (4 n) 4 Q / (pi R^3))^n`` of the module, of one nozzle over another's.
    """
    require_positive(old_radius_mm=old_radius_mm, new_radius_mm=new_radius_mm, power=power)
    return float((old_radius_mm / new_radius_mm) ** (3 * power + 1)) if _is_melt(power) else _NO_POWER


def _is_melt(power: float) -> bool:
    return _POWER_RANGE[0] <= power <= _POWER_RANGE[1]
