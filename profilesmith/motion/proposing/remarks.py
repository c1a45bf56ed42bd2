"""All remarks of a file that may tell a kind of line, with what is laid after each."""

from collections.abc import Iterable, Iterator, Mapping

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion.figures import PREPARATION, Figures
from profilesmith.motion.measure import measure
from profilesmith.motion.practice import Practice

MOST_REMARKS = 200
MOST_LETTERS = 80


class EveryRemark(Mapping[str, str]):
    """Takes each remark for a kind of its own. One with digits is a count or a height, which names no kind."""

    def __init__(self) -> None:
        self.known: dict[str, str] = {}

    def __getitem__(self, remark: str) -> str:
        if remark in self.known:
            return self.known[remark]
        plain = remark and len(remark) <= MOST_LETTERS and not any(char.isdigit() for char in remark)
        if not plain or len(self.known) >= MOST_REMARKS:
            raise KeyError(remark)
        self.known[remark] = remark
        return remark

    def __iter__(self) -> Iterator[str]:
        return iter(self.known)

    def __len__(self) -> int:
        return max(1, len(self.known))  # never empty: what comes before the first remark is preparation


class Trace(NamedTuple):
    """What is laid after one remark. layers: indices from below; loops: share of stretches that close; mean: mm
    of one.
    """

    remark: str
    layers: tuple[int, ...]
    stretches: int
    loops: float
    mean: float
    length: float
    top_speed: float


def read_remarks(portions: Iterable[bytes]) -> tuple[Figures, tuple[Trace, ...]]:
    """The figures of a file, and the traces of its remarks in the order of their first layer. Raises
    ``LineTooLong``.
    """
    figures = measure(portions, Practice(lines=EveryRemark()))
    by_remark: dict[str, list[tuple[int, int, int, float, float]]] = {}
    for at, layer in enumerate(figures.layers):
        for kind, held in layer.kinds.items():
            by_remark.setdefault(kind, []).append((at, held.stretches, held.loops, held.length, held.top_speed))
    by_remark.pop(PREPARATION, None)
    return figures, tuple(_trace(remark, rows) for remark, rows in by_remark.items())


def _trace(remark: str, rows: list[tuple[int, int, int, float, float]]) -> Trace:
    stretches = sum(row[1] for row in rows) or 1
    length = sum(row[3] for row in rows)
    return Trace(
        remark,
        tuple(row[0] for row in rows),
        stretches,
        sum(row[2] for row in rows) / stretches,
        length / stretches,
        length,
        max(row[4] for row in rows),
    )
