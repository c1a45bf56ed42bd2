"""The demo's two motion files and their words map: ``python -m tests.motion.generators.demo_pair`` writes them anew.

Invented, as the whole demo is. The soft one keeps every promise of the demo's ledger but one: its start block still
heats to the rigid filament's temperature.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from profilesmith.profile.profile import Profile
from profilesmith.workflows.demo import run_demo
from profilesmith.workflows.derived_file import load_ledger
from tests.motion.generators.bench import SOFT, Settings, Style, lay_part, words_map

DEMO = Path(__file__).parents[3] / "recipes" / "demo"
# The demo's own start block; its heat is that of the rigid profile.
WAKE = ("G28", "M140 S65", "M190 S65", "M104 S205", "M109 S205", "M204 P{laying} T2500", "G1 Z5 F480", "G92 E0")


def demo_files() -> dict[str, str]:
    """Name -> text, laid from the demo's own two profiles."""
    with tempfile.TemporaryDirectory() as folder:
        run_demo(str(Path(folder) / "demo"))
        ledger = load_ledger(str(Path(folder) / "demo" / "soft.settings")).ledger
    style = Style(size=22.0, corners=36, layers=30)
    return {
        "rigid.motion": lay_part(settings_of(ledger.base), style._replace(start=_wake(1500))),
        "soft.motion": lay_part(settings_of(ledger.derived), style._replace(start=_wake(1000))),
        "words.toml": words_map(),
    }


def settings_of(profile: Profile) -> Settings:
    """What the generator lays; it knows no other filling than lines, and no less of it than 5 %."""
    found: Settings = dict(SOFT)
    for name, entry in profile.entries.items():
        value = entry.values[0]
        found[name] = value if isinstance(value, bool | str) else round(float(value), 4)
    return found


def _wake(laying: int) -> tuple[str, ...]:
    return tuple(line.format(laying=laying) for line in WAKE)


if __name__ == "__main__":
    for name, text in demo_files().items():
        (DEMO / name).write_text(text, encoding="utf-8", newline="\n")
