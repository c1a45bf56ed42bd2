"""Zeros of the Bessel function J0, which the heating and drying of a round strand need.

The first ten to double precision; the further ones from McMahon's expansion (Abramowitz & Stegun 1964, 9.5.12 [from
memory]), which is good to 1e-12 there. The tests hold all of them against an independent library.
"""

from __future__ import annotations

import math

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
