"""All settings that a ledger promises, judged by one table. To add a setting: a judge here, its certainty in
``motion.toml``.
"""

from collections.abc import Callable, Mapping
from functools import cache

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion.doubt import Subject
from profilesmith.motion.figures import Figures
from profilesmith.motion.judging import counts, densities, heat, heights, others, pulling, sections, speeds
from profilesmith.motion.judging.outcome import JudgedSetting, MotionCase, Outcome, not_judged
from profilesmith.vocabulary.load_vocabulary import knowledge
from profilesmith.vocabulary.setting import Value

Judge = Callable[[MotionCase], Outcome]
FILAMENT_MM = 1.75

JUDGES: Mapping[str, Judge] = {
    "layer.height": heights.layer_height,
    "layer.minimum_time": others.least_layer_time,
    "first_layer.height": heights.first_layer_height,
    "first_layer.speed": speeds.first_layer_speed,
    "first_layer.bead_width": sections.first_layer_section,
    "first_layer.nozzle_temperature": heat.first_nozzle,
    "first_layer.bed_temperature": heat.first_bed,
    "first_layer.acceleration": others.acceleration("first_layer.acceleration", "print-acceleration"),
    "bead.width": sections.section_of("bead.width", ("infill", "inner_wall")),
    "wall.count": counts.walls,
    "outer_wall.speed": speeds.laying_speed("outer_wall.speed", "outer_wall"),
    "outer_wall.bead_width": sections.section_of("outer_wall.bead_width", ("outer_wall",)),
    "outer_wall.acceleration": others.acceleration("outer_wall.acceleration", "print-acceleration"),
    "inner_wall.speed": speeds.laying_speed("inner_wall.speed", "inner_wall"),
    "top.layers": counts.closing_above,
    "bottom.layers": counts.closing_below,
    "top.speed": speeds.laying_speed("top.speed", "top"),
    "bottom.speed": speeds.laying_speed("bottom.speed", "bottom"),
    "infill.density": densities.density_of("infill.density", "infill"),
    "infill.speed": speeds.laying_speed("infill.speed", "infill"),
    "bridge.speed": speeds.laying_speed("bridge.speed", "bridge"),
    "support.on": counts.laid_or_not("support.on", "support", always=False),
    "support.density": densities.density_of("support.density", "support"),
    "support.contact_layers": counts.contact_layers,
    "support.contact_density": densities.density_of("support.contact_density", "support_contact"),
    "support.speed": speeds.laying_speed("support.speed", "support"),
    "raft.on": counts.laid_or_not("raft.on", "raft", always=True),
    "raft.layers": counts.raft_layers,
    "raft.gap": others.raft_gap,
    "raft.speed": speeds.laying_speed("raft.speed", "raft"),
    "brim.on": counts.laid_or_not("brim.on", "brim", always=True),
    "skirt.loops": counts.skirt,
    "nozzle.temperature": heat.nozzle,
    "bed.temperature": heat.bed,
    "chamber.temperature": heat.chamber,
    "fan.power": heat.fan,
    "fan.minimum_power": heat.fan_least,
    "fan.off_layers": heat.fan_off,
    "retraction.on": pulling.pulls_on,
    "retraction.distance": pulling.pull_length,
    "retraction.speed": pulling.pull_speed,
    "retraction.minimum_travel": pulling.least_travel,
    "retraction.lift": pulling.lift,
    "travel.speed": speeds.travel_speed,
    "travel.acceleration": others.acceleration("travel.acceleration", "travel-acceleration"),
    "print.acceleration": others.acceleration("print.acceleration", "print-acceleration"),
    "filament.maximum_flow": speeds.flow,
}


class Certainty(NamedTuple):
    """How much a motion file can say of a setting. needs: subjects of reading that must be free of doubt."""

    name: str
    needs: tuple[Subject, ...]
    but: str = ""


@cache
def certainties() -> Mapping[str, Certainty]:
    """By setting, from ``knowledge/motion.toml``."""
    return {
        setting: Certainty(table["is"], tuple(table["needs"]), table.get("but", ""))
        for setting, table in knowledge("motion.toml")["certainty"].items()
    }


def judge(
    figures: Figures,
    promises: Mapping[str, Value],
    filament_mm: float | None = None,
    changed: frozenset[str] = frozenset(),
) -> tuple[JudgedSetting, ...]:
    """Every promised setting, in the order of the promises. changed: those that a rule changed."""
    case = MotionCase(figures, promises, filament_mm or figures.diameter_told or _diameter(promises))
    return tuple(_judged(case, setting, value, setting in changed) for setting, value in promises.items())


def _diameter(promises: Mapping[str, Value]) -> float:
    value = promises.get("filament.diameter")
    return FILAMENT_MM if value is None or isinstance(value, str | bool) else float(value)


def _judged(case: MotionCase, setting: str, value: Value, changed: bool) -> JudgedSetting:
    certainty = certainties()[setting]
    doubts = tuple(
        doubt for doubt in case.figures.doubts if certainty.needs and set(certainty.needs) & set(doubt.subjects)
    )
    if setting not in JUDGES:
        outcome = others.silent(case)
    elif doubts:
        outcome = not_judged("doubt")
    else:
        outcome = _whole(case, JUDGES[setting](case))
    return JudgedSetting(setting, certainty.name, value, outcome, changed, doubts)


def _whole(case: MotionCase, outcome: Outcome) -> Outcome:
    """Half a file may break a promise, but cannot keep one."""
    if outcome.verdict == "passed" and not case.figures.end_told:
        return not_judged("no-end", outcome.seen)
    return outcome
