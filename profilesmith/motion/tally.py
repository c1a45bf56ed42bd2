"""Counts rows into layers, kinds of line, pulls and times. Walks from one change to the next, never row by row."""

from itertools import compress, islice, pairwise
from math import dist
from operator import ne
from types import ModuleType

from profilesmith.motion.clock import Timed
from profilesmith.motion.doubt import Doubts
from profilesmith.motion.figures import PREPARATION, Figures, KindSum, Layer, Times
from profilesmith.motion.flow_meter import FlowMeter
from profilesmith.motion.machine_log import MachineLog
from profilesmith.motion.parallels import LINED, Parallels
from profilesmith.motion.parts import Moves, Parts
from profilesmith.motion.practice import Practice
from profilesmith.motion.rows import Rows
from profilesmith.motion.state import State
from profilesmith.motion.travel import Between, PullTally
from profilesmith.physics.answer import Bracket

# A stretch this long tells its own section; a shorter one is mostly rounding.
LONG_ENOUGH_MM = 5.0
# A loop ends this near to where it began: the gap that is left for the seam [common practice, no source].
CLOSED_MM = 0.8
_DIGITS = 4


class _Stretch:
    """What is being laid without a break."""

    __slots__ = ("kind", "length", "start", "strand", "sum")

    def __init__(self, kind: str, held: KindSum, start: tuple[float, float]) -> None:
        self.kind, self.sum, self.start = kind, held, start
        self.length = self.strand = 0.0


