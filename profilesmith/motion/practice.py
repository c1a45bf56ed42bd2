"""What the words of a machine mean where practice differs: told by the maker's words map, else not known (None)."""

from collections.abc import Mapping
from types import MappingProxyType

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion.doubt import Subject


class Practice(NamedTuple):
    """Facts of the maker's machine. None: not told, and figures that depend on it are not judged where it matters.

    dwell_p: seconds of one unit of P in G4. absolute, strand_absolute: the modes before a word says so. resets_strand:
    G90 and G91 set the mode of E too. rapid_at_feed: G0 goes at F. run_slashed: lines that begin with a slash are run.
    lines: what a remark says -> kind of line; words: unknown words -> the subjects that they change.
    """

    dwell_p: float | None = None
    absolute: bool | None = None
    strand_absolute: bool | None = None
    resets_strand: bool | None = None
    rapid_at_feed: bool | None = None
    run_slashed: bool | None = None
    filament_diameter_mm: float | None = None
    lines: Mapping[str, str] = MappingProxyType({})
    words: Mapping[str, tuple[Subject, ...]] = MappingProxyType({})
