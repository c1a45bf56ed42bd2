"""What a piece of a value reads as, and how a new value is written there.

Writing replaces only the number (or word) inside a piece, so quotes, blanks, unit suffixes and the neighbours in a list
stay as they are.

The texts of switches and choices: those that no map names, and how a state is written.
"""

from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import written_decimals
from profilesmith.foundation.quantity import UNITS, Unit, says_part, split_quantity, unit_before_words
from profilesmith.profile.profile import Departure, Grid
from profilesmith.translation.key_map import SWITCH_WORDS, Binding
from profilesmith.translation.written_number import FINEST, PLAIN, spell, style_lost, style_of, ungrouped
from profilesmith.vocabulary.setting import Setting


def unnamed(text: str, binding: Binding, words: tuple[str, ...], state: bool) -> tuple[Departure, ...]:
    """A switch's text that the map does not name; () for one that it names."""
    on, off = binding.on or words[:1], binding.off or words[1:]
    if binding.on_when is not None or not (binding.on or binding.off) or text in (*on, *off):
        return ()
    return (Departure("reads-as-on" if state else "reads-as-off", text, names=on, others=off),)


def unnamed_choice(text: str, binding: Binding, setting: Setting) -> tuple[Departure, ...]:
    """A choice's text that no entry of the map stands for; () for one that has its entry."""
    known = {text for texts in binding.choices.values() for text in texts} if binding.choices else {*setting.values}
    if text in known:
        return ()
    return (Departure("no-choice", text, names=tuple(word for word in setting.values if word not in binding.choices)),)


def write_switch(old: str, value: bool, binding: Binding, words: tuple[str, ...], like: str = "") -> str:
    """A switch's text. like: a switch of the same text, for one that is added and has no text of its own."""
    texts = binding.on if value else binding.off
    if texts:
        return texts[0]
    if words:
        return words[0 if value else 1]
    folded = (old or like).casefold()
    old = old or like
    family = next((family for family in SWITCH_WORDS if folded in family), SWITCH_WORDS[0])
    word = family[0 if value else 1]
    return word.upper() if old.isupper() else word.capitalize() if old[:1].isupper() else word


Departures = tuple[Departure, ...]


class Reading(NamedTuple):
    """What a piece says. value: canonical, or a share (1 is the whole) when ``share``. error: why it says nothing."""

    value: Fraction | bool | str = ""
    share: bool = False
    grid: Grid = Grid()
    departures: tuple[Departure, ...] = ()
    error: str = ""


def read_piece(text: str, binding: Binding, setting: Setting, decimal: str, words: tuple[str, ...]) -> Reading:
    """What one piece says."""
    if not text:
        return Reading(error="a tool has no value")
    if "\n" in text or "\r" in text:
        return Reading(error=f"{text!r} goes over several lines, and a {setting.kind} has one")
    if setting.kind == "switch":
        state = binding.is_on(text if decimal == "." else text.replace(decimal, "."), words)
        return (
            Reading(error=f"{text!r} is neither on nor off")
            if state is None
            else Reading(state, departures=unnamed(text, binding, words, state))
        )
    if setting.kind == "choice":
        word = next((word for word, texts in binding.choices.items() if text in texts), text)
        return Reading(word, departures=unnamed_choice(text, binding, setting))
    text = ungrouped(text, binding.thousands)
    number, suffix = split_quantity(text, decimal)
    if number is None:
        other = "," if decimal == "." else "."
        error = f"{text!r} is not a number"
        if split_quantity(text, other)[0] is not None:
            error += f" (this text's decimal mark is {decimal!r})"
        return Reading(error=error)
    unit, departures, error = _unit_in_force(suffix, binding, setting)
    if error:
        return Reading(error=error)
    decimals = written_decimals(text[: len(text) - len(suffix)].strip(), decimal)
    return _number(number, decimals, unit, binding, setting, departures)


def _unit_in_force(suffix: str, binding: Binding, setting: Setting) -> tuple[Unit | None, Departures, str]:
    """The unit that holds for a number: the one written behind it, else the map's.

    Words behind the unit stay as they are ("% of inner"), and so does the noun of a count ("2 layers") and what a part
    is of ("0.2 of a line", in the share that the map states). A bare degree sign is one of the map's scale, and "in" is
    the in/s that a map states.
    """
    own = binding.own_unit
    if not suffix:
        return own, (), ""
    written, words = unit_before_words(suffix)
    if setting.kind == "count" and words and (written is None or words == suffix):
        return own, (), ""
    if binding.unit is not None and binding.unit.kind == "ratio" and says_part(suffix):
        return own, (), ""
    if setting.kind == "temperature" and written is not None and written.name == "°":
        return own, (), ""
    if binding.unit is not None and written is not None and binding.unit.name in _per_time(written):
        return own, (), ""
    if written is None:
        error = f"the unit {suffix!r} is not known"
        return None, (), error
    if written.kind != setting.kind and not (binding.is_relative and written.kind == "ratio"):
        hint = " (say relative_to in the map if it is a share)" if written.kind == "ratio" else ""
        error = f"the unit {suffix!r} does not measure a {setting.kind}{hint}"
        return None, (), error
    other = () if own == written else (Departure("other-unit", suffix, own.name if own else ""),)
    return written, other, ""


