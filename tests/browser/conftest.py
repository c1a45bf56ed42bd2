"""A headless Chromium for the browser tests, the pages that they look at, and axe-core.

Needed: Debian's ``chromium``, the Python package ``playwright`` (with that browser; it downloads none) and ``npm``,
which fetches axe-core into a temporary folder. Where one is missing the tests say so and are skipped; with ``CI=true``
they fail.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tomllib
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from itertools import count
from pathlib import Path
from typing import Any, NoReturn

import pytest

from profilesmith.browser.gather import gather
from profilesmith.browser.make_page import make_page
from profilesmith.browser.parts import cache, load_parts, make_parts
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.ledger import Line
from profilesmith.ledger.judgement import Finding
from profilesmith.review.render import render
from profilesmith.review.review import AreaChanges, OpenQuestion, Reason, Review, ValueChange
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derive import derive
from profilesmith.workflows.request import Request
from tests.browser.lent_pages import LentPages, Watched
from tests.browser.walk import READY

VERSION = tomllib.loads((Path(__file__).parents[2] / "recipes/flexible-pla.toml").read_text(encoding="utf-8"))[
    "recipe"
]["version"]

AXE = "axe-core@4.14.1"
DEMO = Path(__file__).parents[2] / "recipes" / "demo"
# Without a network and without a user: no look-ups of its own, no first-run page.
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def missing(what: str) -> NoReturn:
    """Skip with a reason; on CI the tests must run."""
    if os.environ.get("CI") == "true":
        pytest.fail(f"browser tests may not be skipped here: {what}")
    pytest.skip(f"browser tests need {what}")


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    found = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if found is None:
        missing("Chromium: apt-get install chromium")
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        missing("playwright: pip install playwright")
    with sync_playwright() as play:
        made = play.chromium.launch(executable_path=found, args=FLAGS, timeout=READY)
        yield made
        made.close()


@pytest.fixture(scope="session")
def of_this_run(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that all processes of a run share."""
    own = tmp_path_factory.getbasetemp()
    return own.parent if os.environ.get("PYTEST_XDIST_WORKER") else own


@contextmanager
def one_at_a_time(folder: Path) -> Iterator[None]:
    """What is fetched and compiled once for all is not begun by two processes at once."""
    with (folder / "browser.lock").open("w") as lock:
        with suppress(ImportError):  # of Windows, where each does it by itself
            import fcntl

            fcntl.flock(lock, fcntl.LOCK_EX)
        yield


@pytest.fixture(scope="session")
def axe(of_this_run: Path) -> str:
    """The text of axe-core, a checker of the accessibility rules of W3C WCAG."""
    npm = shutil.which("npm")
    if npm is None:
        missing("npm, for axe-core")
    folder = of_this_run / "axe"
    script = folder / "node_modules" / "axe-core" / "axe.min.js"
    command = [npm, "install", "--no-audit", "--no-fund", "--ignore-scripts", "--prefix", str(folder), AXE]
    with one_at_a_time(of_this_run):
        if not script.exists():
            run = subprocess.run(command, capture_output=True, text=True, check=False, timeout=600)
            if not script.exists():
                missing(f"axe-core, which npm did not fetch: {run.stderr.strip()[-200:]}")
    return script.read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def page_file(tmp_path_factory: pytest.TempPathFactory, of_this_run: Path) -> Path:
    """The page, built once a process; its parts are built once when the package changed."""
    with one_at_a_time(of_this_run):
        try:
            parts = load_parts()
        except Refused:
            if shutil.which("npm") is None or shutil.which("node") is None:
                missing("npm and node, which build the page's parts")
            try:
                make_parts(cache())
            except Refused as refused:
                missing(str(refused))
            parts = load_parts()
    path = tmp_path_factory.mktemp("page") / "derive.html"
    path.write_text(make_page(parts, gather(None)), encoding="utf-8")
    return path


Opener = Callable[..., Watched]


@pytest.fixture(scope="session")
def lent_pages(browser: Any) -> LentPages:
    return LentPages(browser)


@pytest.fixture
def opened_file(lent_pages: LentPages) -> Iterator[Opener]:
    """Open a file: ``opened_file(path, width=360, scheme="dark", script=False)``."""

    def load(path: Path, width: int = 1280, scheme: str = "light", script: bool = True, alone: bool = False) -> Watched:
        return lent_pages.lend(path, width, scheme, script, alone)

    yield load
    lent_pages.take_back()


