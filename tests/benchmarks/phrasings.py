"""``python -m tests.benchmarks.phrasings [VOICE...] [-v]``: what people call settings, and whether it is understood.

Each file of phrasings/ is one person's words for the settings, and for things that are none, written before anybody looked
at the word lists. All words of a person make one text with common values; a phrase is understood when its key is proposed
for its setting. ``TUNED`` voices were looked at while the words were set, the others only measured.
"""

import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

from profilesmith.foundation.problem import Refused
from profilesmith.suggest.proposal import SURE
from profilesmith.workflows.suggest import MapOrder, suggest

VOICES = Path(__file__).parent / "phrasings"
TUNED = ("engineer_uk", "stage", "teacher", "terse_en", "bastlerin_de", "meister_de", "bricoleur_fr", "prof_fr")
VALUES = {
    "layer.height": "0.2",
    "layer.minimum_time": "8",
    "first_layer.height": "0.25",
    "first_layer.speed": "20",
    "first_layer.bead_width": "0.5",
    "first_layer.nozzle_temperature": "212",
    "first_layer.bed_temperature": "62",
    "first_layer.acceleration": "400",
    "bead.width": "0.45",
    "bead.flow": "98",
    "wall.count": "3",
    "outer_wall.speed": "35",
    "outer_wall.bead_width": "0.42",
    "outer_wall.acceleration": "700",
    "inner_wall.speed": "55",
    "top.layers": "5",
    "bottom.layers": "4",
    "top.speed": "40",
    "bottom.speed": "45",
    "infill.density": "18",
    "infill.pattern": "gyroid",
    "infill.speed": "75",
    "infill.overlap": "15",
    "bridge.speed": "25",
    "bridge.fan": "100",
    "support.on": "1",
    "support.density": "14",
    "support.pattern": "lines",
    "support.overhang_angle": "50",
    "support.gap": "0.22",
    "support.side_gap": "0.7",
    "support.contact_layers": "2",
    "support.contact_density": "75",
    "support.speed": "50",
    "raft.on": "0",
    "raft.layers": "3",
    "raft.gap": "0.24",
    "raft.margin": "5",
    "raft.speed": "28",
    "brim.on": "0",
    "brim.width": "6",
    "skirt.loops": "2",
    "nozzle.diameter": "0.4",
    "nozzle.temperature": "205",
    "bed.temperature": "58",
    "chamber.temperature": "30",
    "fan.power": "90",
    "fan.minimum_power": "30",
    "fan.off_layers": "2",
    "retraction.on": "1",
    "retraction.distance": "1.4",
    "retraction.speed": "32",
    "retraction.minimum_travel": "1.6",
    "retraction.lift": "0.3",
    "travel.speed": "150",
    "travel.acceleration": "1800",
    "print.acceleration": "1000",
    "filament.diameter": "1.75",
    "filament.maximum_flow": "10",
}
NONE = ("110", "240", "170", "12.5", "60", "8", "0.8", "300", "45")
"""Values of what is no setting, in turn."""


class Heard(NamedTuple):
    """One voice. missed: setting, phrase and what the key was taken for."""

    voice: str
    phrases: int
    sure: int
    sure_right: int
    right: int
    decoys: int
    missed: tuple[tuple[str, str, str], ...]


def listen(path: Path) -> Heard:
    """A voice's text through ``keymap suggest``."""
    rows = [tuple(line.split(" | ", 1)) for line in path.read_text(encoding="utf-8").splitlines() if " | " in line]
    decoys = [phrase for name, phrase in rows if name == "-"]
    values = {phrase: VALUES.get(name, "") for name, phrase in rows}
    values |= {phrase: NONE[at % len(NONE)] for at, phrase in enumerate(decoys)}
    text = "".join(f"{phrase} = {values[phrase]}\n" for _, phrase in rows)
    meant = {phrase: name for name, phrase in rows if name != "-"}
    with tempfile.TemporaryDirectory() as folder:
        base = Path(folder) / "base.txt"
        base.write_text(text, encoding="utf-8")
        try:
            proposals = suggest(MapOrder((str(base),))).suggestion.proposals
        except Refused as reason:
            print(path.stem, reason)
            proposals = ()
    taken = {item.place[1]: item for item in proposals}
    right = {key for key, item in taken.items() if meant.get(key) == item.setting}
    sure = [key for key, item in taken.items() if item.certainty == SURE]
    return Heard(
        path.stem,
        len(meant),
        len(sure),
        sum(key in right for key in sure),
        len(right),
        sum(key not in meant for key in sure),
        tuple((name, key, taken[key].setting if key in taken else "") for key, name in meant.items() if key not in right)
        + tuple(("WRONG SURE", key, taken[key].setting) for key in sure if key not in right),
    )


def main() -> None:
    wanted = [name for name in sys.argv[1:] if not name.startswith("-")]
    heard = [listen(path) for path in sorted(VOICES.glob("*.txt")) if not wanted or path.stem in wanted]
    print(f"{'voice':<16} phrases  sure  precision  sure+check  decoys in sure")
    for half in (TUNED, ()):
        voices = [one for one in heard if (one.voice in TUNED) == bool(half)]
        for one in [*voices, _sum(voices, "tuned" if half else "not tuned")]:
            print(
                f"{one.voice:<16} {one.phrases:7} {one.sure / max(one.phrases, 1):5.0%} {one.sure_right / max(one.sure, 1):10.1%}"
                f" {one.right / max(one.phrases, 1):11.1%} {one.decoys:6}"
            )
            if "-v" in sys.argv:
                for name, phrase, other in one.missed:
                    print(f"    {name:<32} {phrase:<60} {other}")


def _sum(voices: list[Heard], name: str) -> Heard:
    counts = [sum(one[at] for one in voices) for at in range(1, 6)]
    return Heard(name, *counts, missed=())


if __name__ == "__main__":
    main()
