"""Counts rows into layers, kinds of line, pulls and times. Walks from one change to the next, never row by row."""

from itertools import compress, islice, pairwise
from math import dist, fsum
from operator import ne

from profilesmith.motion.clock import Timed
from profilesmith.motion.doubt import Doubts
from profilesmith.motion.figures import PREPARATION, Figures, KindSum, Layer, Times
from profilesmith.motion.flow_meter import FlowMeter
from profilesmith.motion.machine_log import MachineLog
from profilesmith.motion.parallels import LINED, Parallels
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


class Tally:
    """Figures in the making."""

    def __init__(self, practice: Practice) -> None:
        self.practice = practice
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

    def no_doubts(self) -> Doubts:
        return Doubts()

    def take(
        self,
        rows: Rows,
        moves: tuple[list[float], list[float], list[float], list[float]],
        laid: list[bool],
        timed: Timed,
    ) -> None:
        """The first ``timed.rows`` rows."""
        count = timed.rows
        cuts = {0, count, *(at for at in _changes(laid) if at < count)}
        cuts.update(event.at for event in rows.events if event.at < count)
        events = iter(rows.events)
        event = next(events, None)
        places = sorted(cuts)
        for begin, end in pairwise(places):
            while event is not None and event.at <= begin:
                here = (rows.x[begin - 1], rows.y[begin - 1]) if begin else rows.first[:2]
                self._event(event.kind, event.value, event.line, here)
                event = next(events, None)
            if laid[begin]:
                self._lay(rows, moves, timed, begin, end)
            else:
                self._between(rows, moves, timed, begin, end)
        self.top_speed = max(self.top_speed, max(rows.speed[:count], default=0.0))
        self.flow.judge()

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

    def _lay(self, rows: Rows, moves: tuple[list[float], ...], timed: Timed, begin: int, end: int) -> None:
        length, strand = moves[3][begin:end], rows.strand[begin:end]
        speed, lines = rows.speed[begin:end], rows.line[begin:end]
        z = round(rows.z[begin], _DIGITS)
        if self.gap is not None:
            if self.layers:
                self.pulls.close(self.gap, z, self.fed, self.kind)
            self.gap = None
        layer = self._layer(z, lines[0])
        if self.first_laid_z is None:
            self.first_laid_z = z
        held = layer.kinds.get(self.kind)
        if held is None:
            held = layer.kinds[self.kind] = KindSum()
        if self.stretch is None:
            held.stretches += 1
            start = (rows.x[begin - 1], rows.y[begin - 1]) if begin else rows.first[:2]
            self.stretch = _Stretch(self.kind, held, start)
        laid_mm, fed_mm = fsum(length), fsum(strand)
        self.stretch.length += laid_mm
        self.stretch.strand += fed_mm
        held.length += laid_mm
        held.strand += fed_mm
        self.fed += fed_mm
        fastest = max(speed)
        if fastest > held.top_speed:
            held.top_speed, held.top_line = fastest, lines[speed.index(fastest)]
        if any(moves[2][begin:end]):
            layer.sloped += laid_mm
        if self.kind in LINED:
            self.parallels.take(rows, moves, held, begin, end)
        self._spend(layer, held, timed, begin, end)
        self.log.while_laying(layer)
        self.flow.add((length, strand, timed.ordered[begin:end], timed.flow[begin:end]), self.kind, z, lines)
        self.laid_rows += end - begin
        if end < len(rows) and not (moves[3][end] > 0.0 and rows.strand[end] > 0.0):
            self._close_stretch((rows.x[end - 1], rows.y[end - 1]))

    def _spend(self, layer: Layer, held: KindSum, timed: Timed, begin: int, end: int) -> None:
        quick, slow = fsum(timed.quick[begin:end]), fsum(timed.slow[begin:end])
        held.fast += quick
        held.slow += slow
        layer.fast += quick
        layer.slow += slow
        self.moving[0] += quick
        self.moving[1] += slow

    def _close_stretch(self, end: tuple[float, float]) -> None:
        stretch, self.stretch = self.stretch, None
        if stretch is None:
            return
        if stretch.length > LONG_ENOUGH_MM and dist(stretch.start, end) < CLOSED_MM:
            stretch.sum.loops += 1
        if stretch.length >= LONG_ENOUGH_MM:
            stretch.sum.section.add(stretch.strand / stretch.length)

    def _layer(self, z: float, line: int) -> Layer:
        layer = self.layers.get(z)
        if layer is None:
            layer = self.layers[z] = Layer(z, line, len(self.layers))
        return layer

    def _between(self, rows: Rows, moves: tuple[list[float], ...], timed: Timed, begin: int, end: int) -> None:
        if self.stretch is not None:
            self._close_stretch((rows.x[begin - 1], rows.y[begin - 1]) if begin else rows.first[:2])
        if self.gap is None:
            self.gap = Between()
        jumps = rows.jumps
        dx, dy, _, length = moves
        for at in range(begin, end):
            flat = (dx[at] * dx[at] + dy[at] * dy[at]) ** 0.5
            self.gap.add(rows, at, length[at], flat, at in jumps)
            self._travel_time(rows, at, length[at], timed)

    def _travel_time(self, rows: Rows, at: int, length: float, timed: Timed) -> None:
        quick, slow, speed = timed.quick[at], timed.slow[at], rows.speed[at]
        if length:
            held = self.travels
        else:
            held = self.pulling
            quick = slow = abs(rows.strand[at]) / speed
        held[0] += quick
        held[1] += slow
        self.moving[0] += quick
        self.moving[1] += slow

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
                moving=Bracket(self.moving[0] + least, self.moving[1] + most),
                travels=Bracket(*self.travels),
                pulls=Bracket(*self.pulling),
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


def _changes(flags: list[bool]) -> list[int]:
    """Where a flag differs from the one before."""
    return list(compress(range(1, len(flags)), map(ne, flags, islice(flags, 1, None))))
