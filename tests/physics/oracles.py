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


def midspan_deflection(load: float, span: float, modulus: float, second_moment: float) -> float:
    """scipy: the bent line of half a bar as a boundary value problem: it does not sag at its end, nor tilt in its middle."""
    import numpy as np
    from scipy import integrate

    stiff = modulus * second_moment

    def bend(x: np.ndarray, line: np.ndarray) -> np.ndarray:
        return np.vstack((line[1], -load / 2 * x / stiff))  # equilibrium: each end carries half of the load

    def held(end: np.ndarray, middle: np.ndarray) -> np.ndarray:
        return np.array((end[0], middle[1]))

    x = np.linspace(0, span / 2, 51)
    return float(integrate.solve_bvp(bend, held, x, np.zeros((2, x.size)), tol=1e-12).y[0, -1])


def laminar_pressure(viscosity_pa_s: float, flow_m3_s: float, radius_m: float, length_m: float) -> float:
    """fluids: pressure drop from its friction factor and Reynolds number [Pa]; the density drops out."""
    from fluids import friction_factor

    density, speed = 1200.0, flow_m3_s / (math.pi * radius_m**2)
    reynolds = density * speed * 2 * radius_m / viscosity_pa_s
    return float(friction_factor(Re=reynolds) * length_m / (2 * radius_m) * density * speed**2 / 2)


def power_law_flow(pressure: float, radius: float, length: float, consistency: float, power: float) -> float:
    """scipy: flow back from a pressure: the shear rate, integrated twice over the radius (SI units or any coherent)."""
    from scipy import integrate

    def speed(r: float) -> float:
        return float(integrate.quad(lambda x: (pressure * x / (2 * length * consistency)) ** (1 / power), r, radius)[0])

    return float(integrate.quad(lambda r: 2 * math.pi * r * speed(r), 0, radius)[0])


def power_law_cone(consistency: float, power: float, flow: float, wide: float, narrow: float, slope: float) -> float:
    """scipy: the pressure gradient of thin slices of tube, integrated along the cone (any coherent units)."""
    from scipy import integrate

    def gradient(radius: float) -> float:
        rate = (3 * power + 1) / power * flow / (math.pi * radius**3)
        return 2 * consistency / radius * rate**power

    return float(integrate.quad(gradient, narrow, wide, epsrel=1e-12)[0]) / slope


def stored_length(push: float, length: float, modulus: float, area: float, friction: float, bend: float) -> float:
    """scipy: the push along the tube after the capstan law, integrated to a shortening."""
    from scipy import integrate

    return float(
        integrate.quad(lambda x: push * math.exp(friction * bend * x / length) / (modulus * area), 0, length)[0]
    )


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


def cold_middle(fourier: float, terms: int = 50) -> float:
    """scipy: what the middle of a cylinder lacks of its rise; the whole series (Carslaw & Jaeger)."""
    import numpy as np
    from scipy import special

    zeros = special.jn_zeros(0, terms)
    return float(np.sum(2 / (zeros * special.j1(zeros)) * np.exp(-zeros * zeros * fourier)))


def fourier_of_cold_middle(lag: float) -> float:
    """scipy: the series above, solved for the Fourier number."""
    from scipy import optimize

    return float(optimize.brentq(lambda number: cold_middle(number) - lag, 0.05, 2.0, xtol=1e-13))


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
