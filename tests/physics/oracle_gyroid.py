"""The stiffness of a gyroid sheet, worked out numerically from its shape alone: no law of cellular solids is put in.

Voxels, periodic, solved in Fourier space with conjugate gradients and the rotated difference scheme (Willot 2015, C. R.
Mecanique 343:232 [from memory]), which copes with empty voxels. Coarse voxels make it up to 6 % too soft.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import fft

Field = NDArray[Any]
POISSON = 0.35
LAME = POISSON / ((1 + POISSON) * (1 - 2 * POISSON))
SHEAR = 1 / (2 * (1 + POISSON))
PAIRS = ((0, 0), (1, 1), (2, 2), (1, 2), (0, 2), (0, 1))
WEIGHTS = np.array([1, 1, 1, 2, 2, 2.0])[:, None, None, None]


def gyroid_sheet(voxels: int, density: float) -> Field:
    """True where the sheet is: around the gyroid surface, as thick as gives the density."""
    at = 2 * np.pi * (np.arange(voxels) + 0.5) / voxels
    x, y, z = np.meshgrid(at, at, at, indexing="ij")
    level = np.abs(np.sin(x) * np.cos(y) + np.sin(y) * np.cos(z) + np.sin(z) * np.cos(x))
    return level <= np.quantile(level, density)


def cubic_modulus(solid: Field) -> float:
    """Young's modulus along an edge of a structure of cubic symmetry, over that of the solid."""
    s = mean_stress(solid)
    c11, c12 = s[0], (s[1] + s[2]) / 2
    return float((c11 - c12) * (c11 + 2 * c12) / (c11 + c12))


def mean_stress(solid: Field, tolerance: float = 1e-4, most: int = 400) -> Field:
    """Mean stress at a mean strain of one along the first edge and none else, for a solid of modulus 1."""
    waves, strain = _waves(solid.shape[0]), np.zeros((6, *solid.shape))
    applied = np.zeros_like(strain)
    applied[0] = 1
    rest = -_compatible(_stress(applied) * solid, waves, solid.shape)
    search, size = rest.copy(), _dot(rest, _stress(rest))
    goal = tolerance**2 * size
    for _ in range(most):
        pulled = _stress(search) * solid
        step = size / _dot(search, pulled)
        strain += step * search
        rest -= step * _compatible(pulled, waves, solid.shape)
        size, before = _dot(rest, _stress(rest)), size
        if size < goal:
            return np.asarray((_stress(applied + strain) * solid).mean(axis=(1, 2, 3)))
        search = rest + size / before * search
    raise ArithmeticError("the solution was not reached")


def _stress(strain: Field) -> Field:
    stress = 2 * SHEAR * strain
    stress[:3] += LAME * (strain[0] + strain[1] + strain[2])
    return stress


def _waves(n: int) -> Field:
    """Wave vectors of the rotated scheme; those at the edge of the band carry nothing."""
    full, half = 2 * np.pi * fft.fftfreq(n), 2 * np.pi * fft.rfftfreq(n)
    angles = np.meshgrid(full, full, half, indexing="ij")
    edge = np.any([np.isclose(np.abs(angle), np.pi) for angle in angles], axis=0)
    angles = [np.where(edge, 0.0, angle) for angle in angles]
    common = np.prod([(1 + np.exp(1j * angle)) / 2 for angle in angles], axis=0)
    return np.stack([2j * np.tan(angle / 2) * common for angle in angles])


def _compatible(stress: Field, k: Field, shape: tuple[int, ...]) -> Field:
    """The strain field that answers a stress field in a homogeneous solid (Green's operator)."""
    s = fft.rfftn(stress, axes=(1, 2, 3))
    whole = ((s[0], s[5], s[4]), (s[5], s[1], s[3]), (s[4], s[3], s[2]))
    force = [sum(whole[i][j] * np.conj(k[j]) for j in range(3)) for i in range(3)]
    square = (np.abs(k) ** 2).sum(axis=0)
    still = square < 1e-20
    square = np.where(still, 1.0, square)
    along = sum(k[i] * force[i] for i in range(3)) * (LAME + SHEAR) / ((LAME + 2 * SHEAR) * square)
    moved = [np.where(still, 0.0, (force[i] - np.conj(k[i]) * along) / (SHEAR * square)) for i in range(3)]
    strain = np.stack([(k[i] * moved[j] + k[j] * moved[i]) / 2 for i, j in PAIRS])
    return np.asarray(fft.irfftn(strain, s=shape, axes=(1, 2, 3)))


def _dot(a: Field, b: Field) -> float:
    return float((WEIGHTS * a * b).sum())
