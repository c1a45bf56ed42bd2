"""The generator against itself: the text is counted again here by other, shorter means."""

import math
import re
from collections import defaultdict
from collections.abc import Iterator
from functools import cache, reduce
from operator import xor
from typing import NamedTuple

import pytest

from tests.motion.generators.weir import JOBS, Made, make

NAMES = [name for name, _ in JOBS]


@cache
def made(name: str) -> Made:
    return make(dict(JOBS)[name])


def bar(name: str) -> float:
    return math.pi * made(name).truth.settings["filament.diameter"] ** 2 / 4


class Leg(NamedTuple):
    kind: str
    code: str
    z: float
    length: float  # of the chord
    e: float
    speed: float


def read(text: str) -> Iterator[Leg]:
    """Every G0 to G3 line, in mm and mm/s: chords only, E by its own regular expression."""
    unit, relative = 25.4 if "G20" in text else 1.0, "M83" in text.upper()
    at, kind = defaultdict(float), ""
    for line in text.splitlines():
        if line.startswith(";"):
            kind = kind if line.startswith("; storey") else line[2:]
            continue
        words = re.findall(r"([A-Z]) *(-?\d+\.?\d*)", line.split("*")[0].upper())
        code = next((letter + number for letter, number in words if letter in "GM"), "")
        told = {letter: float(number) * unit for letter, number in words if letter in "XYZEF"}
        if code == "G92":
            at["E"] = told["E"]
        if code in ("G0", "G1", "G2", "G3"):
            if relative:
                at["E"] = 0.0
            before = at.copy()
            at.update(told)
            length = math.dist([before[axis] for axis in "XYZ"], [at[axis] for axis in "XYZ"])
            yield Leg(kind, code, at["Z"], length, at["E"] - before["E"], at["F"] / 60)


@cache
def legs(name: str) -> list[Leg]:
    return list(read(made(name).text))


def laid(name: str) -> list[Leg]:
    return [leg for leg in legs(name) if leg.e > 0 and (leg.length > 0 or leg.code in ("G2", "G3"))]


@pytest.mark.parametrize("name", NAMES)
def test_net_filament(name: str) -> None:
    assert sum(leg.e for leg in legs(name)) == pytest.approx(made(name).truth.filament_mm, abs=1e-6)


@pytest.mark.parametrize("name", [name for name in NAMES if "arcs" not in name])
def test_the_filament_is_the_volume_of_the_beads(name: str) -> None:
    """Of straight lines in whole layers of the nominal height."""
    said = made(name).truth.settings
    h, w = said["layer.height"], said["bead.width"]
    wanted = ((w - h) * h + math.pi * h**2 / 4) * said["bead.flow"] / 100
    beads = [leg.e * bar(name) / leg.length for leg in laid(name) if leg.length > 0.5]
    near = sum(bead == pytest.approx(wanted, rel=1e-3) for bead in beads)
    assert near > len(beads) / 8


@pytest.mark.parametrize("name", [name for name in NAMES if "vase" not in name])
def test_layers_are_the_heights_at_which_something_is_laid(name: str) -> None:
    assert len({round(leg.z, 3) for leg in laid(name)}) == made(name).truth.layers


@pytest.mark.parametrize("name", NAMES)
def test_fastest_of_each_kind(name: str) -> None:
    truth, fastest = made(name).truth, defaultdict(float)
    for leg in laid(name):
        fastest[leg.kind] = max(leg.speed, fastest[leg.kind])
    assert fastest == {said: pytest.approx(truth.fastest[kind], abs=1e-9) for kind, said in truth.words.items()}


@pytest.mark.parametrize("name", [name for name in NAMES if "arcs" not in name])
def test_largest_flow_over_a_line(name: str) -> None:
    flows = [leg.e * bar(name) / leg.length * leg.speed for leg in laid(name) if leg.length >= 1]
    assert max(flows) == pytest.approx(made(name).truth.flow_peak, rel=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_pulls(name: str) -> None:
    text, truth = made(name).text, made(name).truth
    drawn = [leg for leg in legs(name) if leg.e < 0]
    assert len(drawn) + text.count("G10\n") == truth.pulls
    assert (truth.pulls > 0) == truth.settings["retraction.on"]
    assert {round(-leg.e, 4) for leg in drawn} <= {truth.settings.get("retraction.distance")}
    assert {round(leg.speed, 4) for leg in drawn} <= {truth.settings.get("retraction.speed")}


@pytest.mark.parametrize("name", NAMES)
def test_a_speed_that_is_not_open_is_reached(name: str) -> None:
    truth = made(name).truth
    assert set(truth.open) <= set(truth.settings)
    for kind, top in truth.fastest.items():
        if f"{kind}.speed" in truth.settings:
            assert top <= truth.settings[f"{kind}.speed"] + 1e-9
            assert (f"{kind}.speed" in truth.open) == (top < truth.settings[f"{kind}.speed"] - 0.01)


def test_arcs_carry_the_bead_of_their_length() -> None:
    """Full circles of the outer wall: 2 pi I J, from the words alone."""
    text, said = made("dome_arcs").text, made("dome_arcs").truth.settings
    circles = re.findall(r"^G3 .*I(\S+) J(\S+) E(\S+)", text.split("; storey 2\n")[1], re.M)
    h, w = said["layer.height"], said["bead.width"]
    wanted = ((w - h) * h + math.pi * h**2 / 4) * said["bead.flow"] / 100
    lengths = [(math.tau * math.hypot(float(i), float(j)), float(e)) for i, j, e in circles]
    assert len(circles) > 50
    assert all(e * bar("dome_arcs") / length == pytest.approx(wanted, rel=1e-3) for length, e in lengths)
    assert made("dome_arcs").truth.flow_peak == pytest.approx(wanted * said["infill.speed"], rel=1e-3)


def test_checksums() -> None:
    lines = [line for line in made("towers_numbered").text.splitlines() if line.startswith("N")]
    assert len(lines) > 1000
    for body, check in (line.split("*") for line in lines):
        assert reduce(xor, body.encode()) == int(check)


def test_the_least_time_of_a_layer() -> None:
    seconds = defaultdict(float)
    for leg in laid("towers"):
        seconds[round(leg.z, 3)] += leg.length / leg.speed
    assert min(seconds.values()) >= made("towers").truth.settings["layer.minimum_time"] - 1e-2
    assert "outer_wall.speed" in made("towers").truth.open


def test_a_file_without_one_line_is_counted_otherwise() -> None:
    lines = made("mushroom").text.splitlines()
    middle = next(number for number in range(len(lines) // 2, len(lines)) if " E" in lines[number])
    spoilt = "\n".join(lines[:middle] + lines[middle + 1 :])
    assert sum(leg.e for leg in read(spoilt)) != pytest.approx(made("mushroom").truth.filament_mm, abs=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_heat_comes_before_the_first_laid_line(name: str) -> None:
    text = made(name).text.upper()
    said = made(name).truth.settings
    start = text.split("STOREY 1\n")[0]
    for order, setting in (("M109", "first_layer.nozzle_temperature"), ("M190", "first_layer.bed_temperature")):
        assert re.search(rf"{order} S{said[setting]}\b", start)
    fan = re.search(r"M106 S(\d+)", text)
    assert fan, "the fan never runs"
    assert int(fan[1]) / 2.55 == pytest.approx(said["fan.power"])
    assert text[: fan.start()].count("STOREY") == said["fan.off_layers"] + 1
