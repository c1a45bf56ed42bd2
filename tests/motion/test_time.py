"""Time: the columns against the formula of one move, ruckig, and a fine integration in the plane of place and speed."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import pytest

from profilesmith.motion import lines, plain_columns
from profilesmith.motion.clock import Pace
from profilesmith.motion.measure import measure
from profilesmith.physics.moves import move_time_s

HEAD = "G21\nG90\nM83\nG1 X0 Y0 Z0.2 F6000\n"


MOVES = (  # distance, speed, acceleration, entry, leaving
    (10.0, 60.0, 1000.0, 0.0, 0.0),
    (1.0, 60.0, 1000.0, 0.0, 0.0),
    (10.0, 60.0, 1000.0, 10.0, 5.0),
    (0.5, 60.0, 1000.0, 10.0, 5.0),
    (2.0, 60.0, 500.0, 20.0, 0.0),
    (10.0, 40.0, 1000.0, 0.0, 0.0),
    (0.5, 40.0, 1000.0, 0.0, 0.0),
)


def ours(distance: float, speed: float, acceleration: float, entry: float, leaving: float) -> float:
    ends = [entry**2, leaving**2]
    gain = plain_columns.gains([distance], [acceleration])
    return plain_columns.times(ends, [speed], [speed**2], gain, [acceleration])[0]


def by_ruckig(distance: float, speed: float, acceleration: float, entry: float, leaving: float) -> float:
    """A library of robot motion, without a limit of jerk."""
    from ruckig import InputParameter, Ruckig, Trajectory

    order = InputParameter(1)
    order.current_position, order.current_velocity, order.current_acceleration = [0.0], [entry], [0.0]
    order.target_position, order.target_velocity, order.target_acceleration = [distance], [leaving], [0.0]
    order.max_velocity, order.max_acceleration, order.max_jerk = [speed], [acceleration], [math.inf]
    found = Trajectory(1)
    Ruckig(1).calculate(order, found)
    return float(found.duration)


@pytest.mark.parametrize("move", MOVES)
def test_one_move(move: tuple[float, float, float, float, float]) -> None:
    """Against ruckig, and against the formula that all checks share."""
    assert ours(*move) == pytest.approx(by_ruckig(*move), rel=1e-9)
    assert ours(*move) == pytest.approx(move_time_s(*move), rel=1e-12)


def walked(seed: int, count: int) -> list[tuple[float, float, float]]:
    """Random corners: x, y, and the speed of the move that goes there, mm/s."""
    chance = random.Random(seed)
    x = y = angle = 0.0
    found = []
    for _ in range(count):
        angle += chance.choice([0.05, 0.3, 1.2, -0.8, 2.6]) * chance.random()
        length = chance.choice([0.1, 0.5, 2.0, 15.0]) * (0.2 + chance.random())
        x, y = round(x + length * math.cos(angle), 3), round(y + length * math.sin(angle), 3)
        found.append((x, y, chance.choice([20.0, 40.0, 80.0])))
    return found


def integrated(walk: list[tuple[float, float, float]], acceleration: float, sudden: float, step: float) -> float:
    """Seconds, by walking the plane of place and v^2 in small steps forth and back; knows no running minima."""
    spots = [(0.0, 0.0), *((x, y) for x, y, _ in walk)]
    legs = [math.dist(a, b) for a, b in pairwise(spots)]
    caps: list[float] = [0.0]
    for at in range(1, len(legs)):
        (ax, ay), (bx, by), (cx, cy) = spots[at - 1 : at + 2]
        dot = ((bx - ax) * (cx - bx) + (by - ay) * (cy - by)) / legs[at - 1] / legs[at]
        half = math.sqrt(max(0.0, (1 - dot) / 2))  # the sine of half the turn
        corner = sudden / (2 * half) if half > 1e-9 else math.inf
        caps.append(min(corner, walk[at - 1][2], walk[at][2]))
    caps.append(0.0)
    squares: list[float] = []
    tops: list[float] = []
    widths: list[float] = []
    for at, leg in enumerate(legs):
        parts = max(2, math.ceil(leg / step))
        squares += [caps[at] ** 2, *([walk[at][2] ** 2] * (parts - 1))]
        tops += [walk[at][2] ** 2] * parts
        widths += [leg / parts] * parts
    squares.append(0.0)
    for at, width in enumerate(widths):
        squares[at + 1] = min(squares[at + 1], squares[at] + 2 * acceleration * width)
    for at in range(len(widths) - 1, -1, -1):
        squares[at] = min(squares[at], squares[at + 1] + 2 * acceleration * widths[at])
    seconds = 0.0
    for at, width in enumerate(widths):
        v0, v1 = math.sqrt(squares[at]), math.sqrt(squares[at + 1])
        seconds += 2 * width / (v0 + v1)
    return seconds


@pytest.mark.parametrize("seed", range(4))
def test_look_ahead_against_a_fine_integration(seed: int) -> None:
    """Own derivation against brute force: 1e-5 of the time."""
    walk = walked(seed, 60)
    text = HEAD + "".join(f"G1 X{x} Y{y} E0.1 F{v * 60:g}\n" for x, y, v in walk)
    got = measure([text.encode()], pace=Pace.of(900.0, None, 8.0)).times.moving
    want = integrated(walk, 900.0, 8.0, 0.0005)
    assert got.low == pytest.approx(want, rel=1e-5)
    assert got.high == pytest.approx(want, rel=1e-5)


def test_the_cut_between_pieces_changes_no_time(monkeypatch: pytest.MonkeyPatch) -> None:
    """A file of many pieces without a single stop, against its time as one piece."""
    walk = walked(9, 2000)
    text = HEAD + "".join(f"G1 X{x} Y{y} E0.1 F{v * 60:g}\n" for x, y, v in walk)
    whole = measure([text.encode()])
    monkeypatch.setattr(lines, "PIECE", 2000)
    cut = measure([text.encode()])
    assert cut.times.moving.low == pytest.approx(whole.times.moving.low, rel=1e-11)
    assert cut.times.moving.high == pytest.approx(whole.times.moving.high, rel=1e-11)
    assert cut.flows[""].value == pytest.approx(whole.flows[""].value, rel=1e-11)
    assert [held.stretches for layer in cut.layers for held in layer.kinds.values()] == [1]


@pytest.mark.parametrize("size", [1, 7, 4096])
def test_the_size_of_portions_shows_nowhere(size: int) -> None:
    walk = walked(3, 300)
    text = HEAD + "".join(f"G1 X{x} Y{y} E0.1 F{v * 60:g}\r\n" for x, y, v in walk)
    raw = text.encode()
    whole, parts = measure([raw]), measure(raw[at : at + size] for at in range(0, len(raw), size))
    assert parts.times == whole.times
    assert parts.flows == whole.flows
    assert parts.fed == whole.fed
