"""Moisture that leaves a round strand, and how warm it may be dried. Hours only compare; a wound spool dries slower.

One strand in dry air, diffusion alone. Source: Crank 1975, The Mathematics of Diffusion, ch. 5. Diffusivities differ by
more than threefold between soft filaments (1.1e-12 to 3.4e-12 m2/s measured for TPU at room temperature).

Zeros of the Bessel function J0: the first ten to double precision; the further ones from McMahon's expansion
(Abramowitz & Stegun 1964, 9.5.12 [from memory]), which is good to 1e-12 there. The tests hold all of them against
an independent library.
"""

from __future__ import annotations

import math

from profilesmith.physics.answer import Bracket, NotValid, require_not_negative, require_positive

ZERO_COUNT = 40

_FIRST = (
    2.4048255576957724,
    5.520078110286311,
    8.653727912911013,
    11.791534439014281,
    14.930917708487787,
    18.071063967910924,
    21.21163662987926,
    24.352471530749302,
    27.493479132040253,
    30.634606468431976,
)


def _mcmahon(number: int) -> float:
    """The zero of this number (from 1) by McMahon's expansion in ``1 / (8 beta)``, beta = (number - 1/4) pi."""
    beta = (number - 0.25) * math.pi
    x = 1 / (8 * beta)
    return beta + x - 124 / 3 * x**3 + 120928 / 15 * x**5 - 401743168 / 105 * x**7


BESSEL_ZEROS = _FIRST + tuple(_mcmahon(number) for number in range(len(_FIRST) + 1, ZERO_COUNT + 1))


# Below this the series needs more zeros than we keep, and Crank's form for short times is good to 1e-6.
_SHORT_TIME = 0.0015
_GAS_J_MOL_K = 8.314462618  # exact by definition of the mole and the kelvin (SI 2019), cut
_ICE_POINT_K = 273.15
ROOM_C = 25.0


def moisture_left_share(fourier: float) -> float:
    """Share of the moisture that is still in the strand at ``Fo = D t / R^2``: ``4 sum exp(-j_n^2 Fo) / j_n^2``.

    Good to 1e-6. Source: Crank 1975, cylinder whose surface is kept dry.
    """
    require_not_negative(fourier=fourier)
    if fourier < _SHORT_TIME:
        root = math.sqrt(fourier / math.pi)
        return 1 - 4 * root + fourier + root * fourier / 3
    return 4 * math.fsum(math.exp(-(zero**2) * fourier) / zero**2 for zero in BESSEL_ZEROS)


def fourier_at_moisture_left(left_share: float) -> float:
    """The Fourier number at which this share is left, from 0.001 to 1; found by halving, to 1e-12 of itself."""
    if not 0.001 <= left_share <= 1:
        raise ValueError(f"the share left lies from 0.001 to 1, not {left_share!r}")
    low, high = 0.0, 2.0  # at 2 a hundred-thousandth is left
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if moisture_left_share(middle) > left_share else (low, middle)
    return (low + high) / 2


def drying_time_h(left_share: float, diameter_mm: float, diffusivity_m2_s: float) -> float:
    """Hours until only this share is left in a strand: ``Fo R^2 / D`` [h]; only to compare. ValueError as above."""
    require_positive(diameter_mm=diameter_mm, diffusivity_m2_s=diffusivity_m2_s)
    return fourier_at_moisture_left(left_share) * (diameter_mm / 2000) ** 2 / diffusivity_m2_s / 3600


def moisture_left_after(time_h: float, diameter_mm: float, diffusivity_m2_s: float) -> float:
    """Share of the moisture that is left in a strand after so many hours: ``moisture_left_share(D t / R^2)``.

    For a strand that takes up moisture instead, one less this is the share of what it can hold. Source: as above.
    """
    require_positive(diameter_mm=diameter_mm, diffusivity_m2_s=diffusivity_m2_s)
    require_not_negative(time_h=time_h)
    return moisture_left_share(diffusivity_m2_s * time_h * 3600 / (diameter_mm / 2000) ** 2)


def warming_speedup_ratio(activation_kj_mol: float, cold_c: float, warm_c: float) -> float | NotValid:
    """How many times faster moisture moves when warmed: ``exp(Ea / R (1 / T - 1 / T'))``.

    Activation energies of 35 to 45 kJ/mol [from memory]. NotValid above 120 degC and below freezing.
    Source: Arrhenius law.
    """
    require_positive(activation_kj_mol=activation_kj_mol)
    if not (0 <= cold_c <= 120 and 0 <= warm_c <= 120):
        return NotValid("outside-0-to-120-c")
    inverse = 1 / (cold_c + _ICE_POINT_K) - 1 / (warm_c + _ICE_POINT_K)
    return math.exp(activation_kj_mol * 1000 / _GAS_J_MOL_K * inverse)


def glassy_drying_ceiling_c(lowest_glass_transition_c: float) -> Bracket | NotValid:
    """Hottest drying air for a plastic that is glassy when cold: 10 to 5 K below its glass transition [degC].

    The lower end is the safe one; the spool's and the dryer's own limits go before it. NotValid for plastics that are
    soft at room temperature: not this, but softening and the spool's body limit them. Common practice, no source.
    """
    if not math.isfinite(lowest_glass_transition_c):
        raise ValueError(f"{lowest_glass_transition_c!r} is no temperature")
    if lowest_glass_transition_c < ROOM_C:
        return NotValid("not-glassy-at-room-temperature")
    return Bracket(lowest_glass_transition_c - 10, lowest_glass_transition_c - 5)
