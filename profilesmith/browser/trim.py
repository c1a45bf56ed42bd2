"""What of a standard library some modules can reach: by static imports, those inside of functions included.

What was loaded after one good run says too little: some modules are first imported when something goes wrong.
"""

from __future__ import annotations

import ast
import importlib
import zipfile
from collections.abc import Iterable, Iterator, Mapping

# Reached only through a debugger, a test runner, a command line or the network: no text is read with them.
NEVER = frozenset(
    [
        "antigravity",
        "bdb",
        "cmd",
        "concurrent.futures.process",
        "ctypes",
        "curses",
        "dbm",
        "doctest",
        "ensurepip",
        "ftplib",
        "getpass",
        "http",
        "idlelib",
        "imaplib",
        "lib2to3",
        "mailbox",
        "multiprocessing",
        "nntplib",
        "optparse",
        "pdb",
        "pip",
        "poplib",
        "profile",
        "pstats",
        "pydoc",
        "pydoc_data",
        "pyrepl",
        "_pyrepl",
        "readline",
        "rlcompleter",
        "smtplib",
        "socketserver",
        "sqlite3",
        "ssl",
        "telnetlib",
        "test",
        "this",
        "tkinter",
        "trace",
        "turtle",
        "turtledemo",
        "unittest",
        "venv",
        "webbrowser",
        "wsgiref",
        "xml",
        "xmlrpc",
        "zipapp",
        "argparse",
        "gettext",
        "shlex",
        "platform",
        "bz2",
        "lzma",
        "tarfile",
        "netrc",
        "cProfile",
        # asked by what looks into installed packages, and for addresses of files
        "email",
        "importlib.metadata",
        "importlib.resources",
        "mimetypes",
        "urllib.error",
        "urllib.request",
        "urllib.response",
        "_pydatetime",  # for interpreters without a datetime of their own
    ]
)
# Ours: the page's door, and the renderings, which are found by name.
OURS = (
    "profilesmith.browser.door",
    *(f"profilesmith.review.render.{form}" for form in ("page", "checklist_page", "markdown", "whole_sheet_page")),
)
# Imported by the interpreter and the engine's loader themselves, by names that stand in no source.
ALWAYS = (
    *(f"_pyodide.{name}" for name in ("_base", "_core_docs", "_future_helper", "_importhook", "docstring", "jsbind")),
    *(f"pyodide.{name}" for name in ("_package_loader", "code", "common", "ffi", "webloop")),
    "encodings",
    "encodings.aliases",
    *(f"encodings.{name}" for name in ("ascii", "cp437", "cp1252", "latin_1", "utf_8", "utf_8_sig", "unicode_escape")),
    *(f"encodings.utf_{width}{end}" for width in (16, 32) for end in ("", "_le", "_be")),
    "codecs",
    "io",
    "abc",
    "site",
    "os",
    "stat",
    "posixpath",
    "genericpath",
    "_collections_abc",
    "_sitebuiltins",
    "_sysconfigdata__emscripten_wasm32-emscripten",
    "sysconfig",
    "importlib",
    "importlib.util",
    "importlib.abc",
    "importlib.machinery",
    "zipimport",
    "runpy",
    "warnings",
    "traceback",
    "linecache",
    "tomllib",
    "zlib",
    "collections.abc",
)


def modules_of(names: Iterable[str]) -> dict[str, str]:
    """The modules of an archive: dotted name -> member. names: of its members."""
    modules = {}
    for name in names:
        if name.endswith(".py"):
            dotted = name.removeprefix("site-packages/").removesuffix(".py").replace("/", ".")
            modules[dotted.removesuffix(".__init__")] = name
    return modules


def imported(source: bytes, name: str, is_package: bool) -> Iterator[str]:
    """Everything that a source imports, wherever in it, as dotted names; relative ones made whole."""
    base = name.split(".") if is_package else name.split(".")[:-1]
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (item.name for item in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = base[: len(base) - node.level + 1] if node.level else []
            whole = ".".join([*above, *([node.module] if node.module else [])])
            yield whole
            yield from (f"{whole}.{item.name}" for item in node.names)


def reached(roots: Iterable[str], library: Mapping[str, str], sources: Mapping[str, bytes]) -> set[str]:
    """The members of ``library`` that some modules need. sources: member -> its bytes."""
    waiting, seen = [*roots], set()
    while waiting:
        name = waiting.pop()
        if name in seen or any(name == word or name.startswith(f"{word}.") for word in NEVER):
            continue
        seen.add(name)
        if "." in name:
            waiting.append(name.rpartition(".")[0])
        if name in library:
            member = library[name]
            waiting += imported(sources[member], name, member.endswith("/__init__.py"))
    return {library[name] for name in seen if name in library}


def pack(ours: str, library: str, to: str) -> None:
    """Compile our sources and what they reach of the library into one archive. Runs in the engine's own interpreter."""
    with zipfile.ZipFile(ours) as mine, zipfile.ZipFile(library) as theirs:
        files = {name: mine.read(name) for name in mine.namelist()}
        sources = {**{name: theirs.read(name) for name in theirs.namelist()}, **files}
    kept = reached([*ALWAYS, *OURS], modules_of(sources), sources) | {
        name for name in files if not name.endswith(".py")
    }
    with zipfile.ZipFile(to, "w", zipfile.ZIP_STORED) as archive:
        for member in sorted(kept):
            raw, name = sources[member], member.removeprefix("site-packages/")
            if name.endswith(".py"):
                raw, name = _compiled(raw, name), f"{name}c"
            archive.writestr(zipfile.ZipInfo(name, (2020, 1, 1, 0, 0, 0)), raw)


def _compiled(source: bytes, name: str) -> bytes:
    """A module as the interpreter keeps it in a cache, without docstrings: nobody reads them there."""
    how = importlib.import_module("importlib._bootstrap_external")
    loader = how.SourceFileLoader(name, name)
    tree = ast.parse(source)
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef) and ast.get_docstring(
            node
        ):
            node.body[:1] = [] if len(node.body) > 1 else [ast.copy_location(ast.Pass(), node.body[0])]
    return bytes(how._code_to_timestamp_pyc(loader.source_to_code(tree, name)))
