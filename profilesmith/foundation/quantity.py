"""Units and exact conversion to the canonical unit of each kind.

Exact factors: inch 25.4 mm and t/°C = (t/°F - 32)/1.8 after NIST SP 811 (2008) appendix B; K = °C + 273.15 (SI).
The one factor that cannot be exact is the radian's.
"""

from fractions import Fraction
from functools import lru_cache

from profilesmith.foundation.late_pattern import late
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import plain_text, read_number

# 50 digits of pi (OEIS A000796): far below any resolution that a settings text can hold.
PI = Fraction("3.1415926535897932384626433832795028841971693993751")


class Unit(NamedTuple):
    """``canonical = (number - zero) * factor``; ``zero`` is not 0 for temperatures only."""

    name: str
    kind: str
    factor: Fraction
    zero: Fraction = Fraction(0)

    def to_canonical(self, number: Fraction) -> Fraction:
        shifted = number - self.zero if self.zero else number
        return shifted if self.factor == 1 else shifted * self.factor

    def from_canonical(self, value: Fraction) -> Fraction:
        shifted = value if self.factor == 1 else value / self.factor
        return shifted + self.zero if self.zero else shifted


CANONICAL = {
    "length": "mm",
    "speed": "mm/s",
    "acceleration": "mm/s2",
    "temperature": "°C",
    "ratio": "%",
    "angle": "°",
    "duration": "s",
    "flow": "mm3/s",
    "density": "g/cm3",
    "area": "mm2",
    "pressure": "MPa",
    "mass": "g",
    "stiffness": "N/mm",
    "count": "",
}

_FACTORS = {  # of each kind: its units, and what one of them is in the canonical one
    "length": "mm 1, um 1/1000, cm 10, in 25.4, mil 0.0254, m 1000, 1/10 mm 1/10, 1/100 mm 1/100",
    "speed": "mm/s 1, mm/min 1/60, cm/s 10, cm/min 10/60, m/min 1000/60, m/s 1000, in/s 25.4, in/min 254/600",
    "acceleration": "mm/s2 1, cm/s2 10, m/s2 1000, in/s2 25.4",
    "ratio": "% 1, fraction 100, ‰ 1/10, 0-255 100/255",
    "angle": "° 1",
    "duration": "s 1, ms 1/1000, min 60, h 3600",
    "flow": "mm3/s 1, cm3/h 1000/3600, mm3/min 1/60, cm3/min 1000/60, in3/min 16387064/60000",
    "density": "g/cm3 1, kg/m3 1/1000",
    "area": "mm2 1",
    "pressure": "MPa 1, GPa 1000, kPa 1/1000, psi 44482216152605/6451600000000000",
    "stiffness": "N/mm 1, N/m 1/1000",
    "mass": "g 1, kg 1000",
}


def _fraction(text: str) -> Fraction:
    top, _, bottom = text.partition("/")
    return Fraction(int(top) if top.isdecimal() else Fraction(top), int(bottom or 1))


UNITS: dict[str, Unit] = {
    name: Unit(name, kind, _fraction(factor))
    for kind, units in _FACTORS.items()
    for name, _, factor in (unit.rpartition(" ") for unit in units.split(", "))
}
UNITS["rad"] = Unit("rad", "angle", 180 / PI)
UNITS["°C"] = Unit("°C", "temperature", Fraction(1))
UNITS["°F"] = Unit("°F", "temperature", Fraction(5, 9), Fraction(32))
UNITS["K"] = Unit("K", "temperature", Fraction(1), Fraction("273.15"))

_SPELLED = {
    "mm": "millimetre,millimetres,millimeter,millimeters,millimètre,millimètres",
    "°C": "C,℃,degC,°c,grad c,deg c,celsius,centigrade,degrees c,degrees celsius,grad celsius,degrés c,degrés celsius",
    "°F": "F,℉,degF,deg f,fahrenheit,degrees f,degrees fahrenheit",
    "°": "deg,degrees,grad,degré,degrés,degree",
    "um": "µm,μm,micron,microns",
    "in": 'inch,inches,",zoll,pouce,pouces',
    "%": "percent,per cent,pct,prozent,pour cent",
    "‰": "promille",
    "s": "sec,seconds,secondes,sekunden,sek",
    "0-255": "byte",
    "mm/s": "mm/sec,mm per second,mm per sec,mm per s,mm a second,mm/sek,mm/second",
    "mm/s2": "mm/s/s",
    "m/s2": "m/s/s",
    "in/s2": "in/s/s",
    "mil": "thou,mils",
    "min": "minutes,mn",
    "h": "hours",
    "in/s": "ips,zoll/s",
    "in/min": "ipm",
    "mm/min": "mm per minute,mm per min,mm a minute,mm/mn,mm/minute",
    "m/min": "m/mn",
}
LONGEST_UNIT, MOST_UNIT_WORDS = 40, 4  # of one in words
SPELLINGS = {spelling: name for name, spellings in _SPELLED.items() for spelling in spellings.split(",")}


@lru_cache(maxsize=4096)
def find_unit(text: str) -> Unit | None:
    """The unit of that spelling (``°C``, ``C``, ``mm³/s``, ``mm/s^2``, ``mm per second``, ...), or None."""
    unit = UNITS.get(text)
    if unit is not None:
        return unit
    plain = text.strip().replace("²", "2").replace("³", "3").replace("^", "").replace("**", "")
    unit = UNITS.get(SPELLINGS.get(plain, plain))
    if unit is None:
        lower = plain.lower()
        unit = UNITS.get(SPELLINGS.get(lower, lower))
    if unit is None and len(plain) <= LONGEST_UNIT and (" " in plain or "/" in plain):
        from profilesmith.foundation.units_in_words import with_signs  # few texts write them in words

        plain = with_signs(plain)
        unit = UNITS.get(SPELLINGS.get(plain, plain))
    return unit


