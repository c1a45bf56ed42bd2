"""What a key says of its unit: as its last word (``bore_mm``), or in a bracket (``pace (mm/s)``, ``pace (% of the
core's)``).
"""

import re

from profilesmith.foundation.quantity import find_unit
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.remark_names import name_in
from profilesmith.suggest.remark_units import named_units, speaks_of_share

# Units as the last word of a key; single letters only where the key writes them apart: ``bore_mm``, ``settle_s``.
_KEY_UNITS = {
    "mm": "mm",
    "um": "um",
    "cm": "cm",
    "in": "in",
    "inch": "in",
    "s": "s",
    "ms": "ms",
    "sec": "s",
    "min": "min",
    "deg": "°",
    "rad": "rad",
    "pct": "%",
    "prc": "%",
    "percent": "%",
    "c": "°C",
    "f": "°F",
    "k": "K",
    "mms": "mm/s",
    "mmps": "mm/s",
    "mmpm": "mm/min",
    "mmm": "mm/min",
    "ips": "in/s",
    "mm3s": "mm3/s",
    "mms2": "mm/s2",
    "byte": "0-255",
    "pwm": "0-255",
    "mil": "mil",
    "mils": "mil",
    "thou": "mil",
    "micron": "um",
    "microns": "um",
}


def unit_behind(key: str) -> list[str]:
    """The unit that a key ends with, behind ``_``, a blank or a bracket, or as a hump of its own (``LeastMs``)."""
    tail = re.search(r"[\s_.\-\[(/]([A-Za-zµ°%/²³2-3]+)[\])]?$", key)
    if tail:
        last = tail[1].casefold()
        if last in _KEY_UNITS:
            return [_KEY_UNITS[last]]
        unit = find_unit(tail[1]) if "/" in tail[1] or tail[1] in ("°", "%", "µm") else None
        return [unit.name] if unit else []
    two = re.search(r"([a-z])_?(mm|um|ms|cm|deg|pct)_(s|sec|min)$", key)
    if two:
        return []
    hump = re.search(r"[a-z](Mm|Um|Ms|Cm|Sec|Deg|Rad|Pct|Percent|MM|UM|MS|Byte)$", key)
    return [_KEY_UNITS[hump[1].casefold()]] if hump and hump[1].casefold() in _KEY_UNITS else []


_ASIDE = re.compile(r"(.*\S)\s*[(\[]([^()\[\]]*)[)\]]")


def parted(key: str, lexicon: Lexicon) -> tuple[str, str]:
    """A key, and what its bracket says of units and shares: ``pace of props (% of the core's)``."""
    aside = _ASIDE.fullmatch(key)
    if aside and (speaks_of_share(aside[2], lexicon) or _is_unit(aside[2], lexicon)):
        return aside[1], aside[2]
    return key, ""


def _is_unit(text: str, lexicon: Lexicon) -> bool:
    return bool(named_units(text, lexicon.units)) and not name_in(text, lexicon.units)
