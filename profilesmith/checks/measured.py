"""What was measured on the print or in its motion file, where that is known: it takes the place of brackets."""

from typing import NamedTuple


class Measure(NamedTuple):
    """One print. hours: on the machine; grams: of filament; flow_mm3_s: the most of any line. None: not known."""

    hours: float | None = None
    grams: float | None = None
    flow_mm3_s: float | None = None


class Measured(NamedTuple):
    """The print as the old profile and as the new one make it."""

    before: Measure = Measure()
    after: Measure = Measure()


UNKNOWN = Measured()
