"""The demo's two motion files and their words map: ``python -m tests.motion.generators.demo_pair`` writes them anew.

Invented, as the whole demo is. The soft one keeps every promise of the demo's ledger but one: its start block still heats
to the rigid filament's temperature.
"""

from __future__ import annotations

from pathlib import Path

from tests.motion.generators.bench import SOFT, Settings, Style, lay_part, words_map

DEMO = Path(__file__).parents[3] / "recipes" / "demo"
# The demo's own start block; its heat is that of the rigid profile.
WAKE = ("G28", "M140 S65", "M190 S65", "M104 S205", "M109 S205", "M204 P{laying} T2500", "G1 Z5 F480", "G92 E0")
RIGID: Settings = {
    **SOFT,
    "first_layer.speed": 30.0,
    "outer_wall.speed": 75.0,
    "inner_wall.speed": 90.0,
    "infill.speed": 82.5,
    "top.speed": 60.0,
    "bottom.speed": 75.0,
    "wall.count": 3.0,
    "infill.density": 15.0,
    "nozzle.temperature": 205.0,
    "first_layer.nozzle_temperature": 205.0,
    "bed.temperature": 65.0,
    "retraction.speed": 35.0,
    "retraction.minimum_travel": 1.0,
}
SOFT_DEMO: Settings = {
    **SOFT,
    "infill.density": 5.0,
    "bed.temperature": 65.0,
    "raft.on": True,
    "raft.gap": 0.22,
    "raft.margin": 4.0,
    "raft.speed": 24.0,
}


def demo_files() -> dict[str, str]:
    """Name -> text."""
    style = Style(size=22.0, corners=36, layers=30)
    return {
        "rigid.motion": lay_part(RIGID, style._replace(start=_wake(1500))),
        "soft.motion": lay_part(SOFT_DEMO, style._replace(start=_wake(1000))),
        "words.toml": words_map(),
    }


def _wake(laying: int) -> tuple[str, ...]:
    return tuple(line.format(laying=laying) for line in WAKE)


if __name__ == "__main__":
    for name, text in demo_files().items():
        (DEMO / name).write_text(text, encoding="utf-8", newline="\n")