# "0.8 of core pace" is a share as "80 % of core pace" is.
_PART_OF = late(r"(?:(?:of|times|von|vom|der|des|mal|de|du|fois|[x×*])\s+|d['’])(?=[^\W\d_])")

# What may stand behind a unit: words, without a number that could be a second value.
_WORDS = late(r"[^\W\d_][^\d,;|/]*")
_WORD_UNITS = frozenset({"in", "m", "h"})  # as the first of several words these are words: "3 in all"


def says_part(words: str) -> bool:
    """Whether words behind a number say what it is a part of: ``of core.pace``."""
    return bool(_PART_OF.match(words))


def unit_before_words(text: str) -> tuple[Unit | None, str]:
    """A unit and the words behind it: ``% of inner``, ``deg off plumb``. Without a unit all is words: ``layers``.

    Behind ``%`` anything may stand, as the name of a key that the share is of, and behind the ``of`` of
    ``0.8 of core.pace``. (None, "") for what is neither.
    """
    unit = find_unit(text)
    if unit is not None:
        return unit, ""
    if says_part(text):
        return UNITS["fraction"], text
    words = text.split()
    for length in range(min(len(words), MOST_UNIT_WORDS), 0, -1):
        unit, rest = find_unit(" ".join(words[:length])), " ".join(words[length:])
        if unit is None or not rest or words[0] in _WORD_UNITS:
            continue
        if _WORDS.fullmatch(rest) or (unit.name == "%" and rest[:1].isalpha()):
            return unit, rest
    return (None, text) if _WORDS.fullmatch(text) else (None, "")


def unit_names(kind: str) -> list[str]:
    """The names of all units of a kind."""
    return [unit.name for unit in UNITS.values() if unit.kind == kind]


# A number as far as it goes; the exponent only where digits follow, so that a unit may begin with an e.
_LEADING = late(r"[+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]+)?")
_FIGURES = ",.0123456789"
GOES_ON = frozenset(_FIGURES)


def split_quantity(text: str, decimal: str = ".") -> tuple[Fraction | None, str]:
    """The number that a text begins with and the unit text behind it; (None, text) without a number."""
    return _split(text, decimal) if len(text) <= 40 else _split.__wrapped__(text, decimal)


@lru_cache(maxsize=4096)  # a value is read, and where it changes read again to be written
def _split(text: str, decimal: str) -> tuple[Fraction | None, str]:
    text = text.strip()
    behind = text.lstrip(_FIGURES)
    if len(behind) < len(text) and behind[:1] not in ("e", "E"):  # as mostly: no sign before it, and no exponent
        number = read_number(text[: len(text) - len(behind)], decimal)
        return (None, text) if number is None else (number, behind.lstrip())
    leading = _LEADING.match(text)
    # "1.2.3" or "80,35" is not a number with a unit, and of "1e999" no part is taken for the whole.
    if not leading or text[leading.end() : leading.end() + 1] in GOES_ON:
        return None, text
    number = read_number(leading.group(), decimal)
    return (None, text) if number is None else (number, text[leading.end() :].strip())


@lru_cache(maxsize=4096)
def read_quantity(text: str, kind: str, bare: bool = False, difference: bool = False) -> Fraction | str:
    """A text such as ``"40 mm/s"`` in the canonical unit of ``kind``, or a sentence that says why not.

    bare: a number without a unit is taken as canonical. difference: a temperature difference (no zero point).
    """
    number, written = split_quantity(text)
    if number is None:
        point = " (write it with a decimal point)" if split_quantity(text, ",")[0] is not None else ""
        return f"{text!r} is not a number with a unit{point}"
    if not written:
        if kind == "count" or bare:
            return number
        return f"{text!r} has no unit; {kind} is given in {', '.join(unit_names(kind))}"
    unit = find_unit(written)
    if unit is None or unit.kind != kind:
        wanted = ", ".join(unit_names(kind)) or "no unit"
        return f"{text!r} is not {with_article(kind)}: the unit {written!r} is not one of {wanted}"
    return unit.to_canonical(number) if not difference else number if unit.factor == 1 else number * unit.factor


def with_article(kind: str) -> str:
    """``a speed``, ``an angle``."""
    return f"{'an' if kind[:1] in 'aeiou' else 'a'} {kind}"


@lru_cache(maxsize=4096)
def show_quantity(value: Fraction, kind: str, most: int = 4) -> str:
    """``40 mm/s``, ``30 %``, ``45°``, ``7``: a canonical value for a person."""
    unit = (
        CANONICAL.get(kind, "")
        .replace("mm/s2", "mm/s²")
        .replace("mm3", "mm³")
        .replace("cm3", "cm³")
        .replace("mm2", "mm²")
    )
    # Few digits for people: four behind the mark only where there are none before it.
    whole = abs(value.numerator) // value.denominator
    number = plain_text(value, most if whole < 1 else min(most, 3) if whole < 10 else min(most, 2))
    return f"{number}{unit}" if unit == "°" else f"{number} {unit}".rstrip()
