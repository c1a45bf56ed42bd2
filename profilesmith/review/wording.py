"""Values in words: several tools, relative change, strangers' text made harmless."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction
from typing import Protocol

from profilesmith.foundation.number import decimal_text, less
from profilesmith.foundation.quantity import show_quantity
from profilesmith.profile.profile import Entry
from profilesmith.vocabulary.setting import Setting, Value

LONGEST = 400
KEPT = "\u00a0"
"""A blank between words that belong together, such as a number and its unit: no place to break a line."""
EDITS_UNKNOWN = "the ledger beside it cannot be read, so whether it was edited is not known"


def show_values(setting: Setting, values: tuple[Value, ...]) -> str:
    """``40 mm/s``, or one for each tool where they differ: ``210 °C | 215 °C``."""
    if not values:
        return "-"
    shown = [visible(setting.show(value)) for value in values]
    return shown[0] if len(set(shown)) == 1 else " | ".join(shown)


def share_words(entry: Entry) -> str:
    """``60 % of outer_wall.speed``, one for each tool where they differ; "" for values written in full."""
    shown = (None if share is None else show_quantity(share * 100, "ratio") for share in entry.shares)
    texts = ["in full" if share is None else f"{share} of {entry.relative_to}" for share in shown]
    if all(share is None for share in entry.shares):
        return ""
    return texts[0] if len(set(texts)) == 1 else " | ".join(texts)


def relative_change(base: tuple[Value, ...], derived: tuple[Value, ...], setting: Setting) -> str:
    """``-50 %``, of a temperature ``+10 °C``, of a share ``+18 points``; "" where it says nothing."""
    if not base or not derived or base == derived:
        return ""
    before, after = base[0], derived[0]
    if not isinstance(before, Fraction) or not isinstance(after, Fraction) or before == after:
        return ""
    sign, step = ("+", after - before) if less(before, after) else ("-", before - after)
    if setting.kind == "temperature":
        return f"{sign}{decimal_text(step, 1)} °C"
    if setting.kind == "ratio":
        return f"{sign}{decimal_text(step, 1)} {'point' if step == 1 else 'points'}"
    if setting.kind in ("count", "angle") or not before:
        return f"{sign}{decimal_text(step, 2)}"
    return f"{sign}{decimal_text(step / abs(before) * 100, 0)} %"


def visible(text: str) -> str:
    """Strangers' text with control characters and direction marks shown, and cut to a bearable length."""
    if text.isprintable() and len(text) <= LONGEST:
        return text
    safe = signs_shown(text[: LONGEST + 1])
    return f"{safe[:LONGEST]}…" if len(text) > LONGEST else safe


def are_visible(texts: Collection[str]) -> bool:
    """Whether ``visible`` leaves all of some texts as they are, as mostly."""
    return "".join(texts).isprintable() and max(map(len, texts), default=0) <= LONGEST


def signs_shown(text: str) -> str:
    """The same for one line of any length."""
    return "".join(char if char.isprintable() or _harmless(char) else f"\\u{ord(char):04x}" for char in text)


def _harmless(char: str) -> bool:
    if char.isascii():
        return char.isprintable()
    import unicodedata  # a library of its own: loaded for texts that need it

    return unicodedata.category(char) not in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")


class Keyed(Protocol):
    """What stands under a key, in a section of the text or in none."""

    @property
    def key(self) -> str: ...
    @property
    def section(self) -> str: ...


def key_words(place: Keyed) -> str:
    """``[supports] feed``: sections often hold keys of the same name."""
    return visible(f"[{place.section}] {place.key}" if place.section and place.key else place.key)
