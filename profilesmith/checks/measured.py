"""What was measured on the print or in its motion file, where that is known: it takes the place of brackets."""

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Figures
from profilesmith.physics.answer import Bracket


class Measure(NamedTuple):
    """One print. hours: on the machine; grams: of filament; flow_mm3_s: the most of any line. None: not known."""

    hours: Bracket | None = None
    grams: float | None = None
    flow_mm3_s: float | None = None


class Measured(NamedTuple):
    """The print as the old profile and as the new one make it.

    time_ratio: new over old on one machine, where it is known more narrowly than the two times tell it.
    figures: what was measured over the layers, to be drawn beside the checks' own.
    """

    before: Measure = Measure()
    after: Measure = Measure()
    time_ratio: Bracket | None = None
    figures: Figures = ()


UNKNOWN = Measured()
