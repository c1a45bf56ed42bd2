"""Units in words: ``mm per second squared``, ``Millimeter pro Minute``. Imports nothing of units."""

from profilesmith.foundation.late_pattern import late

# They are made of few: a length, "per", a time. English, German, French.
_PER = r"(?i)(?:/|,?\s+(?:in an?|in one|per|an?|each|every|pro|je|par|die)\s+)"
_IN_WORDS = tuple(
    (late(pattern), sign)
    for pattern, sign in (
        (r"(?i)\b(?:cubic |kubik|k\.? ?)(?:mm|millimet(?:er|re)s?)\b|\bmillimètres? cubes?\b|\bmm cubes?d?\b", "mm3"),
        (r"(?i)\bmilli(?:met(?:er|re)s?|mètres?)\b", "mm"),
        (r"(?i)\bcenti(?:met(?:er|re)s?|mètres?)\b|\bzentimeter\b", "cm"),
        (r"(?i)\b(?:met(?:er|re)s?|mètres?)\b", "m"),
        (r"(?i)\b(?:inch(?:es)?|zoll|pouces?)\b", "in"),
        (_PER + r"(?:seconds?|secs?|sekunden?|sek\.?|secondes?|s)\b", "/s"),
        (_PER + r"(?:minutes?|mins?|minuten?|mn)\b", "/min"),
        (r"(?i)/s(?:/s|,?\s*(?:and )?(?:squared|im quadrat|au carré|carrée?)|²)", "/s2"),
    )
)


def with_signs(text: str) -> str:
    """A unit in words with signs in place of these: ``mm per second squared`` is ``mm/s2``."""
    for pattern, sign in _IN_WORDS:
        text = pattern.sub(sign, text)
    return text
