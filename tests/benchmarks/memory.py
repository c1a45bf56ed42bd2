"""``python -m tests.benchmarks.memory``: what a reading and whole commands take, for texts of odd shapes.

Of a reading: the peak of its objects (tracemalloc) and of the process (resident set, less what it was before), both as
a share of the text's bytes; 12 is the most that is allowed. Of a command: the peak of its process, its processor time,
exit code and the first line of what it said. Each is measured in a process of its own.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
import tracemalloc
from pathlib import Path

from profilesmith.text.read_document import read_document

MOST = 12
SHAPES = {
    "shortest lines (k=)": lambda: b"k=\n" * 1_500_000,
    "950,000 lines (k1=1)": lambda: b"k1=1\n" * 950_000,
    "5 million lines, 93 MB": lambda: b"".join(b"key%07d = %03d\n" % (at, at % 1000) for at in range(5_166_667)),
    "lines of 2 kB": lambda: (b"key = " + b"x" * 2000 + b"\n") * 20_000,
    "one line of 50 MB": lambda: b"key = " + b"x" * 50_000_000,
    "one key 300,000 times": lambda: b"speed = 60\n" * 300_000,
    "a heading for each key": lambda: b"[a]\nk=\n" * 600_000,
    "values that go on below": lambda: b"k=\n x\n" * 600_000,
    "lines that are not read": lambda: b"a\n" * 1_500_000,
    "blank lines": lambda: b"\n" * 3_000_000,
    "a sign beyond UTF-16": lambda: b"k=1\n" * 1_000_000 + "s=\U0001f600\n".encode(),
    "UTF-16": lambda: b"\xff\xfe" + ("k=1\n" * 1_000_000).encode("utf-16-le"),
}
MAP = 'format = 1\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n'
RECIPE = 'format = 1\n[recipe]\nname = "r"\nversion = "1.0.0"\n'
RECIPE += '[[rule]]\nsetting = "outer_wall.speed"\ncap = "40 mm/s"\nwhy = "w"\n'
TEXTS = {
    "250,000 keys": lambda: b"".join(b"k%d=1\n" % at for at in range(249_999)),
    "one key 240,000 times": lambda: b"speed = 60\n" * 240_000,
    "one key 300,000 times": lambda: b"speed = 60\n" * 300_000,
    "5 million lines, 93 MB": SHAPES["5 million lines, 93 MB"],
    "a key of 40 kB": lambda: b"speed of outer wall " * 2_000 + b"= 60\n",
    "a section name of 40 kB": lambda: b"[" + b"speed of outer wall " * 2_000 + b"]\nk = 60\n",
}
COMMANDS = {
    "derive": ("derive", "base.cfg", "--keymap", "map.toml", "--recipe", "recipe.toml", "-o", "new.cfg", "-q"),
    "check": ("check", "base.cfg", "--keymap", "map.toml"),
    "suggest": ("keymap", "suggest", "base.cfg", "-o", "proposed.toml"),
}


def peak() -> int:
    """Of this program alone: what getrusage tells goes on from the process that started it, across exec."""
    lines = Path("/proc/self/status").read_text().splitlines()
    return next(int(line.split()[1]) * 1024 for line in lines if line.startswith("VmHWM:"))


def one_reading(name: str, objects: bool) -> None:
    """Prints bytes of the text and of the peak, and seconds of processor time."""
    raw = Path(name).read_bytes()
    before = peak()
    if objects:
        tracemalloc.start()
    start = time.process_time()
    document = read_document(raw, "f")
    took = time.process_time() - start
    most = tracemalloc.get_traced_memory()[1] if objects else peak() - before
    print(len(raw), most, took, len(document.assignments))


def readings() -> int:
    worst = 0.0
    print(f"{'a reading':<28} {'MB':>7} {'keys':>10} {'objects':>8} {'process':>8} {'CPU s':>7}   times the text")
    for name in SHAPES:
        size, objects, _, keys = _measured(name, "objects")
        _, process, took, _ = _measured(name, "process")
        shares = objects / size, process / size
        worst = max(worst, *shares)
        print(f"{name:<28} {size / 1e6:7.1f} {keys:>10,.0f} {shares[0]:8.1f} {shares[1]:8.1f} {took:7.2f}", flush=True)
    print(f"largest share {worst:.1f}, at most {MOST}: {'holds' if worst <= MOST else 'MISSED'}")
    return int(worst > MOST)


def _measured(name: str, what: str) -> list[float]:
    """In a process that did not make the text: what making it took would hide what reading takes."""
    with tempfile.NamedTemporaryFile() as file:
        file.write(SHAPES[name]())
        file.flush()
        words = [sys.executable, "-m", "tests.benchmarks.memory", "--one", file.name, what]
        ran = subprocess.run(words, capture_output=True, text=True, check=True)
    return [float(word) for word in ran.stdout.split()]


def commands() -> None:
    print(f"\n{'a command':<10} {'on':<26} {'MB':>6} {'peak MB':>8} {'kB a line':>9} {'CPU s':>7} exit  said")
    for text, made in TEXTS.items():
        with tempfile.TemporaryDirectory() as place:
            folder = Path(place)
            (folder / "map.toml").write_text(MAP)
            (folder / "recipe.toml").write_text(RECIPE)
            (folder / "base.cfg").write_bytes(b"rim = 60\n" + made())
            size, lines = (folder / "base.cfg").stat().st_size, (folder / "base.cfg").read_bytes().count(b"\n")
            for name, words in COMMANDS.items():
                most, took, code, said = _run(folder, words)
                print(
                    f"{name:<10} {text:<26} {size / 1e6:6.1f} {most / 1e6:8.0f} {most / 1e3 / lines:9.1f} {took:7.1f}"
                    f" {code:>4}  {said[:90]}",
                    flush=True,
                )


def _run(folder: Path, words: tuple[str, ...]) -> tuple[float, float, int, str]:
    """A command by itself, below a process that has no other child: its peak of memory, time, exit code, first line."""
    program = (
        "import resource, subprocess, sys; ran = subprocess.run(sys.argv[1:], capture_output=True, text=True);"
        "used = resource.getrusage(resource.RUSAGE_CHILDREN);"
        "print(used.ru_maxrss * 1024, used.ru_utime + used.ru_stime, ran.returncode, sep='\\n');"
        "print((ran.stderr or ran.stdout).strip().split('\\n')[0])"
    )
    call = [sys.executable, "-c", program, sys.executable, "-m", "profilesmith", *words]
    ran = subprocess.run(call, cwd=folder, capture_output=True, text=True, check=True)
    most, took, code, *said = ran.stdout.split("\n")
    return float(most), float(took), int(code), "".join(said)


if __name__ == "__main__":
    if sys.argv[1:2] == ["--one"]:
        one_reading(sys.argv[2], sys.argv[3] == "objects")
    else:
        missed = readings()
        commands()
        sys.exit(missed)
