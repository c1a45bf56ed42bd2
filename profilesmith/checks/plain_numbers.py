"""A profile's values as the checks reckon with them: the first tool's, as a float, a count, a switch or a word."""

from fractions import Fraction

from profilesmith.profile.profile import Profile


def number(profile: Profile, setting: str) -> float | None:
    """The first tool's number. The division is what ``float`` does with a fraction, after asking what it is."""
    entry = profile.entries.get(setting)
    if entry is None:
        return None
    value = entry.values[0]
    if type(value) is not Fraction:
        return None
    top, bottom = value.as_integer_ratio()
    return top / bottom


def size(profile: Profile, setting: str) -> float | None:
    """A number above zero, or None."""
    value = number(profile, setting)
    return value if value and value > 0 else None


def count(profile: Profile, setting: str) -> int | None:
    """A whole number, zero or above, or None."""
    value = profile.number(setting)
    return value.numerator if value is not None and value.denominator == 1 and value.numerator >= 0 else None


def switch(profile: Profile, setting: str) -> bool | None:
    """On or off; None when not known."""
    values = profile.values(setting)
    return values[0] if values and isinstance(values[0], bool) else None


def choice(profile: Profile, setting: str) -> str:
    """A choice's word; "" when not known."""
    values = profile.values(setting)
    return values[0] if values and isinstance(values[0], str) else ""
