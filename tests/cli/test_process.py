"""The program as a process of its own: start-up, Ctrl-C, closed pipes, narrow encodings, shell completion."""

from __future__ import annotations

import ast
import importlib
import os
import re
import resource
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from profilesmith.engine.read import MOST_LINES

PROGRAM = [sys.executable, "-m", "profilesmith"]
# As the installed command: its name stands in completion scripts.
COMMAND = [
    sys.executable,
    "-c",
    "import sys; sys.argv[0] = 'profilesmith'; from profilesmith.cli.app import main; main()",
]
PLAIN = {
    name: value
    for name, value in os.environ.items()
    if not name.startswith(("PROFILESMITH", "_PROFILESMITH", "COLUMNS", "PYTHONIOENCODING"))
}


def run(*words: str, **more: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run([*COMMAND, *words], capture_output=True, env={**PLAIN, **more}, timeout=60, check=False)


def test_help_imports_nothing_heavy() -> None:
    """deepdiff, tomlkit and rich are for single functions; --help needs none of them."""
    code = (
        "import sys\nfrom profilesmith.cli.app import main\nsys.argv = ['profilesmith', '--help']\n"
        "try:\n    main()\nexcept SystemExit as end:\n    assert not end.code\n"
        "print('|', *sorted({name.partition('.')[0] for name in sys.modules} & {'deepdiff', "
        "'tomlkit', 'rich', 'numpy', 'configparser'}))\n"
        "print('|', *sorted(name for name in sys.modules if "
        "name.startswith('profilesmith.workflows.') or name.startswith('profilesmith.review.')))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, env=PLAIN, timeout=60, check=True
    )
    assert "Usage" in done.stdout
    assert done.stdout.splitlines()[-2:] == ["|", "|"]


# What a derivation that is shown on a terminal has no use for. Each was once loaded, or is easily: a name at the top of
# a file is enough. DEVELOPERS.md says how to look.
NOT_TO_DERIVE = {
    "dataclasses": "classes of foundation/named_tuple.py cost a fiftieth",
    "hashlib": "loads OpenSSL; foundation/digest.py does not",
    "tempfile": "loads random and hashlib",
    "importlib.metadata": "loads email, csv, zipfile; the version is profilesmith.__version__",
    **dict.fromkeys(("argparse", "logging", "email", "statistics", "asyncio", "multiprocessing"), "no use"),
    **dict.fromkeys(("deepdiff", "tomlkit", "tomllib", "rich", "jinja2", "numpy"), "for single functions"),
    **{
        f"profilesmith.{room}": "another goal's room"
        for room in ("browser", "catalogue", "coupon", "distil", "evidence", "lint", "merge", "motion", "revision")
    },
    "profilesmith.suggest": "another goal's room",
    "profilesmith.cli.complete": "where a shell asks",
    "profilesmith.ledger.format_1": "for ledgers of old",
    "profilesmith.ledger.read": "for ledgers that were written",
    **{
        f"profilesmith.recipe.{name}": "for rules that few recipes have, or when something is wrong"
        for name in ("conflict", "count", "no_operation", "read_count", "read_product", "shared_key")
    },
    "profilesmith.mend": "where a file was mended",
    "profilesmith.review.edited_now": "where a hand edited",
    "profilesmith.review.hand_edits": "where a hand edited",
    "profilesmith.review.road": "where a file was mended",
    "profilesmith.review.standing": "for the whole sheet",
    "profilesmith.review.tools_words": "for texts with several tools",
    **dict.fromkeys(("profilesmith.review.unread_lines", "profilesmith.review.unread_words"), "for lines not read"),
    "unicodedata": "for texts with further signs",
    "profilesmith.review.render.page": "another form",
    "profilesmith.review.render.markdown": "another form",
    "profilesmith.workflows.by_hand": "where something is set by hand",
}
MOST_MODULES = 185  # of ours; each costs a fifth of a millisecond


def test_a_derivation_loads_what_it_needs(tmp_path: Path) -> None:
    demo = Path(__file__).parents[2] / "recipes" / "demo"
    facts = [word for name in ("machine", "spool", "part") for word in ("--facts", str(demo / f"{name}.toml"))]
    call = [str(demo / "base.settings"), "--keymap", str(demo / "keymap.toml"), "--recipe", "flexible-pla", *facts]
    code = (
        "import sys\nfrom profilesmith.cli.app import main\nfrom profilesmith.foundation import toml_reader\n"
        "texts, loads = [], toml_reader.loads\ntoml_reader.loads = lambda text: texts.append(text) or loads(text)\n"
        "try:\n    main()\nexcept SystemExit as end:\n    assert not end.code\n"
        "print(len(texts))\nprint(*sorted(sys.modules))\n"
    )
    words = [sys.executable, "-c", code, "derive", *call, "-o", str(tmp_path / "out.cfg")]
    done = subprocess.run(words, capture_output=True, text=True, env=PLAIN, timeout=60, check=True)
    loaded = set(done.stdout.splitlines()[-1].split())
    assert "profilesmith.checks.judge" in loaded
    assert int(done.stdout.splitlines()[-2]) == 5, "the files named in the call; run python -m tests.knowledge.at_start"
    assert {name: why for name, why in NOT_TO_DERIVE.items() if name in loaded} == {}
    assert {name for name in loaded if name.startswith("profilesmith.cli.commands.")} == {
        "profilesmith.cli.commands.derive"
    }
    assert sum(name.startswith("profilesmith.") for name in loaded) <= MOST_MODULES


def test_importing_the_package_imports_next_to_nothing() -> None:
    code = (
        "import sys, profilesmith; profilesmith.__version__; print(*sorted(name for name in "
        "sys.modules if name.startswith('profilesmith.')))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=True)
    assert done.stdout.split() == []


def test_the_public_face_is_there() -> None:
    import profilesmith

    for name in profilesmith.__all__:
        assert getattr(profilesmith, name) is not None
    with pytest.raises(AttributeError):
        profilesmith.nonsense  # noqa: B018


def test_the_public_face_is_typed() -> None:
    """Names that wait until they are asked for are of any type to a checker, unless a stub says which they are."""
    import profilesmith

    stub = ast.parse(Path(profilesmith.__file__).with_suffix(".pyi").read_text(encoding="utf-8"))
    named = {
        alias.name: node.module or "" for node in stub.body if isinstance(node, ast.ImportFrom) for alias in node.names
    }
    assert {*named, "__version__"} == {*profilesmith.__all__}
    for name, module in named.items():
        assert getattr(importlib.import_module(module), name) is getattr(profilesmith, name)


def test_ctrl_c_while_a_base_is_read(tmp_path: Path) -> None:
    """A text of nearly as many lines as it takes holds the program for seconds where a signal can reach it."""
    lines = "".join(f"k{number} = 1\n" for number in range(MOST_LINES - 10))
    (tmp_path / "base.cfg").write_text(f"rim = 60\n{lines}")
    (tmp_path / "map.toml").write_text('format = 1\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n')
    process = subprocess.Popen(
        [*PROGRAM, "derive", "base.cfg", "--keymap", "map.toml", "--recipe", "flexible-pla", "-o", "out.cfg"],
        cwd=tmp_path,
        env=PLAIN,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # a job in the background is born deaf to it
    )
    try:
        reads_the_base(process)
        process.send_signal(signal.SIGINT)
        _, shown = process.communicate(timeout=300)
    finally:
        process.kill()
        process.communicate()
    assert process.returncode == 130
    assert shown.decode().split("\n")[-2:] == ["Stopped; nothing was left half written.", ""]
    assert b"Traceback" not in shown
    assert b"Abort" not in shown
    assert sorted(path.name for path in tmp_path.iterdir()) == ["base.cfg", "map.toml"]


def reads_the_base(process: subprocess.Popen[bytes]) -> None:
    """Until the process holds more memory than it does without the text; some seconds where that cannot be seen.

    What is read then takes seconds of processor time on the fastest machine, and longer wherever this test is slow.
    """
    place = Path(f"/proc/{process.pid}/statm")
    if not place.exists():
        time.sleep(1.5)
    while (
        process.poll() is None
        and place.exists()
        and int(place.read_text().split()[1]) * resource.getpagesize() < 60_000_000
    ):
        time.sleep(0.02)


def test_a_closed_pipe_is_no_fault() -> None:
    process = subprocess.Popen([*PROGRAM, "vocabulary"], env=PLAIN, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert process.stdout is not None
    process.stdout.close()
    assert process.stderr is not None
    shown = process.stderr.read()
    process.stderr.close()
    process.wait(timeout=60)
    assert process.returncode == 0
    assert shown == b""


def test_a_terminal_that_knows_ascii_only() -> None:
    done = run("vocabulary", "layer.height", PYTHONIOENCODING="ascii")
    angle = run("vocabulary", "support.overhang_angle", PYTHONIOENCODING="ascii")
    assert done.returncode == angle.returncode == 0
    assert done.stdout.isascii()
    assert b"0 to 90 deg" in angle.stdout


@pytest.mark.parametrize(("shell", "word"), [("bash", b"complete"), ("zsh", b"compdef"), ("fish", b"complete")])
def test_shell_completion_is_printed(shell: str, word: bytes) -> None:
    """Typer looks for the shell by itself; the variable of its tests takes that look away."""
    done = run("--show-completion", shell, _TYPER_COMPLETE_TEST_DISABLE_SHELL_DETECTION="1")
    assert done.returncode == 0, done.stderr
    assert word in done.stdout
    assert b"_PROFILESMITH_COMPLETE" in done.stdout


def test_completion_knows_the_commands() -> None:
    done = run(_PROFILESMITH_COMPLETE="complete_bash", COMP_WORDS="profilesmith de", COMP_CWORD="1")
    assert set(done.stdout.decode().split()) == {"demo", "derive"}


def test_the_package_is_a_program_too() -> None:
    done = subprocess.run([*PROGRAM, "--version"], capture_output=True, env=PLAIN, timeout=60, check=False)
    assert re.fullmatch(rb"profilesmith \d+\.\d+\.\d+\n", done.stdout)
