"""What the machine was told beside moving: heat, fan, waits. Kept as it stands while something is laid."""

from profilesmith.motion.figures import Layer

_TARGETS = ("nozzle", "bed", "chamber", "fan")
_ORDERS = frozenset(
    ("print-acceleration", "travel-acceleration", "acceleration-limit", "sudden", "speed-limit", "speed-factor")
)
MOST_KEPT = 50  # different values of one order


class MachineLog:
    """targets: as ordered last, None before any; heat_before: whether the nozzle was waited for before laying began."""

    def __init__(self) -> None:
        self.targets: dict[str, float | None] = dict.fromkeys(_TARGETS)
        self.orders: dict[str, set[float]] = {}
        self.dwells = [0.0, 0.0]
        self.heatings = 0
        self.persons: list[int] = []
        self.waited: set[str] = set()
        self.heat_before: bool | None = None
        self.diameter: float | None = None
        self.shut_down = False
        self.origins: list[tuple[str, int]] = []
        self._noted: Layer | None = None  # the layer that knows all of this already

    def note(self, kind: str, value: float | str, line: int, laying: bool) -> None:
        """One event. laying: something was laid already."""
        self._noted = None
        if kind in self.targets:
            self.targets[kind] = float(value)
            if kind == "nozzle":
                self.shut_down = laying and float(value) == 0.0
        elif kind in _ORDERS:
            held = self.orders.setdefault(kind, set())
            if len(held) < MOST_KEPT:
                held.add(float(value))
        elif kind == "dwell":
            self.dwells = [held + float(value) for held in self.dwells]
        elif kind == "dwell-p":  # milliseconds or seconds
            self.dwells = [self.dwells[0] + float(value) / 1000.0, self.dwells[1] + float(value)]
        else:
            self._other(kind, value, line, laying)

    def _other(self, kind: str, value: float | str, line: int, laying: bool) -> None:
        if kind == "heating":
            self.heatings += 1
            self.waited.add(str(value))
        elif kind == "person" and len(self.persons) < MOST_KEPT:
            self.persons.append(line)
        elif kind == "motors-off":
            self.shut_down = self.shut_down or laying
        elif kind == "diameter":
            self.diameter = float(value)
        elif kind == "origin" and len(self.origins) < MOST_KEPT:
            self.origins.append((str(value), line))

    def while_laying(self, layer: Layer) -> None:
        """Something is laid in this layer now."""
        if layer is self._noted:
            return
        self._noted = layer
        self.shut_down = False
        if self.heat_before is None:
            self.heat_before = "nozzle" in self.waited
        targets = self.targets
        layer.fan.add(targets["fan"] or 0.0)
        if targets["nozzle"] is not None:
            layer.nozzle.add(targets["nozzle"])
        if targets["bed"] is not None:
            layer.bed.add(targets["bed"])
        if targets["chamber"] is not None:
            layer.chamber.add(targets["chamber"])
