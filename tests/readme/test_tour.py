"""The README and the guide, run: every command must succeed and every line of shown output must really come."""

import os
import re
import shlex
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.workflows.guide import TOPICS, page

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCK = re.compile(r"^ *```(sh|text)\n(.*?)^ *```$", re.M | re.S)


def section(title: str) -> str:
    return README.partition(f"## {title}\n")[2].partition("\n## ")[0]


def run(script: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """A block of commands in one shell, with this environment's program first on the path."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    env = {**os.environ, "PATH": path, "COLUMNS": "120", "PYTHONUTF8": "1"}
    return subprocess.run(
        ["sh", "-ec", script], cwd=folder, env=env, capture_output=True, text=True, encoding="utf-8", check=False
    )


PLAIN = re.compile(r"""profilesmith(?: [-\w.,=:/]+| "[^"$`\\]*")+""")
"""A call of the program alone: a shell would only take its words apart."""
Typed = Callable[[str, Path], subprocess.CompletedProcess[str]]


@pytest.fixture
def typed(program: Callable[..., Any], monkeypatch: pytest.MonkeyPatch) -> Typed:
    """As ``run``; what is nothing but calls of the program is called in this process, by the same words."""
    monkeypatch.setenv("COLUMNS", "120")

    def typed(script: str, folder: Path) -> subprocess.CompletedProcess[str]:
        lines = [line for line in script.splitlines() if line]
        if not all(map(PLAIN.fullmatch, lines)):
            return run(script, folder)
        monkeypatch.chdir(folder)
        ended = subprocess.CompletedProcess(script, 0, "", "")
        for line in lines:
            ran = program(*shlex.split(line)[1:])
            ended.returncode, ended.stdout, ended.stderr = ran.code, ended.stdout + ran.out, ended.stderr + ran.err
            if ran.code:
                break
        return ended

    return typed


def test_what_needs_a_shell_gets_one() -> None:
    plain = 'profilesmith derive base.settings --set "nozzle.temperature=212 °C" -o soft/x.settings'
    assert PLAIN.fullmatch(plain)
    for more in (" > x", " | cat", " || true", " *.cfg", " $HOME", ' "$x"', " 'x'", "; ls", " &&", " \\", " # x", " ~"):
        assert not PLAIN.fullmatch(plain + more), more
    assert not PLAIN.fullmatch("cd heron")


TOUR = (("start", 7), ("motion", 4), ("rederive", 2), ("batch", 1), ("distil", 2))
"""Pages that follow one another in the demo's folder, and how many blocks of commands each has at least."""


def test_tour(tmp_path: Path, typed: Typed) -> None:
    folder = tmp_path
    assert run("profilesmith demo heron", folder).returncode == 0
    for topic, least in TOUR:
        folder = walk(topic, folder, least, typed)


def test_library(tmp_path: Path, typed: Typed) -> None:
    """The page on libraries goes on in the folder of the demo."""
    assert typed("profilesmith demo heron", tmp_path).returncode == 0
    walk("library", tmp_path / "heron", 6, typed)


def test_evening(tmp_path: Path, typed: Typed) -> None:
    """The page on what comes after the print: a whole evening in the folder of the demo."""
    assert typed("profilesmith demo heron -q", tmp_path).returncode == 0
    walk("mend", tmp_path / "heron", 6, typed)


def walk(topic: str, folder: Path, least: int, typed: Typed) -> Path:
    """Run a page's commands one after the other; what it shows must come. Returns the folder in which it ends."""
    blocks = BLOCK.findall(page(topic).text)
    assert [kind for kind, _ in blocks].count("sh") >= least
    printed = ""
    for kind, text in blocks:
        if kind == "sh":
            result = typed(text, folder)
            assert result.returncode == 0, f"{text}\n{result.stdout}\n{result.stderr}"
            printed = result.stdout
            for line in text.splitlines():
                folder = folder / line.removeprefix("cd ") if line.startswith("cd ") else folder
        else:
            for line in text.splitlines():
                assert line in printed.splitlines(), f"{topic} shows {line!r}, which did not come:\n{printed}"
    return folder


def test_the_readme_is_short_and_its_links_lead_somewhere() -> None:
    assert len(README.split()) <= 1500
    links = re.findall(r"\]\(([^)#]+)\)", README)
    assert links
    assert [link for link in links if not (ROOT / link).is_file()] == []


def test_the_picture_is_light() -> None:
    """Made by ``python -m tests.browser.picture``."""
    picture = ROOT / "profilesmith/guide/review.png"
    assert picture.read_bytes().startswith(b"\x89PNG")
    assert picture.stat().st_size <= 150_000


def test_every_page_of_the_guide_is_listed_and_linked() -> None:
    files = {path.stem for path in (ROOT / "profilesmith/guide").glob("*.md")}
    assert files == set(TOPICS)
    assert all(f"profilesmith/guide/{topic}.md" in README for topic in TOPICS if topic != "safety")


def test_demo_leaves_every_other_byte(tmp_path: Path, typed: Typed) -> None:
    result = typed("profilesmith demo heron", tmp_path)
    assert result.returncode == 0, result.stderr
    before = (tmp_path / "heron/base.settings").read_bytes().split(b"\n")
    after = (tmp_path / "heron/soft.settings").read_bytes().split(b"\n")
    assert len(before) == len(after)
    changed = [number for number, (old, new) in enumerate(zip(before, after, strict=True), 1) if old != new]
    assert changed, "the demo changes something"
    named = (tmp_path / "heron/soft.settings.ledger.json").read_text(encoding="utf-8")
    assert all(f'"line": {number}' in named for number in changed)
    commands = [line.strip() for line in result.stdout.splitlines() if line.startswith("  profilesmith ")]
    assert len(commands) == 3
    assert "--report heron/review.html" in commands[0]
    for command in commands:  # where the first command ran, as they stand
        again = typed(command, tmp_path)
        assert again.returncode == 0, f"{command}\n{again.stderr}"
    assert (tmp_path / "heron/review.html").is_file()


@pytest.mark.parametrize("command", ["profilesmith demo", "python -m pytest"])
def test_first_commands_are_there(command: str) -> None:
    """The two one-line commands that the README opens with."""
    lines = [
        line
        for kind, text in BLOCK.findall(section("Set up and see it work"))
        if kind == "sh"
        for line in text.splitlines()
    ]
    assert sum(command in line for line in lines) == 1
    assert all(line.startswith("python3 -m venv .venv && ") for line in lines)


def test_the_recipe_that_is_shown(tmp_path: Path, typed: Typed) -> None:
    """The guide's own recipe is read and passes its example; its facts file is taken."""
    shown = {
        text.partition("[")[2].partition("]")[0]: text
        for text in re.findall(r"^```toml\n(.*?)^```$", page("recipe").text + page("facts").text, re.M | re.S)
    }
    (tmp_path / "slow-and-dense.toml").write_text(shown["recipe"], encoding="utf-8")
    (tmp_path / "facts.toml").write_text(shown["machine"], encoding="utf-8")
    result = typed("profilesmith recipe check slow-and-dense.toml", tmp_path)
    assert "1 of 1 examples pass" in result.stdout, result.stdout + result.stderr
    derived = (
        "profilesmith demo d > /dev/null; profilesmith derive d/base.settings --keymap d/keymap.toml "
        '--recipe slow-and-dense.toml --facts facts.toml --answer "support_share=25 %" --dry-run'
    )
    assert "12 → 25 %" in run(derived, tmp_path).stdout


def test_five_minutes(tmp_path: Path, typed: Typed) -> None:
    """The README's way from an unknown text to a derived profile, on an invented dialect."""
    text = next((ROOT / "tests/cases/dialects/tuned/millrace").glob("base.*")).read_bytes()
    (tmp_path / "my-settings.txt").write_bytes(text)
    commands = [text for kind, text in BLOCK.findall(section("Your own settings text in five minutes")) if kind == "sh"]
    assert len(commands) == 1
    result = typed(commands[0], tmp_path)
    assert result.returncode == 0, result.stdout + result.stderr
    assert (tmp_path / "soft.txt").read_bytes() != text
    assert "settings changed" in result.stdout
