"""How `weir` puts strokes on paper: the words of the file, and the tally of what they say once they are rounded."""

from __future__ import annotations

import math

from tests.motion.generators.weir_shapes import Hand, Spot, Stroke, Want, span

WORDS = {
    "german": {
        "outer_wall": "Aussenhaut",
        "inner_wall": "Innenhaut",
        "infill": "Flechtwerk",
        "top": "Deckel zu",
        "bottom": "Sohle",
        "support": "Gerüst",
        "raft": "Floß",
        "skirt": "Anlaufring",
    },
    "english": {
        "outer_wall": "rind",
        "inner_wall": "backing rind",
        "infill": "lattice",
        "top": "lid",
        "bottom": "sole",
        "support": "props",
        "raft": "pontoon",
        "skirt": "test lap",
    },
}


def section(width: float, height: float) -> float:
    return (width - height) * height + math.pi * height**2 / 4


def word(letter: str, value: float, digits: int) -> str:
    shown = f"{value:.{digits}f}"
    if "." in shown:
        shown = shown.rstrip("0").rstrip(".")
    return letter + ("0" if shown == "-0" else shown)


class Quill:
    """Writes lines and keeps the tally of what they say. Positions and E are held in the unit of the file, rounded."""

    def __init__(self, want: Want, hand: Hand) -> None:
        self.want, self.hand, self.lines = want, hand, list[str]()
        self.unit, more = (25.4, 1) if hand.inch else (1.0, 0)
        self.digits, self.e_digits, self.f_digits = 4 + more, 5 + 2 * more, 1 + 2 * more
        self.at, self.e, self.f, self.kind = (0.0, 0.0, 0.0), 0.0, 0.0, ""
        self.net, self.pulls, self.peak, self.fastest = 0.0, 0, 0.0, dict[str, float]()
        self.words = WORDS[hand.tongue]

    def say(self, *words: str) -> None:
        line = " ".join(words)
        if self.hand.small:
            line = line.lower().replace("x", "x ").replace("y", "y ")
        if self.hand.numbered:
            line = f"N{len(self.lines) + 1} {line}"
            check = 0
            for byte in line.encode():
                check ^= byte
            line = f"{line}*{check}"
        self.lines.append(line)

    def remark(self, text: str) -> None:
        self.lines.append(f"; {text}")

    def file_spot(self, spot: Spot) -> Spot:
        return tuple(round(number / self.unit, self.digits) for number in spot)

    def axes(self, spot: Spot) -> list[str]:
        named = [word(letter, number, self.digits) for letter, number in zip("XYZ", spot, strict=True)]
        return named if spot[2] != self.at[2] else named[:2]

    def pace(self, speed: float) -> list[str]:
        """F, if it changes; rounded down, so that nothing becomes faster than it was meant to be."""
        scale = 10**self.f_digits
        before, self.f = self.f, math.floor(speed * 60 / self.unit * scale + 1e-6) / scale
        return [word("F", self.f, self.f_digits)] if self.f != before else []

    def feed(self, amount: float) -> tuple[str, float]:
        """The E word for so many mm, and how many mm it says once rounded."""
        start = 0.0 if self.hand.relative else self.e
        self.e = round(start + amount / self.unit, self.e_digits)
        written = (self.e - start) * self.unit
        self.net += written
        return word("E", self.e, self.e_digits), written

    def pull(self, sign: int) -> None:
        self.pulls += sign < 0
        if self.hand.machine_pulls:
            return self.say("G10" if sign < 0 else "G11")
        amount, _ = self.feed(sign * self.want["retraction.distance"])
        return self.say("G1", amount, *self.pace(self.want["retraction.speed"]))

    def lift(self, z: float) -> None:
        target = round(z / self.unit, self.digits)
        if target != self.at[2]:
            self.say("G1", word("Z", target, self.digits), *self.pace(12.7))
            self.at = (*self.at[:2], target)

    def travel(self, spot: Spot) -> None:
        target = self.file_spot(spot)
        if target == self.at:
            return
        far = math.dist(target[:2], self.at[:2]) * self.unit >= self.want["retraction.minimum_travel"]
        pulled = far and self.net > 0 and self.want["retraction.on"]
        if pulled:
            self.pull(-1)
            if self.want["retraction.lift"] and not self.hand.machine_pulls:
                self.lift(max(spot[2], self.at[2] * self.unit) + self.want["retraction.lift"])
                target = (*target[:2], self.at[2])
        self.say("G0", *self.axes(target), *self.pace(self.want["travel.speed"]))
        self.at = target
        self.lift(spot[2])
        if pulled:
            self.pull(1)

    def lay(self, stroke: Stroke, speed: float) -> None:
        self.travel(stroke.path[0])
        if stroke.kind != self.kind:
            self.kind = stroke.kind
            self.remark(self.words[stroke.kind])
        round_bar = math.pi * self.want["filament.diameter"] ** 2 / 4
        area = section(self.want["bead.width"], stroke.height) * stroke.fill * self.want["bead.flow"] / 100
        for spot in stroke.path[1:]:
            target, offset = self.file_spot(spot), ()
            if stroke.turn != "G1":
                offset = [
                    round(c / self.unit - p, self.digits) for c, p in zip(stroke.centre, self.at[:2], strict=True)
                ]
            length = span(self.at, target, stroke.turn, offset) * self.unit
            amount, written = self.feed(length * area / round_bar)
            around = [word(letter, number, self.digits) for letter, number in zip("IJ", offset, strict=bool(offset))]
            self.say(stroke.turn, *self.axes(target), *around, amount, *self.pace(speed))
            self.at, pace = target, self.f * self.unit / 60
            self.fastest[self.kind] = max(pace, self.fastest.get(self.kind, 0.0))
            if length >= 1:
                self.peak = max(self.peak, written * round_bar / length * pace)
