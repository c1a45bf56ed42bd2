"""From a Shore hardness to a modulus, roughly. Only to compare materials; a measured modulus goes before it.

Between the laws, and between laws and measurements, lie factors of up to two: natural rubber -25 to +25 % [from
memory], a printed 63A filament 63 % too stiff (IJB 2023, 9(5), 756, table 2).
"""

from __future__ import annotations

from profilesmith.physics.answer import Bracket, NotValid


def gent_modulus_mpa(shore_a: float) -> float | Bracket | NotValid:
    """``E = 0.0981 (56 + 7.62336 S) / (0.137505 (254 - 2.54 S))`` [MPa], from Shore A.

    20 to 90 A: the law. Above 90 to 98 A a bracket of a factor of two: a reading that is off by 3 points does as much.
    NotValid below 20 A and above 98 A, where the law runs off to infinity. ValueError outside 0 to 100.
    Source: Gent 1958, Trans. Inst. Rubber Ind. 34:46; a flat punch with the Shore spring agrees within 0.5 %.
    """
    _require_reading(shore_a)
    if shore_a < 20:
        return NotValid("too-soft-for-shore-a")
    if shore_a > 98:
        return NotValid("too-hard-for-shore-a")
    modulus = 0.0981 * (56 + 7.62336 * shore_a) / (0.137505 * (254 - 2.54 * shore_a))
    return modulus if shore_a <= 90 else Bracket(modulus / 2, modulus * 2)


def qi_modulus_from_a_mpa(shore_a: float) -> float | NotValid:
    """``log10 E = 0.0235 S - 0.6403`` [MPa], from Shore A of 20 to 80; else NotValid.

    The logarithm is to base TEN; copies with the natural one give a fifth of the modulus. ValueError outside 0 to 100.
    Source: Qi, Joyce & Boyce 2003, Rubber Chem. Technol. 76(2):419, doi 10.5254/1.3547752.
    """
    _require_reading(shore_a)
    if not 20 <= shore_a <= 80:
        return NotValid("outside-20-to-80-shore-a")
    return _qi(shore_a)


def qi_modulus_from_d_mpa(shore_d: float) -> float | NotValid:
    """The same from Shore D of 30 to 85, with ``S = D + 50``; else NotValid. Source: as above."""
    _require_reading(shore_d)
    if not 30 <= shore_d <= 85:
        return NotValid("outside-30-to-85-shore-d")
    return _qi(shore_d + 50)


def _qi(points: float) -> float:
    return float(10 ** (0.0235 * points - 0.6403))


def _require_reading(shore: float) -> None:
    if not 0 <= shore <= 100:
        raise ValueError(f"a Shore hardness lies from 0 to 100, not {shore!r}")