def _per_time(unit: Unit) -> tuple[str, ...]:
    """The speeds that a length may stand for where a text says once that all are per second."""
    return (f"{unit.name}/s", f"{unit.name}/min") if unit.kind == "length" else ()


def _number(
    number: Fraction, decimals: int, unit: Unit | None, binding: Binding, setting: Setting, departures: Departures
) -> Reading:
    if unit is not None and binding.is_relative and unit.kind == "ratio":
        factor = unit.factor / 100
        return Reading(number * factor, True, _share_grid(number, decimals, unit, binding), departures)
    if unit is None:  # a count
        return Reading(number, False, Grid(Fraction(1), whole=True), departures)
    step = (setting.step or Fraction()).as_integer_ratio()
    places = min(max(decimals, _places_for(step, unit.factor.as_integer_ratio())), FINEST)
    duty = unit.name == "0-255" and number.denominator == 1
    grid = _grid(unit.name, 0 if duty else places, duty)
    value = unit.to_canonical(number)
    if binding.from_horizontal:
        return Reading(90 - value, False, grid._replace(zero=90 - grid.zero), departures)
    return Reading(value, False, grid, departures)


def _share_grid(number: Fraction, decimals: int, unit: Unit, binding: Binding) -> Grid:
    """The shares that a text can hold. One that is held is written with the text's own decimals, to 1 % at least."""
    held = binding.relative_to and not binding.follows
    factor = unit.factor / 100
    if held and unit.name == "0-255" and number.denominator == 1:
        return Grid(factor, whole=True)
    habit = (0 if unit.name == "%" else 2) + (not held)
    return Grid(factor / 10 ** min(max(decimals, habit), FINEST))


def is_share(text: str, binding: Binding, setting: Setting, decimal: str) -> bool:
    """Whether a piece is written as a share of its reference, not as a value of its own."""
    _, suffix = split_quantity(ungrouped(text, binding.thousands), decimal)
    unit, _, _ = _unit_in_force(suffix, binding, setting)
    return binding.is_relative and unit is not None and unit.kind == "ratio"


def unit_of(binding: Binding, setting: Setting, texts: Iterable[str]) -> str:
    """The unit that the map alone gives to some bare numbers; "" for shares, and where a text says its unit itself."""
    unit = binding.own_unit
    if unit is None or unit.kind != setting.kind or binding.is_relative:
        return ""
    return "" if any(char.isalpha() or char in "%°" for text in texts for char in text) else unit.name


@lru_cache(maxsize=256)
def _places_for(resolution: tuple[int, int], of_unit: tuple[int, int]) -> int:
    """How many decimals a unit needs so that its smallest step is no coarser than the setting's resolution.

    Both as pairs of whole numbers, whose hash takes a tenth of a fraction's; of_unit: its factor.
    """
    step, factor = Fraction(*resolution), abs(Fraction(*of_unit))
    if not step:
        return 0
    return next((places for places in range(FINEST) if factor / 10**places <= step), FINEST)


@lru_cache(maxsize=1024)
def _grid(unit_name: str, places: int, duty: bool) -> Grid:
    """The numbers of a unit with so many decimals. duty: whole numbers only."""
    unit = UNITS[unit_name]
    return Grid(unit.factor / 10**places, unit.to_canonical(Fraction(0)), duty)


def new_grid(binding: Binding, setting: Setting) -> Grid:
    """The numbers that could be written where the text has no value yet."""
    if not setting.is_number:
        return Grid()
    return _number(Fraction(), 0, binding.own_unit, binding, setting, ()).grid


def write_piece(
    old: str,
    value: Fraction | bool | str,
    binding: Binding,
    setting: Setting,
    decimal: str,
    words: tuple[str, ...],
    like: str = "",
) -> str:
    """A piece with a new value. value: canonical, or a share for a number that is written relative."""
    if isinstance(value, bool):
        return write_switch(old, value, binding, words, like)
    if isinstance(value, str):
        return binding.choices.get(value, (value,))[0]
    return write_number(old, value, binding, setting, decimal)[0]


def write_number(
    old: str, value: Fraction, binding: Binding, setting: Setting, decimal: str
) -> tuple[str, tuple[str, ...]]:
    """A piece with a new number, and what of the old one's style that cannot show; () for nothing."""
    head, tail = _number_and_rest(old, binding, decimal)
    unit, _, _ = _unit_in_force(tail.strip(), binding, setting)
    if binding.is_relative and unit is not None and unit.kind == "ratio":
        written = value * 100 / unit.factor
    else:
        canonical = 90 - value if binding.from_horizontal else value
        written = unit.from_canonical(canonical) if unit is not None else canonical
    style = style_of(head, decimal, binding.thousands) if head else PLAIN
    new = spell(written, style, decimal, binding.thousands) + tail
    if not head or style.is_plain:
        return new, ()
    number, _ = _number_and_rest(new, binding, decimal)
    return new, style_lost(head, number, decimal, binding.thousands) if number else ()


def _number_and_rest(text: str, binding: Binding, decimal: str) -> tuple[str, str]:
    """A piece's number as written, and what stands behind it; nothing of a text that is no number."""
    number, suffix = split_quantity(ungrouped(text, binding.thousands), decimal)
    head = text[: len(text) - len(suffix)].rstrip() if number is not None else ""
    return head, text[len(head) :] if head else ""
