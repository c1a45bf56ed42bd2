"""Numerical solutions by numpy and scipy that use none of our formulas: beams, plates, diffusion, flow, brute force."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import Any


def tip_stiffness(modulus: float, second_moment: float, length: float, elements: int = 20) -> float:
    """Beam elements, held at one end, a unit force at the other."""
    import numpy as np

    h, size = length / elements, 2 * (elements + 1)
    stiff = np.zeros((size, size))
    bend = np.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h]])
    block = np.vstack([bend, [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])
    for element in range(elements):
        part = slice(2 * element, 2 * element + 4)
        stiff[part, part] += modulus * second_moment / h**3 * block
    load = np.zeros(size - 2)
    load[-2] = 1
    return float(1 / np.linalg.solve(stiff[2:, 2:], load)[-2])


def strip_dent(pressure: float, span: float, stiffness: float) -> float:
    """scipy solve_bvp of D w'''' = p between clamped edges, in units of the span."""
    import numpy as np
    from scipy import integrate

    def slope(x: Any, y: Any) -> Any:
        return np.vstack([y[1], y[2], y[3], np.ones_like(x)])

    def edges(a: Any, b: Any) -> Any:
        return np.array([a[0], a[1], b[0], b[1]])

    at = np.linspace(0, 1, 41)
    found = integrate.solve_bvp(slope, edges, at, np.zeros((4, at.size)), tol=1e-9)
    return float(found.sol(0.5)[0] * pressure * span**4 / stiffness)


def square_dent(pressure: float, span: float, stiffness: float, points: int = 63) -> float:
    """Finite differences of the biharmonic equation on a clamped square, extrapolated from two grids."""
    coarse, fine = (_square(count) for count in (points // 2, points))
    return (4 * fine - coarse) / 3 * pressure * span**4 / stiffness


def _square(points: int) -> float:
    import numpy as np
    from scipy import sparse
    from scipy.sparse.linalg import spsolve

    h = 1 / (points + 1)
    second = sparse.diags([1.0, -2.0, 1.0], [-1, 0, 1], shape=(points, points)) / h**2
    fourth = (sparse.diags([1.0, -4.0, 6.0, -4.0, 1.0], [-2, -1, 0, 1, 2], shape=(points, points)) / h**4).tolil()
    fourth[0, 0] += 1 / h**4  # clamped: the point beyond the edge mirrors the one inside
    fourth[-1, -1] += 1 / h**4
    one = sparse.identity(points)
    plate = sparse.kron(fourth, one) + sparse.kron(one, fourth) + 2 * sparse.kron(second, second)
    found = spsolve(sparse.csc_matrix(plate), np.ones(points * points)).reshape(points, points)
    return float(found[points // 2, points // 2])


def moisture_left(hours: float, diameter_mm: float, diffusivity: float, rings: int = 200) -> float:
    """Diffusion out of a cylinder by finite volumes and a stiff solver; the series is not used."""
    import numpy as np
    from scipy import integrate

    radius = diameter_mm / 2000
    h = radius / rings
    edges = np.linspace(0, radius, rings + 1)
    area = edges[1:] ** 2 - edges[:-1] ** 2

    def rate(_: float, c: Any) -> Any:
        inner = 2 * edges[1:-1] * np.diff(c) / h
        flux = np.concatenate([[0.0], inner, [2 * radius * -c[-1] / (h / 2)]])
        return diffusivity * np.diff(flux) / area

    found = integrate.solve_ivp(rate, (0, hours * 3600), np.ones(rings), method="LSODA", lband=1, uband=1, rtol=1e-8)
    return float((found.y[:, -1] * area).sum() / area.sum())


def pressure_at_flow(radius: float, power: float, flow: float = 5.0) -> float:
    """The pressure whose velocity profile, integrated, gives the flow; K = 1, length 1."""
    from scipy import integrate, optimize

    def flow_at(pressure: float) -> float:
        def speed(r: float) -> float:
            return float(integrate.quad(lambda x: (pressure * x / 2) ** (1 / power), r, radius)[0])

        return float(integrate.quad(lambda r: 2 * math.pi * r * speed(r), 0, radius)[0])

    found = optimize.brentq(lambda log: math.log(flow_at(math.exp(log)) / flow), 0, 14, xtol=1e-11)
    return math.exp(found)


def stored_length_ratio(old: tuple[float, float], new: tuple[float, float]) -> float:
    """Two strands (modulus, diameter) in one tube: the push after the capstan law, integrated to shortenings."""
    from scipy import integrate

    def shortening(modulus: float, diameter: float) -> float:
        area = math.pi * diameter**2 / 4
        return float(integrate.quad(lambda x: math.exp(0.15 * math.pi * x) / (modulus * area), 0, 1)[0])

    return shortening(*new) / shortening(*old)


def solve(function: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising or falling function crosses nought."""
    from scipy import optimize

    return float(optimize.brentq(function, low, high, xtol=1e-13))


def gyroid_spans(points: int = 300) -> list[float]:
    """Largest circle between the walls in level cuts of a gyroid, in cell edges: by a distance transform."""
    import numpy as np
    from scipy import ndimage

    at = np.linspace(0, 2, 2 * points, endpoint=False) * 2 * np.pi
    x, y = np.meshgrid(at, at, indexing="ij")
    found = []
    for z in (0.0, np.pi / 2):  # the widest and the narrowest cut
        side = np.sin(x) * np.cos(y) + np.sin(y) * np.cos(z) + np.sin(z) * np.cos(x) > 0
        away = [ndimage.distance_transform_edt(part)[points // 2 : -points // 2].max() for part in (side, ~side)]
        found.append(float(2 * max(away) - 1) / points)
    return found


def gyroid_area(points: int = 73) -> float:
    """Area of the gyroid in a cell of edge 1: the mean slope in a thin shell around it (coarea formula)."""
    import numpy as np

    at = 2 * np.pi * (np.arange(points) + 0.5) / points
    x, y, z = np.meshgrid(at, at, at, indexing="ij")
    level = np.sin(x) * np.cos(y) + np.sin(y) * np.cos(z) + np.sin(z) * np.cos(x)
    slopes = (
        np.cos(x) * np.cos(y) - np.sin(z) * np.sin(x),
        np.cos(y) * np.cos(z) - np.sin(x) * np.sin(y),
        np.cos(z) * np.cos(x) - np.sin(y) * np.sin(z),
    )
    slope = np.sqrt(sum(part**2 for part in slopes))
    return float(slope[np.abs(level) < 0.2].sum() / 0.4 * (2 * np.pi / points) ** 3 / (2 * np.pi) ** 2)


def extremes(values: Iterable[float]) -> tuple[float, float]:
    held = list(values)
    return min(held), max(held)


def warm_through(thickness: float, diffusivity: float, slices: int = 200) -> float:
    """When the insulated face has nine tenths of a step on the other: finite volumes, solved by eigenvalues."""
    import numpy as np

    size = thickness / slices
    matrix = np.zeros((slices, slices))
    for at in range(slices):
        if at:
            matrix[at, at - 1] = 1.0
        if at < slices - 1:
            matrix[at, at + 1] = 1.0
        matrix[at, at] = -3.0 if at == 0 else -1.0 if at == slices - 1 else -2.0
    rates, shapes = np.linalg.eigh(matrix * diffusivity / size**2)
    start = shapes.T @ np.ones(slices)

    def left(time: float) -> float:
        return float(shapes[-1] @ (start * np.exp(rates * time))) - 0.1

    return solve(left, 1e-6, 100 * thickness**2 / diffusivity)


def growth_strain(threshold: float, groove: float, modulus: float) -> float:
    """Stretch at which an edge crack's energy release K^2 / E reaches a threshold, K by Bueckner's weight function."""
    from scipy import integrate

    def weight(at: float) -> float:
        depth = 1 - at / groove
        return 2 / math.sqrt(2 * math.pi * (groove - at)) * (1 + 0.6147 * depth + 0.2502 * depth**2)

    per_stress = integrate.quad(weight, 0, groove)[0]
    return math.sqrt(threshold * modulus) / (float(per_stress) * modulus)
