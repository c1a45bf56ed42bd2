"""Where a setting is written in the base files."""

from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.translation.find_keys import KeyLine
from profilesmith.translation.key_map import Binding
from profilesmith.translation.pieces import Span


class Spot(NamedTuple):
    """Where a setting is written. lines: all lines that say it; spans: the pieces in ``raw``, its first line's text."""

    binding: Binding
    lines: tuple[KeyLine, ...]
    spans: tuple[Span, ...]
    constant: Fraction | None = None
    raw: str = ""
