"""Patterns of quantities: what ``foundation/quantity.py`` reads, as regular expressions that editors know too (ECMA
262).
"""

from __future__ import annotations

import re
from functools import cache

from profilesmith.foundation.quantity import SPELLINGS, UNITS

# No two parts that follow one another can match the same text, so the time is linear in its length. Not even a share of
# a number is taken for one: no digit may follow it.
NUMBER = r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,2})?(?![0-9.,])"
SIGN = "(?:>=|<=|!=|>|<|=)"
# 100 Shore A, 92A, Shore 45 D; read without regard to case.
HARDNESS = r"^\s*(?:[Ss]hore\s*)?\+?(?:100(?:\.0*)?|[0-9]{1,2}(?:\.[0-9]*)?)\s*(?:[Ss]hore\s*)?[AaDd]\s*$"
_RAISED = {"2": r"(?:2|²|\^2|\*\*2)", "3": r"(?:3|³|\^3|\*\*3)"}


@cache
def unit(kind: str) -> str:
    """All spellings of a kind's units; "" for a kind that has none."""
    spellings = {name for name, item in UNITS.items() if item.kind == kind}
    spellings |= {text for text, name in SPELLINGS.items() if UNITS[name].kind == kind}
    return (
        f"(?:{'|'.join(_spelling(text) for text in sorted(spellings, key=lambda text: (-len(text), text)))})"
        if spellings
        else ""
    )


def _spelling(text: str) -> str:
    """A spelling in small letters is read in any case; one with a capital only so. ``mm2`` may be mm², mm^2 or
    mm**2.
    """
    folds = text == text.lower()
    signs = []
    for at, sign in enumerate(text):
        raised = _RAISED.get(sign) if at and text[at - 1].isalpha() else None
        either = f"[{sign.upper()}{sign}]" if folds and sign.isascii() and sign.isalpha() else ""
        signs.append(raised or either or re.sub(r"([.^$*+?()\[\]{}|\\])", r"\\\1", sign))
    return "".join(signs)


def bare_quantity(kind: str) -> str:
    """``40 mm/s`` and blanks behind it, to be put into a longer pattern."""
    known = unit(kind)
    return rf"{NUMBER}\s*{known}\s*" if known else rf"{NUMBER}\s*"


def quantity(kind: str) -> str:
    """A whole text that is a quantity."""
    return rf"^\s*{bare_quantity(kind)}$"


def window(kind: str) -> str:
    """``210 °C to 220 °C``."""
    return rf"^\s*{bare_quantity(kind)}(?: to |,)\s*{bare_quantity(kind)}$"


def comparison(kind: str) -> str:
    """``> 40 mm``, or a quantity alone."""
    return rf"^\s*(?:{SIGN}\s*)?{bare_quantity(kind)}$"


def number_comparison() -> str:
    """``> 0``."""
    return rf"^\s*{SIGN}\s*{NUMBER}\s*$"