@pytest.fixture
def opened(opened_file: Opener, tmp_path: Path) -> Opener:
    """Open a text as a file: ``opened(html, width=360, scheme="dark", script=False)``."""
    numbers = count()

    def load(html: str, **look: Any) -> Watched:
        path = tmp_path / f"page{next(numbers)}.html"
        path.write_text(html, encoding="utf-8")
        return opened_file(path, **look)

    return load


@pytest.fixture(scope="session")
def demo() -> Review:
    """The review of the demo scenario, as the program makes it."""
    facts = tuple(str(DEMO / f"{name}.toml") for name in ("machine", "spool", "part"))
    return derive(
        Request(
            bases=(str(DEMO / "base.settings"),),
            key_map=str(DEMO / "keymap.toml"),
            recipes=("flexible-pla", "part-soft"),
            facts=facts,
            answers={},
        )
    ).review


FIGURES = [
    {
        "id": "flow",
        "title": "Flow",
        "kind": "bars",
        "unit": "mm³/s",
        "limits": [{"name": "limit", "value": 4}],
        "series": [
            {
                "name": "before",
                "points": [["outer wall of a very long name indeed, longer than its line", 5.7], ["infill", 6.7]],
            },
            {"name": "after", "points": [["infill", 3.3]]},
        ],
    },
    {
        "id": "stiff",
        "title": "Stiffness",
        "kind": "line",
        "x_name": "infill",
        "x_unit": "%",
        "marks": [{"name": "before", "x": 15, "y": 1.2}],
        "series": [
            {"name": "stiffness", "points": [[x, 1 + x * x / 1000] for x in range(0, 101, 5)]},
        ],
    },
]


@pytest.fixture
def full(demo: Review) -> Review:
    """The demo with something in every other place of a review."""
    return everything(demo, "harmless")


@pytest.fixture
def with_text(demo: Review) -> Callable[[str], Review]:
    """The same with a stranger's text in all of these places."""
    return lambda word: everything(demo, word)


def everything(demo: Review, word: str) -> Review:
    hand = ValueChange(
        setting="raft.gap",
        words=word,
        status="by hand",
        base="-",
        derived="-",
        reasons=(Reason(word, "at least 0.2 mm", word, word, "by hand", word),),
    )
    stranger = ValueChange(
        setting="raft.margin",
        words=word,
        status="changed",
        base=word,
        derived=word,
        reasons=(Reason(word, word, word, word, "changed", word),),
        file=word,
        line=1,
        key=word,
        old_text=word,
        new_text=word,
    )
    verdicts = ("passed", "note", "caution", "stop", "not judged")
    return demo._replace(
        title=f"Title {word}",
        subject=word,
        groups=(*demo.groups, AreaChanges("Strangers", (stranger,))),
        by_hand=(hand,),
        questions=(OpenQuestion(word, ("retraction.distance",), (word,)),),
        idle=(Reason(word, word, word, word, "does not apply", word),),
        conflicts=(Problem("conflict", word, Place(word, 1), word),),
        unread=(Line(word, 2, "", word),),
        overruled=(hand,),
        consequences=tuple(
            Finding(word, verdict, word, word, word, word, word, word, word, word) for verdict in verdicts
        ),
        figures=tuple({**figure, "title": f"{figure['title']} {word}", "note": word} for figure in FIGURES),
    )


@pytest.fixture
def many_rows() -> str:
    """A page of 5,000 changes."""
    names = list(load_vocabulary().settings)
    reason = Reason(
        f"flexible-pla {VERSION}, rule 1",
        "at most 40 mm/s",
        "A soft filament buckles when it is pushed fast.",
        "common practice",
        "changed",
    )
    changes = tuple(
        ValueChange(
            setting=names[number % len(names)],
            words="meaning",
            status="changed",
            base="75 mm/s",
            derived="40 mm/s",
            relative="-47 %",
            reasons=(reason,),
            file="base.settings",
            line=number,
            key=f"key_{number}",
            old_text="4500",
            new_text="2400",
        )
        for number in range(5000)
    )
    empty: dict[str, Any] = dict.fromkeys(
        (
            "by_hand",
            "questions",
            "kept",
            "idle",
            "overruled",
            "conflicts",
            "literals",
            "unmapped",
            "unread",
            "notes",
            "assumed",
            "cautions",
        ),
        (),
    )
    return render(
        Review(title="Many", subject="x", recipes=("r",), groups=(AreaChanges("All", changes),), **empty), "page"
    )
