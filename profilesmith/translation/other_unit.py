"""Which other unit would make a bare number a value that its setting can have."""

from profilesmith.foundation.number import read_number
from profilesmith.foundation.quantity import find_unit, unit_names
from profilesmith.vocabulary.setting import Setting


def other_unit_hint(text: str, setting: Setting) -> str:
    """``: unit = "um" would make it 0.02 mm``: the first that fits, "" where none does or the text has a unit."""
    number = read_number(text.strip())
    if number is None:
        return ""
    for name in unit_names(setting.kind):
        unit = find_unit(name)
        value = unit.to_canonical(number) if unit else None
        if value is not None and not setting.implausible(value):
            return f': unit = "{name}" would make it {setting.show(value)}'
    return ""
