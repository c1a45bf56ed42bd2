"""``python -m tests.benchmarks``: speeds as ratios against a named peer, both measured in this very run.

Absolute seconds differ from machine to machine; a ratio of medians, measured in turn, travels.
"""

from __future__ import annotations

import compileall
import configparser
import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import profilesmith
from profilesmith.library.find import shipped
from profilesmith.profile.compare_profiles import compare_profiles
from profilesmith.profile.profile import Entry, Origin, Profile
from profilesmith.text.read_document import read_document

RUNS = 5


def settings_text(keys: int) -> bytes:
    """A text with comments, blank lines, sections and one assignment a line."""
    chance = random.Random(7)
    lines = ["[sheet]\n"]
    for number in range(keys):
        if number % 50 == 0:
            lines.append(f"\n# block {number}\n")
        lines.append(f"key_{number} = {chance.uniform(0, 300):.2f}\n")
    return "".join(lines).encode()


def seconds(function: Callable[[], object]) -> float:
    start = time.perf_counter()
    function()
    return time.perf_counter() - start


def in_turn(ours: Callable[[], object], peer: Callable[[], object], runs: int = RUNS) -> tuple[float, float, float]:
    """Medians of ours and of the peer, and the median of the pairwise ratios ours/peer."""
    pairs = [(seconds(ours), seconds(peer)) for _ in range(runs + 1)][1:]
    ratio = statistics.median(mine / theirs for mine, theirs in pairs)
    return statistics.median(mine for mine, _ in pairs), statistics.median(theirs for _, theirs in pairs), ratio


def show(name: str, ours: float, peer: float, ratio: float, aim: str) -> None:
    print(f"{name:<58} {ours * 1000:9.1f} ms {peer * 1000:9.1f} ms  {ratio:6.3f}  {aim}")


def reading() -> None:
    raw = settings_text(100_000)
    text = raw.decode()

    def peer() -> None:
        parser = configparser.RawConfigParser()
        parser.optionxform = str  # type: ignore[method-assign,assignment]
        parser.read_string(text)

    show("read 100,000 lines / configparser", *in_turn(lambda: read_document(raw), peer), "at most 0.4")
    small, large = settings_text(1_000), settings_text(1_000_000)
    per_line = [
        statistics.median(seconds(lambda raw=raw: read_document(raw)) for _ in range(runs)) / raw.count(b"\n")
        for raw, runs in ((small, 30), (raw, 5), (large, 3))
    ]
    shown = ", ".join(f"{value * 1e6:.2f}" for value in per_line)
    print(f"{'µs a line at 1,000, 100,000 and 1,000,000 lines':<58} {shown}  (linear: alike)")


def comparing() -> None:
    from deepdiff import DeepDiff

    def profile(values: dict[str, Fraction]) -> Profile:
        origin = Origin("", 0, "", "")
        return Profile(
            entries={name: Entry(setting=name, values=(value,), origin=origin) for name, value in values.items()},
            addable={},
            absent={},
        )

    old = {f"setting.{number}": Fraction(number, 10) for number in range(10_000)}
    new = {name: value + 1 if index % 20 == 0 else value for index, (name, value) in enumerate(old.items())}
    before, after = profile(old), profile(new)
    plain_old, plain_new = ({name: float(value) for name, value in side.items()} for side in (old, new))
    ours, peer, ratio = in_turn(lambda: compare_profiles(before, after), lambda: DeepDiff(plain_old, plain_new), 3)
    show("compare 10,000 settings / DeepDiff on the same dicts", ours, peer, ratio, "at most 0.05")


def process(*words: str) -> Callable[[], object]:
    return lambda: subprocess.run([sys.executable, *words], check=True, capture_output=True)


def script(folder: str) -> str:
    """The command as an installer writes it: ``python -m`` loads the standard library's runpy besides."""
    place = Path(folder, "profilesmith-script.py")
    place.write_text("import sys\nfrom profilesmith.start import main\nsys.exit(main())\n")
    return str(place)


def demo(out: str, *begin: str) -> Callable[[], object]:
    """The demo's derivation with all of its facts. begin: what calls the program."""
    place = shipped() / "demo"
    facts = [word for name in ("machine", "spool", "part") for word in ("--facts", str(place / f"{name}.toml"))]
    call = ("derive", str(place / "base.settings"), "--keymap", str(place / "keymap.toml"), "--recipe", "flexible-pla")
    return process(*(begin or ("-m", "profilesmith")), *call, *facts, "-o", out, "--overwrite")


def processes() -> None:
    # As an installer does: a checkout that may not write bytecode would be compiled anew in every process.
    compileall.compile_dir(Path(profilesmith.__file__).parent, quiet=1)
    with tempfile.TemporaryDirectory() as folder:
        base, key_map = Path(folder, "base.cfg"), Path(folder, "map.toml")
        bound = {
            "OuterPace": ("outer_wall.speed", "mm/s", "80"),
            "PropFill": ("support.density", "%", "12"),
            "Slab": ("layer.height", "mm", "0.2"),
            "Lay": ("bead.width", "mm", "0.45"),
            "Tip": ("nozzle.temperature", "C", "205"),
        }
        lines = [f"{key} = {text}\n" for key, (_, _, text) in bound.items()]
        base.write_bytes("".join(lines).encode() + settings_text(1_000).replace(b"[sheet]\n", b""))
        tables = [
            f'[[binding]]\nsetting = "{name}"\nkey = "{key}"\nunit = "{unit}"\n'
            for key, (name, unit, _) in bound.items()
        ]
        key_map.write_text('format = 1\n[keymap]\nname = "bench"\n' + "".join(tables))
        out = str(Path(folder, "out.cfg"))
        derive = process(
            "-m",
            "profilesmith",
            "derive",
            str(base),
            "--keymap",
            str(key_map),
            "--recipe",
            "flexible-pla",
            "-o",
            out,
            "--overwrite",
        )
        imports = process("-c", "import typer, tomlkit")
        installed = in_turn(demo(out, script(folder)), imports, 41)
        show("derive the demo / importing typer, tomlkit", *installed, "at most 1.7, aim 1.3")
        show("the same by python -m profilesmith", *in_turn(demo(out), imports, 21), "")
        show("derive 1,000 keys / importing typer, tomlkit", *in_turn(derive, imports, 9), "")
        bare = Path(folder, "bare.py")
        bare.write_text(
            "import typer\napp = typer.Typer()\n@app.command()\ndef main(name: str = 'x') -> None:\n    pass\napp()\n"
        )
        show(
            "profilesmith --help / --help of a bare typer program",
            *in_turn(process("-m", "profilesmith", "--help"), process(str(bare), "--help"), 9),
            "at most 1.3",
        )


if __name__ == "__main__":
    print(f"{'what / peer':<58} {'ours':>12} {'peer':>12}  {'ratio':>6}  wanted")
    reading()
    comparing()
    processes()