class FigureTally:
    """Figures in the making."""

    def __init__(self, practice: Practice, columns: ModuleType) -> None:
        self.practice, self.columns = practice, columns
        self.layers: dict[float, Layer] = {}
        self.flow = FlowMeter()
        self.parallels = Parallels()
        self.pulls = PullTally()
        self.log = MachineLog()
        self.kind = PREPARATION if practice.lines else ""
        self.gap: Between | None = None
        self.stretch: _Stretch | None = None
        self.fed = 0.0
        self.moving, self.travels, self.pulling = [0.0, 0.0], [0.0, 0.0], [0.0, 0.0]
        self.laid_rows = 0
        self.top_speed = 0.0
        self.first_laid_z: float | None = None
        self._here: tuple[float, str] | None = None  # height and kind of the last laid row, and what they add up in
        self._sums: tuple[Layer, KindSum]

    def no_doubts(self) -> Doubts:
        return Doubts()

    def take(self, rows: Rows, moves: Moves, timed: Timed) -> None:
        """The first ``timed.rows`` rows."""
        parts = Parts(rows, moves, timed, self._places(rows, moves.laid, timed.rows), self.columns)
        ordered, count = self.columns.as_list(timed.ordered), timed.rows
        self.flow.extend(parts.lengths[:count], rows.strand[:count], ordered[:count], moves.laid[:count])
        events = iter(rows.events)
        event = next(events, None)
        for number, (begin, end) in enumerate(pairwise(parts.places)):
            while event is not None and event.at <= begin:
                here = (rows.x[begin - 1], rows.y[begin - 1]) if begin else rows.first[:2]
                self._event(event.kind, event.value, event.line, here)
                event = next(events, None)
            if moves.laid[begin]:
                self._lay(parts, number, begin, end)
            else:
                self._between(parts, number, begin, end)
        for at, column in enumerate((parts.quick, parts.slow)):
            self.moving[at] += sum(column)
        self.top_speed = max(self.top_speed, max(parts.speed, default=0.0))
        self.flow.judge()

    def _places(self, rows: Rows, laid: list[bool], count: int) -> list[int]:
        """Where laying begins or ends, or something is told."""
        cuts = {0, count, *(at for at in _changes(laid) if at < count)}
        cuts.update(event.at for event in rows.events if event.at < count)
        return sorted(cuts)

    def finish(self, rows: Rows) -> None:
        """The file is over: what is open is closed."""
        for event in rows.events:
            self._event(event.kind, event.value, event.line, rows.first[:2])
        self._close_stretch(rows.first[:2])
        self.flow.judge(final=True)

    def _event(self, kind: str, value: float | str, line: int, here: tuple[float, float]) -> None:
        if kind == "kind":
            if value != self.kind:
                self._close_stretch(here)
            self.kind = str(value)
        else:
            self.log.note(kind, value, line, bool(self.layers))

    def _lay(self, parts: Parts, number: int, begin: int, end: int) -> None:
        rows, laid_mm, fed_mm = parts.rows, parts.length[number], parts.strand[number]
        layer, held = self._where(rows, begin)
        if self.gap is not None:
            if self.laid_rows:
                self.pulls.close(self.gap, layer.z, self.fed, self.kind)
            self.gap = None
        if self.stretch is None:
            held.stretches += 1
            start = (rows.x[begin - 1], rows.y[begin - 1]) if begin else rows.first[:2]
            self.stretch = _Stretch(self.kind, held, start)
        self.stretch.length += laid_mm
        self.stretch.strand += fed_mm
        held.add(laid_mm, fed_mm, parts.quick[number], parts.slow[number])
        self.fed += fed_mm
        if parts.speed[number] > held.top_speed:
            held.top_speed = parts.speed[number]
            held.top_line = rows.line[rows.speed.index(held.top_speed, begin)]
        if parts.slope[number]:
            layer.sloped += laid_mm
        if self.kind in LINED:
            self.parallels.take(parts, held, begin, end)
        self.log.while_laying(layer)
        self.flow.add(parts.flow[number], (begin, end), self.kind, layer.z, parts)
        self.laid_rows += end - begin
        if end < len(parts.laid) and not parts.laid[end]:
            self._close_stretch((rows.x[end - 1], rows.y[end - 1]))

    def _where(self, rows: Rows, at: int) -> tuple[Layer, KindSum]:
        """The layer and the kind of line that a row belongs to; mostly those of the row before."""
        here = rows.z[at], self.kind
        if here != self._here:
            z = round(here[0], _DIGITS)
            layer = self.layers.get(z)
            if layer is None:
                layer = self.layers[z] = Layer(z, rows.line[at], len(self.layers))
                self.first_laid_z = z if self.first_laid_z is None else self.first_laid_z
            held = layer.kinds.get(self.kind)
            if held is None:
                held = layer.kinds[self.kind] = KindSum()
            self._here, self._sums = here, (layer, held)
        return self._sums

    def _close_stretch(self, end: tuple[float, float]) -> None:
        stretch, self.stretch = self.stretch, None
        if stretch is None:
            return
        if stretch.length > LONG_ENOUGH_MM and dist(stretch.start, end) < CLOSED_MM:
            stretch.sum.loops += 1
        if stretch.length >= LONG_ENOUGH_MM:
            stretch.sum.section.add(stretch.strand / stretch.length)

    def _between(self, parts: Parts, number: int, begin: int, end: int) -> None:
        rows = parts.rows
        if self.stretch is not None:
            self._close_stretch((rows.x[begin - 1], rows.y[begin - 1]) if begin else rows.first[:2])
        if self.gap is None:
            self.gap = Between()
        seconds = self.gap.take(parts, begin, end)
        for at, own in enumerate((parts.quick[number], parts.slow[number])):
            self.travels[at] += own
            self.pulling[at] += seconds
            self.moving[at] += seconds

    def figures(self, state: State) -> Figures:
        """All of it, layers by height."""
        log = self.log
        limits = log.orders.get("speed-limit", ())
        if limits and min(limits) < self.top_speed:
            state.doubt("speed-limit", "M203", "time")
        least, most = log.dwells
        return Figures(
            layers=tuple(self.layers[z] for z in sorted(self.layers)),
            pulls=self.pulls.pulls,
            times=Times(
                moving=_bracket(self.moving[0] + least, self.moving[1] + most),
                travels=_bracket(*self.travels),
                pulls=_bracket(*self.pulling),
                dwells=Bracket(least, most),
                heating=log.heatings,
                persons=tuple(log.persons),
            ),
            flows=self.flow.by_kind(),
            worst_flows=self.flow.worst(),
            layer_flows=self.flow.by_height(),
            travel_speed=self.pulls.fastest,
            fed=self.fed,
            accelerations={name: tuple(sorted(held)) for name, held in log.orders.items()},
            heat_before=log.heat_before,
            doubts=tuple(state.doubts),
            notes=dict(state.seen),
            diameter_told=log.diameter,
            lines=state.line - 1,
            laid_rows=self.laid_rows,
            end_told=bool(state.ended) or log.shut_down,
            kinds_told=any(kind not in ("", PREPARATION) for layer in self.layers.values() for kind in layer.kinds),
            targets=dict(log.targets),
            origins=tuple(log.origins),
            first_laid_z=self.first_laid_z,
        )


def _bracket(quick: float, slow: float) -> Bracket:
    """Ends that differ by rounding alone may stand the wrong way round."""
    return Bracket(min(quick, slow), max(quick, slow))


def _changes(flags: list[bool]) -> list[int]:
    """Where a flag differs from the one before."""
    return list(compress(range(1, len(flags)), map(ne, flags, islice(flags, 1, None))))
