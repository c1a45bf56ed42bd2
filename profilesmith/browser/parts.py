"""The parts that the page is built from, in the user's cache: ``python -m profilesmith.browser.parts``, once, with a
network.

Pyodide (Python as WebAssembly) comes from the npm registry by ``npm pack``, and only bytes of the pinned SHA-512 are
taken. Its own interpreter then compiles this package, with what it reaches of the standard library, into one archive: a
page that loads compiled modules is ready in half the time. With ``--wheel FOLDER`` the parts become a wheel for a
machine without a network.
"""

from __future__ import annotations

import hashlib
import io
import json
import os
import shutil
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from base64 import b64encode
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

from profilesmith.browser.wheel import wheel
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.new_files import stage_folder
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.write_files import write_whole

VERSION = "314.0.7"
SHA512 = "0YvXxEhfEdpLfb/XkM2BFAeMROq0iMUX2bzzH9pOttyMcWkwq+HbE5uyuGD82LN7y2q+SNvi/6V5JEsOlD2R1A=="
MEMBERS = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
LARGEST_MEMBER = 30_000_000
PACKAGES = ("jinja2", "markupsafe", "tomlkit")
COMMAND = "python -m profilesmith.browser.parts"
WHEEL = "profilesmith_browser_parts"
COMPILED = "engine.zip"


class PageParts(NamedTuple):
    """What a page needs: the loader, the engine's script, the engine itself, and all Python in one archive."""

    loader: bytes
    script: bytes
    engine: bytes
    archive: bytes
    lock: bytes


def cache() -> Path:
    """The folder of this version's parts: $PROFILESMITH_PARTS, or one in the user's cache."""
    named = os.environ.get("PROFILESMITH_PARTS")
    if named:
        return Path(named)
    home = os.environ.get("LOCALAPPDATA") or os.environ.get("XDG_CACHE_HOME") or str(Path.home() / ".cache")
    return Path(home) / "profilesmith" / f"browser-{VERSION}"


def load_parts() -> PageParts:
    """The parts of this very package. Raises Refused with the one sentence that says how to get them."""
    for folder in places():
        archive = folder / f"{fingerprint()}.zip"
        if archive.is_file() and all((folder / name).is_file() for name in MEMBERS):
            loader, script, engine = ((folder / name).read_bytes() for name in MEMBERS[:3])
            info = json.loads((folder / MEMBERS[4]).read_bytes())["info"]
            lock = json.dumps({"info": info, "packages": {}}).encode()
            return PageParts(loader, script, engine, archive.read_bytes(), lock)
    known = any((folder / MEMBERS[0]).is_file() for folder in places())
    message = "The browser's parts are those of another version." if known else "The browser's parts are not here yet."
    hint = f"Run '{COMMAND}' once: it needs npm{'' if known else ' and a network'}, and some 20 seconds."
    raise Refused([Problem("no-parts", message, hint=hint)])


def places() -> Iterator[Path]:
    """Where parts may lie: the cache, and a wheel that was installed."""
    yield cache()
    spec = find_spec(WHEEL)
    if spec and spec.submodule_search_locations:
        yield Path(spec.submodule_search_locations[0])


def fingerprint() -> str:
    """A word for all that is compiled: it changes with every line of the package."""
    digest = hashlib.sha256()
    for name, raw in sorted(sources().items()):
        digest.update(f"{name}\0{len(raw)}\0".encode() + raw)
    return digest.hexdigest()[:16]


def sources() -> dict[str, bytes]:
    """The files of this package and of those that render pages, as they go into the archive."""
    sources: dict[str, bytes] = {}
    for package in ("profilesmith", *PACKAGES):
        spec = find_spec(package)
        assert spec is not None
        assert spec.submodule_search_locations
        folder = Path(spec.submodule_search_locations[0])
        for path in folder.rglob("*"):
            name = path.relative_to(folder)
            if path.is_file() and _wanted(package, name):
                sources[f"{package}/{name.as_posix()}"] = path.read_bytes()
    return sources


LEFT_OUT = ("__pycache__", "cli", "workflows", "reports", "catalogue", "lint", "shipped", "template", "page", "library")
DATA = (".toml", ".json", ".html", ".css", ".js")


