"""``python -m tests.benchmarks.suggest``: how well ``keymap suggest`` does on dialects that strangers wrote.

Each folder of tests/cases/dialects/<half>/ holds a text, the map that its author made for it (which key holds what),
and the truth (what the text says, in canonical units). The half ``tuned`` was looked at while the words and bars were
set; ``held_out`` was not. The others have no map: their truth names the keys. ``tuned_later`` was looked at; the sealed
ones were measured once, and their READMEs say what was looked at since. A proposal is right when its setting, key and
field are the author's, and its own map reads the author's value. Where a text writes a number for a shape ("7" for
gyroid), nobody can know the shape from the text: the number kept as it stands counts as right.

``--without 0.3`` hides so large a part of the words that each text's keys are made of, by chance but the same each
time: an honest guess at how texts fare whose words nobody has listed.
"""

import resource
import subprocess
import sys
import tempfile
import time
import tomllib
import zlib
from collections.abc import Iterator
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple
from unittest.mock import patch

from profilesmith.engine.suggest import load_text
from profilesmith.foundation.problem import Refused
from profilesmith.foundation.quantity import read_quantity
from profilesmith.suggest.key_words import split_words
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.proposal import SURE, Proposal
from profilesmith.suggest.write_map import new_map
from profilesmith.translation.document_to_profile import translate
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Value
from profilesmith.workflows.suggest import MapOrder, suggest

DIALECTS = Path(__file__).resolve().parents[1] / "cases" / "dialects"
DEMO = Path(__file__).resolve().parents[2] / "recipes" / "demo" / "base.settings"
SEALED = tuple(sorted(folder.parent.name for folder in DIALECTS.glob("*/SHA256")))
"""Measured once, each by its README."""
HALVES = ("tuned", "tuned_later", "held_out", *SEALED)
# Writers who saw no word of the program say in words of their own what shape a text means.
SHAPES = {
    "lines": ("parallel", "straight", "lignes", "linien", "straight lines", "parallel lines", "zigzag", "zickzack"),
    "grid": ("squares", "square", "crossed", "carrés", "gitter", "quadrillage", "grille", "karo"),
    "triangles": ("dreiecke", "triangle"),
    "hexagons": ("honeycomb", "waben", "wabe", "nid d'abeilles", "nids d'abeilles", "hexagones", "comb"),
    "gyroid": ("wavy", "waves", "vagues", "wellen", "gyroïde", "gyroide"),
    "concentric": ("rings", "ringe", "anneaux", "konzentrisch", "concentrique"),
    "cubic": ("cubes", "würfel", "cubique"),
}
NEAR = Fraction(1, 10**6)  # truths without a finite decimal are written to ten places


class Judged(NamedTuple):
    """One proposal against the truth. decoy: its key is bound to nothing in the author's map."""

    proposal: Proposal
    right: bool
    decoy: bool


class Figures(NamedTuple):
    """Counts: settings that the text holds, sure proposals, right ones, right ones of all proposals, decoys in sure."""

    truth: int = 0
    sure: int = 0
    sure_right: int = 0
    right: int = 0
    decoys: int = 0
    proposals: int = 0

    def plus(self, other: "Figures") -> "Figures":
        return Figures(*(mine + theirs for mine, theirs in zip(self, other, strict=True)))


def folders(half: str) -> list[Path]:
    """The dialects of one half."""
    return sorted(path.parent for path in (DIALECTS / half).glob("*/truth.toml"))


def _truth_value(setting: str, text: str) -> Value:
    """A value of truth.toml, read without the program's map reader."""
    kind = load_vocabulary().settings[setting].kind
    if kind == "switch":
        return {"on": True, "off": False}[text]
    if kind == "choice":
        return next((shape for shape, words in SHAPES.items() if text.casefold() in words), text)
    value = read_quantity(text, kind)
    assert isinstance(value, Fraction), f"{setting}: {value}"
    return value


def truth_of(folder: Path) -> tuple[dict[str, tuple[Value, ...]], dict[str, tuple[str, str, int]]]:
    """Setting -> values that the text says, and setting -> (section, key, field) of the author's map."""
    truth = tomllib.loads((folder / "truth.toml").read_text(encoding="utf-8"))
    texts: dict[str, Any] = truth["settings"]
    values = {
        name: tuple(_truth_value(name, one) for one in (text if isinstance(text, list) else [text]))
        for name, text in texts.items()
    }
    if "keys" in truth:
        return values, {name: (*_section_and_key(text), 0) for name, text in truth["keys"].items()}
    bindings = tomllib.loads((folder / "map.toml").read_text(encoding="utf-8"))["binding"]
    places = {one["setting"]: (one.get("section", ""), one["key"], one.get("field", 0)) for one in bindings}
    return values, places


def _section_and_key(text: str) -> tuple[str, str]:
    """``[heat] tip`` as its two parts."""
    section, bracket, key = text.removeprefix("[").partition("] ")
    return (section, key) if bracket and text.startswith("[") else ("", text)


def _same(ours: tuple[Value, ...], theirs: tuple[Value, ...]) -> bool:
    if len(ours) != len(theirs):  # one value for all tools, written once or several times
        ours, theirs = tuple(dict.fromkeys(ours)), tuple(dict.fromkeys(theirs))
    return len(ours) == len(theirs) and all(_near(mine, other) for mine, other in zip(ours, theirs, strict=True))


def _near(mine: Value, other: Value) -> bool:
    if isinstance(mine, Fraction) and isinstance(other, Fraction):
        return abs(mine - other) <= NEAR * max(1, abs(other))
    return mine == other


