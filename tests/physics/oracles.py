"""Other people's libraries that work out the same quantities in other ways. For the tests only; the package needs none.

Every import stands in its function: a table of checks can be read without loading them.
"""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Any


def stadium_area(width: float, height: float) -> float:
    """shapely: a polygon around a line; a polygon of 16,000 corners is too small by 3e-9 of itself."""
    from shapely import LineString

    half = (width - height) / 2
    return float(LineString([(-half, 0), (half, 0)]).buffer(height / 2, quad_segs=4096).area)


def move_time(distance: float, speed: float, acceleration: float, entry: float = 0.0, leave: float = 0.0) -> float:
    """ruckig, a library for robot motion, with no limit on the jerk."""
    from ruckig import InputParameter, Ruckig, Trajectory

    task = InputParameter(1)
    task.current_position, task.current_velocity, task.current_acceleration = [0.0], [entry], [0.0]
    task.target_position, task.target_velocity, task.target_acceleration = [distance], [leave], [0.0]
    task.max_velocity, task.max_acceleration, task.max_jerk = [speed], [acceleration], [math.inf]
    trajectory = Trajectory(1)
    Ruckig(1).calculate(task, trajectory)
    return float(trajectory.duration)


def mean_move_time(mean_length: float, speed: float, acceleration: float) -> float:
    """scipy: the exponential law of lengths, integrated numerically over ruckig-checked move times."""
    from scipy import integrate

    kink = speed**2 / acceleration

    def weighted(length: float) -> float:
        time = length / speed + speed / acceleration if length > kink else 2 * math.sqrt(length / acceleration)
        return time * math.exp(-length / mean_length) / mean_length

    end = 60 * mean_length  # longer ones are rarer than 1 in 1e26
    pieces = ((0.0, min(kink, end)), (min(kink, end), end))
    return math.fsum(integrate.quad(weighted, a, b, limit=200)[0] for a, b in pieces if a < b)


def second_moment(width: float, height: float, wall: float, bottom: float, top: float, core_ratio: float) -> Any:
    """sectionproperties, finite elements: (EI, EA) of a bar with a soft core, over E [mm4, mm2]."""
    from sectionproperties.analysis import Section
    from sectionproperties.pre import Material
    from sectionproperties.pre.library import rectangular_section

    def material(name: str, modulus: float) -> Any:
        return Material(name, elastic_modulus=modulus, poissons_ratio=0, yield_strength=1, density=1, color="g")

    core = rectangular_section(
        d=height - bottom - top, b=width - 2 * wall, material=material("core", 1000 * core_ratio)
    )
    core = core.shift_section(wall, bottom)
    geometry = (rectangular_section(d=height, b=width, material=material("skin", 1000)) - core) + core
    geometry.create_mesh(mesh_sizes=[0.5])
    section = Section(geometry)
    section.calculate_geometric_properties()
    return section.get_eic(e_ref=1000)[0], section.get_ea() / 1000


def column_load(modulus: float, second_moment: float, length: float, clamped: bool, elements: int = 40) -> float:
    """numpy and scipy: the lowest buckling load of a column of beam elements, as an eigenvalue."""
    import numpy as np
    from scipy import linalg

    h, size = length / elements, 2 * (elements + 1)
    stiff, stress = np.zeros((size, size)), np.zeros((size, size))
    bend = np.array(
        [[12, 6 * h, -12, 6 * h], [0, 4 * h * h, -6 * h, 2 * h * h], [0, 0, 12, -6 * h], [0, 0, 0, 4 * h * h]]
    )
    push = np.array([[36, 3 * h, -36, 3 * h], [0, 4 * h * h, -3 * h, -h * h], [0, 0, 36, -3 * h], [0, 0, 0, 4 * h * h]])
    for element in range(elements):
        part = slice(2 * element, 2 * element + 4)
        stiff[part, part] += modulus * second_moment / h**3 * (np.triu(bend) + np.triu(bend, 1).T)
        stress[part, part] += (np.triu(push) + np.triu(push, 1).T) / (30 * h)
    held = {0, 1, size - 2, size - 1} if clamped else {0, size - 2}
    free = np.ix_(*[[i for i in range(size) if i not in held]] * 2)
    return float(linalg.eigh(stiff[free], stress[free], eigvals_only=True)[0])


def moisture_left(fourier: float, terms: int = 2000) -> float:
    """scipy: Crank's series with the library's own Bessel zeros."""
    import numpy as np
    from scipy import special

    zeros = special.jn_zeros(0, terms)
    return float(4 * np.sum(np.exp(-zeros * zeros * fourier) / zeros**2))


def drying_hours(left: float, radius_m: float, diffusivity: float) -> float:
    """scipy: the series above, solved for the time [h]."""
    from scipy import optimize

    fourier = optimize.brentq(lambda number: moisture_left(number) - left, 1e-4, 2.0, xtol=1e-14)
    return float(fourier) * radius_m**2 / diffusivity / 3600


def punch_modulus(shore_a: float) -> float:
    """Another law than Gent's fit: a flat punch in rubber, E = 3 F / (8 R h), and the spring of the instrument.

    Spring 0.550 + 0.075 S [N], depth 0.0254 (100 - S) [mm] after ISO 868 and ASTM D2240; tip of 0.79 and 1.27 mm
    diameter, so a mean radius of 0.515 mm (spring and tip from memory).
    """
    return 3 * (0.550 + 0.075 * shore_a) / (8 * 0.515 * 0.0254 * (100 - shore_a))


def counted_layers(layers: int, old_height: str, new_height: str) -> int:
    """Decimals and counting, one layer after another, until the skin is thick enough."""
    count, step, wanted = 0, Decimal(new_height), layers * Decimal(old_height)
    while count * step < wanted:
        count += 1
    return count


def stacked(first: str, height: str, layers: int) -> float:
    """Decimals, added one by one."""
    thickness = Decimal(0)
    for layer in range(layers):
        thickness += Decimal(height if layer else first)
    return float(thickness)
