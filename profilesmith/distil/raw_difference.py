"""A line that differs in a pair and that no rule can be learnt from."""

from __future__ import annotations

from typing import Literal

from profilesmith.foundation.named_tuple import NamedTuple

RawKind = Literal["changed", "gone", "no setting"]


class RawDifference(NamedTuple):
    """kind: of a key that the map does not know, changed or gone; or a line that is no setting."""

    file: str
    line: int
    key: str
    text: str
    kind: RawKind
