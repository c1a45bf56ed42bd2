"""One plain call for every function of the room, inside its validity, and the functions that units do not concern."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Callable, Mapping
from typing import Any

from profilesmith import physics
from profilesmith.physics.answer import Bracket
from profilesmith.physics.section import BarSection


def functions() -> dict[str, Callable[..., Any]]:
    """Every public function of the room, by ``file.name``."""
    found = {}
    for module in pkgutil.iter_modules(physics.__path__):
        loaded = importlib.import_module(f"profilesmith.physics.{module.name}")
        for name, value in vars(loaded).items():
            if inspect.isfunction(value) and value.__module__ == loaded.__name__ and not name.startswith("_"):
                found[f"{module.name}.{name}"] = value
    return found


_BEAD = {"width_mm": 0.45, "height_mm": 0.2}
_MOVE = {"distance_mm": 10.0, "speed_mm_s": 60.0, "acceleration_mm_s2": 1000.0, "entry_mm_s": 10.0, "exit_mm_s": 5.0}
_MEAN = {"mean_length_mm": 2.0, "speed_mm_s": 60.0, "acceleration_mm_s2": 1000.0}
_SLOWED = {"old_speed_mm_s": 60.0, "new_speed_mm_s": 20.0}
_BAR = BarSection(20, 6, 0.9, 0.4, 1.2)
_THIN = BarSection(20, 6, 0.45, 0.4, 0.4)
_STRANDS = {"old_modulus_mpa": 3500.0, "old_diameter_mm": 1.75, "new_modulus_mpa": 100.0, "new_diameter_mm": 2.85}
_POWER = {"consistency_pa_s_n": 2000.0, "power": 0.45, "flow_mm3_s": 5.0}

SAMPLES: Mapping[str, Mapping[str, Any]] = {
    "bead.bead_area_mm2": _BEAD,
    "bead.flow_mm3_s": {"speed_mm_s": 60.0, **_BEAD},
    "bead.speed_at_flow_mm_s": {"flow_mm3_s": 5.0, **_BEAD},
    "bead.filament_area_mm2": {"diameter_mm": 1.75},
    "bead.filament_length_m": {"mass_g": 1000.0, "diameter_mm": 1.75, "density_g_cm3": 1.24},
    "bead.solid_spacing_mm": _BEAD,
    "bead.wall_thickness_mm": {"beads": 3, **_BEAD},
    "bending.outer_strain_share": {"thickness_mm": 2.0, "inner_radius_mm": 20.0},
    "bending.coating_strain_bracket": {"thickness_mm": 2.0, "coating_mm": 0.05, "inner_radius_mm": 20.0},
    "bending.coated_radius_bracket_mm": {"thickness_mm": 1.8, "coating_mm": 0.05, "strain_share": 0.06},
    "bending.mandrel_elongation_share": {"thickness_mm": 0.8, "coating_mm": 0.025, "mandrel_diameter_mm": 12.7},
    "bending.smallest_inner_radius_mm": {"thickness_mm": 2.0, "strain_share": 0.05},
    "feed_path.strand_second_moment_mm4": {"diameter_mm": 1.75},
    "feed_path.buckling_strain_share": {"diameter_mm": 1.75, "gap_mm": 5.0, "end_factor": 1.0},
    "feed_path.buckling_load_ratio": _STRANDS,
    "infill.core_modulus_bracket": {"density_share": 0.2, "core_thickness_mm": 50.0, "cell_mm": 5.0},
    "infill.cell_count": {"core_thickness_mm": 50.0, "cell_mm": 5.0},
    "infill.gyroid_cell_mm": {"bead_width_mm": 0.45, "density_share": 0.2},
    "drying.moisture_left_share": {"fourier": 0.1},
    "drying.drying_time_h": {"left_share": 0.1, "diameter_mm": 1.75, "diffusivity_m2_s": 2e-12},
    "surface.stair_cusp_mm": {"height_mm": 0.2, "angle_from_vertical_deg": 30.0},
    "surface.wall_valley_mm": {"height_mm": 0.2},
    "surface.thickness_left_mm": {"thickness_mm": 1.26, "sanded_mm": 0.3},
    "surface.beads_for_thickness": {"thickness_mm": 1.2, **_BEAD},
    "melt.equal_flow_pressure_ratio": {"old_radius_mm": 0.2, "new_radius_mm": 0.4, "power": 0.3},
    "moves.peak_speed_mm_s": _MOVE,
    "moves.move_time_s": _MOVE,
    "moves.mean_move_time_s": _MEAN,
    "surface.step_over_mm": {"height_mm": 0.2, "angle_from_vertical_deg": 55.0},
    "surface.overlap_share": {"bead_width_mm": 0.45, "height_mm": 0.2, "angle_from_vertical_deg": 55.0},
    "surface.angle_at_overlap_deg": {"bead_width_mm": 0.45, "height_mm": 0.2, "resting_share": 0.5},
    "section.stretching_ratio": {"section": _BAR, "core_ratio": 0.05},
    "section.mass_ratio": {"section": _BAR, "density_share": 0.05},
    "section.bending_ratio": {"section": _BAR, "core_ratio": 0.05},
    "section.bending_ratios": {"section": _BAR, "core_ratios": (0.05, 0.3)},
    "section.bending_bracket": {"section": _BAR, "core": Bracket(0.0025, 0.05)},
    "section.solid_second_moment_mm4": {"section": _BAR},
    "infill.line_spacing_mm": {"bead_width_mm": 0.45, "density_share": 0.15, "directions": 2},
    "infill.density_at_spacing_share": {"bead_width_mm": 0.45, "spacing_mm": 3.0, "directions": 2},
    "section.same_pattern_bracket": {
        "old": _BAR,
        "old_density_share": 0.3,
        "new": _THIN,
        "new_density_share": 0.05,
    },
    "section.shared_core_bracket": {"old": _BAR, "new": _THIN, "core_ratio": Bracket(0.0, 0.15)},
    "section.ordered_cores_bracket": {
        "old": _BAR,
        "old_core_ratio": Bracket(0.0, 0.15),
        "new": _THIN,
        "new_core_ratio": Bracket(0.0, 0.05),
    },
    "moves.time_factor_bracket": {
        **_SLOWED,
        "old_acceleration_mm_s2": 1000.0,
        "new_acceleration_mm_s2": 500.0,
    },
    "moves.layer_count_factor": {"old_height_mm": 0.2, "new_height_mm": 0.12},
    "section.tip_stiffness_n_per_mm": {"modulus_mpa": 26.0, "second_moment_mm4": 9.72, "free_length_mm": 50.0},
    "infill.plate_stiffness_n_mm": {"modulus_mpa": 13.0, "thickness_mm": 0.8, "poisson": 0.5},
    "infill.face_dent_mm": {"pressure_mpa": 0.01, "span_mm": 4.6, "modulus_mpa": 13.0, "thickness_mm": 0.8},
    "drying.moisture_left_after": {"time_h": 6.0, "diameter_mm": 1.75, "diffusivity_m2_s": 2e-12},
    "bending.warm_through_s": {"thickness_mm": 1.8, "diffusivity_mm2_s": 0.1},
    "bending.growth_strain_share": {"threshold_n_per_mm": 0.05, "groove_mm": 0.1, "modulus_mpa": 27.0},
    "feed_path.stored_length_ratio": _STRANDS,
    "feed_path.slack_mm": {"tube_inner_diameter_mm": 2.0, "filament_diameter_mm": 1.75, "bend_rad": 3.0},
}

_PURE = "bare numbers in, a bare number out"
EXEMPT: Mapping[str, str] = {
    "answer.spanning": _PURE,
    "answer.require_positive": _PURE,
    "answer.require_not_negative": _PURE,
    "answer.require_share": _PURE,
    "infill.voigt_ratio": _PURE,
    "drying.fourier_at_moisture_left": _PURE,
    "infill.free_span_mm": "a pattern by name; tested there",
    "section.solid_thickness_ratio": "ratios of moduli in any unit; tested there",
    "skins.layers_for_same_thickness": "exact fractions in any unit; tested there",
    "skins.layers_for_thickness": "exact fractions in any unit; tested there",
    "skins.skin_thickness": "exact fractions in any unit; tested there",
    "hardness.gent_modulus_mpa": "a scale of hardness, fitted in MPa",
    "hardness.qi_modulus_from_a_mpa": "a scale of hardness, fitted in MPa",
    "hardness.qi_modulus_from_d_mpa": "a scale of hardness, fitted in MPa",
    "drying.warming_speedup_ratio": "temperatures in degC have no zero to scale from; checked with pint in kelvin",
    "drying.glassy_drying_ceiling_c": "temperatures in degC have no zero to scale from",
}
