"""``python -m tests.benchmarks.phrasings [VOICE...] [-v]``: what people call settings, and whether it is understood.

Each file of phrasings/ holds one person's words for the settings, and (``-``) for things that are none, written before
anybody looked at the word lists. A person's words make one text, with common values. Then the words of all are mixed:
each of forty texts takes three quarters of the settings, each in the words of a person by chance, in any order, with
twelve things that are none. There no phrase is explained by what else a person says. The voices of ``TUNED`` were
looked at while words were added, the others were only measured.
"""

import random
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from profilesmith.foundation.problem import Refused
from profilesmith.suggest.proposal import SURE
from profilesmith.workflows.suggest import MapOrder, suggest

VOICES = Path(__file__).parent / "phrasings"
TUNED = ("engineer_uk", "stage", "teacher", "terse_en", "bastlerin_de", "meister_de", "bricoleur_fr", "prof_fr")
MIXED, KEPT, STRANGERS = 40, 0.75, 12  # texts, the share of the settings in each, and things that are none
NOT_ANY = "-"
NONE = ("110", "240", "170", "12.5", "60", "8", "0.8", "300", "45")
"""Values of what is no setting, in turn."""
SHAPES = ("lines", "grid", "gyroid")
USUAL = {
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


class Row(NamedTuple):
    """What somebody calls a setting (or ``NOT_ANY``), and a value."""

    setting: str
    phrase: str
    value: str


class Heard(NamedTuple):
    """What one text came to. missed: setting, phrase and what the key was taken for; wrong: those of the sure ones."""

    phrases: int = 0
    sure: int = 0
    right: int = 0
    decoys: int = 0
    missed: tuple[tuple[str, str, str], ...] = ()
    wrong: tuple[tuple[str, str, str], ...] = ()

    def plus(self, other: "Heard") -> "Heard":
        return Heard(*(mine + theirs for mine, theirs in zip(self, other, strict=True)))


def phrases_of(voice: str) -> list[tuple[str, str]]:
    """Setting and phrase, in the person's order."""
    lines = (VOICES / f"{voice}.txt").read_text(encoding="utf-8").splitlines()
    return [(setting, phrase) for setting, _, phrase in (line.partition(" | ") for line in lines)]


def voices(tuned: bool) -> list[str]:
    """The names of the one half or the other."""
    return [path.stem for path in sorted(VOICES.glob("*.txt")) if (path.stem in TUNED) == tuned]


def own_words(voice: str) -> list[Row]:
    """A person's text with usual values."""
    none = iter(NONE * 2)
    return [
        Row(setting, phrase, next(none) if setting == NOT_ANY else USUAL[setting])
        for setting, phrase in phrases_of(voice)
    ]


def mixed(names: list[str], seed: int) -> Iterator[list[Row]]:
    """Texts of several people's words, with other values than the usual ones."""
    chance = random.Random(seed)
    listed: dict[str, list[str]] = {}
    for name in names:
        for setting, phrase in phrases_of(name):
            listed.setdefault(setting, []).append(phrase)
    for _ in range(MIXED):
        rows: dict[str, Row] = {}
        for setting, phrases in listed.items():
            if setting != NOT_ANY and chance.random() < KEPT:
                phrase = chance.choice(phrases)
                rows.setdefault(phrase, Row(setting, phrase, _varied(setting, chance)))
        for phrase in chance.sample(listed[NOT_ANY], STRANGERS):
            rows.setdefault(phrase, Row(NOT_ANY, phrase, chance.choice(NONE)))
        yield chance.sample(list(rows.values()), len(rows))


def _varied(setting: str, chance: random.Random) -> str:
    if setting.endswith(".pattern"):
        return chance.choice(SHAPES)
    if setting.endswith(".on"):
        return chance.choice("01")
    value = float(USUAL[setting])
    if setting.endswith("nozzle_temperature") or setting == "nozzle.temperature":
        return str(round(value) + chance.randint(-8, 12))
    if setting.endswith("diameter"):
        return USUAL[setting]
    value *= chance.choice((1, 1.1, 0.9, 1.25, 0.8))
    return f"{value:.3g}" if value < 10 and "." in USUAL[setting] else str(max(1, round(value)))


def listen(rows: list[Row]) -> Heard:
    """A text of such rows through ``keymap suggest``."""
    meant = {row.phrase: row.setting for row in rows if row.setting != NOT_ANY}
    with tempfile.TemporaryDirectory() as folder:
        base = Path(folder) / "base.txt"
        base.write_text("".join(f"{row.phrase} = {row.value}\n" for row in rows), encoding="utf-8")
        try:
            proposals = suggest(MapOrder((str(base),))).suggestion.proposals
        except Refused:
            proposals = ()
    taken = {item.place[1]: item for item in proposals}
    right = {key for key, item in taken.items() if meant.get(key) == item.setting}
    sure = [key for key, item in taken.items() if item.certainty == SURE]
    missed = (
        (name, key, taken[key].setting if key in taken else "") for key, name in meant.items() if key not in right
    )
    wrong = ((meant.get(key, NOT_ANY), key, taken[key].setting) for key in sure if key not in right)
    return Heard(len(meant), len(sure), len(right), sum(key not in meant for key in sure), tuple(missed), tuple(wrong))


def _line(name: str, heard: Heard) -> str:
    right = f"{1 - len(heard.wrong) / max(heard.sure, 1):10.1%}"
    shares = f"{heard.sure / heard.phrases:6.1%} {right} {heard.right / heard.phrases:11.1%}"
    return f"{name:<16} {heard.phrases:7} {shares} {heard.decoys:7}"


def report(wanted: list[str], loud: bool) -> Iterator[str]:
    """The lines of both halves. wanted: voices, none for all and their mixtures; loud: with what was missed."""
    yield f"{'voice':<16} phrases   sure  precision  sure+check  decoys in sure"
    for tuned in (True, False):
        names = voices(tuned)
        texts = {name: [own_words(name)] for name in names if not wanted or name in wanted}
        if not wanted:
            texts["mixed, tuned" if tuned else "mixed, not tuned"] = list(mixed(names, 1 if tuned else 2))
        for name, several in texts.items():
            heard = Heard()
            for rows in several:
                heard = heard.plus(listen(rows))
            yield _line(name, heard)
            for setting, phrase, other in sorted({*heard.missed, *heard.wrong}) if loud else ():
                yield f"    {setting:<32} {phrase:<60} {other}"


if __name__ == "__main__":
    for line in report([name for name in sys.argv[1:] if not name.startswith("-")], "-v" in sys.argv):
        print(line)