def _wanted(package: str, name: Path) -> bool:
    """Whether a file goes along: what the engine can reach, and its data. Compiled modules of a machine never do."""
    if package != "profilesmith":
        return name.suffix == ".py"
    return not set(name.parts[:-1]) & set(LEFT_OUT) and name.suffix in (".py", *DATA)


def fetch(folder: Path) -> None:
    """Pyodide's parts from the npm registry. Raises Refused when they are not the pinned bytes."""
    npm = _tool("npm")
    with tempfile.TemporaryDirectory() as scratch:
        command = [npm, "pack", f"pyodide@{VERSION}", "--pack-destination", scratch, "--silent"]
        run = subprocess.run(command, capture_output=True, text=True, check=False, timeout=600)
        packed = Path(scratch) / f"pyodide-{VERSION}.tgz"
        if not packed.is_file():
            reason = run.stderr.strip().splitlines()[-1:] or ["no reason was given"]
            raise Refused(
                [Problem("no-download", f"npm could not fetch pyodide {VERSION}: {reason[0]}.", hint="Try again.")]
            )
        raw = packed.read_bytes()
    if b64encode(hashlib.sha512(raw).digest()).decode() != SHA512:
        message = f"What the registry sent as pyodide {VERSION} is not what this version was made with: it is not used."
        raise Refused([Problem("wrong-bytes", message, hint="Try again later, or ask the keepers of profilesmith.")])
    with tarfile.open(fileobj=io.BytesIO(raw)) as archive:
        for name in MEMBERS:
            stream = archive.extractfile(f"package/{name}")
            assert stream is not None
            (folder / name).write_bytes(stream.read(LARGEST_MEMBER))


def compile_all(folder: Path) -> bytes:
    """This package and what it reaches, compiled by the engine's interpreter."""
    here = Path(__file__).resolve().parent
    with tempfile.TemporaryDirectory() as scratch:
        ours, out = Path(scratch) / "ours.zip", Path(scratch) / "out.zip"
        with zipfile.ZipFile(ours, "w") as archive:
            for name, raw in sources().items():
                archive.writestr(name, raw)
        words = [_tool("node"), here / "compile.mjs", folder, ours, here / "trim.py", out]
        run = subprocess.run(list(map(str, words)), capture_output=True, text=True, check=False, timeout=600)
        if not out.is_file():
            raise Refused([Problem("no-compile", f"The parts could not be compiled: {run.stderr.strip()[-300:]}")])
        return out.read_bytes()


def _tool(name: str) -> str:
    path = shutil.which(name)
    if path is None:
        message = f"The program {name!r} is needed once, to build the browser's parts."
        raise Refused([Problem("no-tool", message, hint="Install Node.js, which brings node and npm.")])
    return path


def make_parts(folder: Path) -> Path:
    """Fetch what is missing and compile what changed; the folder is whole or as it was."""
    files: dict[str, bytes] = {}
    with tempfile.TemporaryDirectory() as scratch:
        there = folder if all((folder / name).is_file() for name in MEMBERS) else Path(scratch)
        if there != folder:
            fetch(there)
        files = {name: (there / name).read_bytes() for name in MEMBERS}
        files[f"{fingerprint()}.zip"] = compile_all(there)
    folder.parent.mkdir(parents=True, exist_ok=True)
    stage = stage_folder(files, folder.parent, f".{folder.name}.")
    shutil.rmtree(folder, ignore_errors=True)
    os.replace(stage, folder)
    return folder


def main(words: list[str]) -> int:
    """Make the parts, and say where they lie. ``--wheel FOLDER``: a wheel of them, too."""
    try:
        folder = make_parts(cache())
        sys.stdout.write(f"The browser's parts lie in {folder}.\n")
        if words[:1] == ["--wheel"] and len(words) == 2:
            files = {path.name: path.read_bytes() for path in folder.iterdir() if path.name != "python_stdlib.zip"}
            name, raw = wheel(WHEEL, {**files, "python_stdlib.zip": b""})
            refuse_if(write_whole({Path(words[1]) / name: raw}, overwrite=True))
            sys.stdout.write(f"wrote {Path(words[1]) / name}\n")
    except Refused as refused:
        sys.stderr.write("".join(f"{problem}\n" for problem in refused.problems))
        return refused.exit_code
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