def judge(folder: Path) -> tuple[list[Judged], int]:
    """Every proposal for a dialect against its truth, and how many settings the truth has."""
    values, places = truth_of(folder)
    try:
        outcome = suggest(MapOrder(tuple(str(path) for path in sorted(folder.glob("base.*")))))
    except Refused:  # an honest "nothing recognised" proposes nothing, and counts as nothing found
        return [], len(values)
    key_map, problems = load_text(new_map(outcome.suggestion, accept_checks=True))
    assert key_map is not None, problems
    entries = translate(outcome.documents, key_map, load_vocabulary()).profile.entries
    bound = {place for name, place in places.items() if name in values}
    judged = []
    for item in outcome.suggestion.proposals:
        right = item.setting in values and _is_at(item.place, places[item.setting])
        unknowable = "pattern" in item.setting and item.text.isdigit() and "choices" not in item.binding
        if right and not unknowable:
            right = _same(entries[item.setting].values, values[item.setting])
        judged.append(Judged(item, right, not any(_is_at(item.place[:2], place[:2]) for place in bound)))
    return judged, len(values)


def _is_at(place: tuple[str | int, ...], truth: tuple[str | int, ...]) -> bool:
    """Whether both are the same place; a heading that only one of them takes for one is no part of it."""
    return place[1:] == truth[1:] and (place[0] in ("", truth[0]) or not truth[0])


def lexicon_without(folder: Path, share: float, turn: int) -> Lexicon:
    """The lexicon without a part of the words of a dialect's keys and sections; turn: another part for each."""
    full = load_lexicon()
    written = b" ".join(path.read_bytes() for path in sorted(folder.glob("base.*"))).decode("utf-8", "ignore")
    words = set(split_words(written))
    gone = {
        phrase
        for phrase, term in full.terms.items()
        if not term.small and not words.isdisjoint(phrase.split()) and _chance(phrase, turn) < share
    }
    return full._replace(terms={phrase: term for phrase, term in full.terms.items() if phrase not in gone}, found={})


def _chance(phrase: str, turn: int) -> float:
    """A number from 0 to 1 that is the same for a word and its endings, in every run."""
    return zlib.crc32(f"{turn} {phrase[:4]}".encode()) % 1000 / 1000


def figures_without(folder: Path, share: float, turns: int = 2) -> Figures:
    """A dialect's figures with a part of its words hidden, several times over."""
    total = Figures()
    for turn in range(turns):
        with patch("profilesmith.suggest.suggest_key_map.load_lexicon", partial(lexicon_without, folder, share, turn)):
            total = total.plus(figures_of(folder))
    return total


def figures_of(folder: Path) -> Figures:
    judged, truth = judge(folder)
    sure = [one for one in judged if one.proposal.certainty == SURE]
    return Figures(
        truth,
        len(sure),
        sum(one.right for one in sure),
        sum(one.right for one in judged),
        sum(one.decoy for one in sure),
        len(judged),
    )


def _share(part: int, whole: int) -> str:
    return f"{100 * part / whole:6.1f} %" if whole else "      -  "


def line_of(name: str, found: Figures) -> str:
    return (
        f"  {name:<18} {found.truth:>5} {found.sure:>5} {_share(found.sure_right, found.sure)} "
        f"{_share(found.sure_right, found.truth)} "
        f"{_share(found.right, found.truth)} {found.decoys:>6} {_share(found.right, found.proposals)}"
    )


def table(share: float = 0.0) -> Iterator[str]:
    """Both halves, a line for each dialect and one for all. share: the part of each text's words that is hidden."""
    yield "  dialect             truth  sure  sure right  truth in sure  in sure+check  decoys in sure  proposals right"
    for half in HALVES:
        total = Figures()
        yield f"{half}:" if folders(half) else f"{half}: no dialect here"
        for folder in folders(half):
            found = figures_without(folder, share) if share else figures_of(folder)
            total = total.plus(found)
            yield line_of(folder.name, found)
        if folders(half):
            yield line_of("all", total)


def long_text(keys: int) -> str:
    """The demo's text with so many keys of other words behind it."""
    import random

    chance = random.Random(11)
    words = (
        "amber",
        "birch",
        "pace",
        "rise",
        "fill",
        "wide",
        "head",
        "room",
        "heat",
        "lamp",
        "note",
        "wall",
        "speed",
        "gate",
    )
    lines = [DEMO.read_text(encoding="utf-8")]
    for number in range(keys):
        if number % 50 == 0:
            lines.append(f"\n[{chance.choice(words)} {number}]")
        value = chance.choice([str(chance.randint(0, 9)), f"{chance.uniform(0, 300):.2f}", "yes", "blue"])
        lines.append(f"{chance.choice(words)} {chance.choice(words)} {number} = {value}")
    return "\n".join(lines) + "\n"


def seconds_of(path: Path) -> tuple[float, float]:
    """A whole process of ``keymap suggest``: seconds by the clock, and of computing. The best of three: a machine may
    be busy.
    """
    times = []
    for _ in range(3):
        start, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
        subprocess.run(
            [sys.executable, "-m", "profilesmith", "keymap", "suggest", str(path)], check=True, capture_output=True
        )
        times.append((time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before))
    return min(times)


def main() -> None:
    share = float(sys.argv[2]) if sys.argv[1:2] == ["--without"] else 0.0
    for line in table(share):
        print(line, flush=True)
    if share:
        return
    with tempfile.TemporaryDirectory() as folder:
        for keys in (20, 10_000):
            path = Path(folder) / f"{keys}.settings"
            path.write_text(long_text(keys), encoding="utf-8")
            clock, computing = seconds_of(path)
            print(f"a text of {keys + 129} keys as a process: {clock:.2f} s, of it {computing:.2f} s computing")


if __name__ == "__main__":
    main()
