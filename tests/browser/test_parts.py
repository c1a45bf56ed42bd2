"""The parts of the page, and the file that they are put into: pinned bytes only, one sentence where they are
missing.
"""

from __future__ import annotations

import base64
import gzip
import hashlib
import json
import re
import subprocess
import tarfile
import zipfile
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest

from profilesmith.browser import parts as module
from profilesmith.browser.gather import gather
from profilesmith.browser.make_page import make_page
from profilesmith.browser.parts import MEMBERS, PageParts, fingerprint, load_parts, sources
from profilesmith.browser.trim import NEVER, imported, modules_of, reached
from profilesmith.browser.wheel import wheel
from profilesmith.foundation.problem import Refused
from profilesmith.library.find import shipped
from profilesmith.workflows.catalogue import write_catalogue

LOADER = b"async function dt(e){}export{dt as loadPyodide,U as version};\n//# sourceMappingURL=x.map\n"
FAKE = PageParts(
    LOADER,
    b"async function _createPyodideModule(){}export default _createPyodideModule;",
    b"wasm",
    b"zip",
    b'{"info": {}}',
)


@pytest.fixture
def nowhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("PROFILESMITH_PARTS", str(tmp_path / "parts"))
    return tmp_path / "parts"


def test_without_parts_one_sentence_says_how_to_get_them(nowhere: Path, program: Any) -> None:
    ran = program("browser", "-o", str(nowhere.parent / "derive.html"))
    assert (ran.code, ran.codes) == (2, ("no-parts",))
    assert "python -m profilesmith.browser.parts" in ran.err
    assert not (nowhere.parent / "derive.html").exists()


def test_parts_of_another_version_are_not_used(nowhere: Path) -> None:
    nowhere.mkdir()
    for name in MEMBERS:
        (nowhere / name).write_bytes(b"{}")
    (nowhere / "0123456789abcdef.zip").write_bytes(b"")
    with pytest.raises(Refused, match="of another version"):
        load_parts()
    (nowhere / MEMBERS[4]).write_bytes(b'{"info": {"python": "3.14"}, "packages": {"a": 1}}')
    (nowhere / f"{fingerprint()}.zip").write_bytes(b"archive")
    assert load_parts().archive == b"archive"
    assert json.loads(load_parts().lock)["packages"] == {}


def test_only_the_pinned_bytes_are_taken(nowhere: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A registry that sends something else, well formed as it may be, is refused, and nothing is kept."""

    def packs(command: list[str], **_: Any) -> subprocess.CompletedProcess[str]:
        with tarfile.open(Path(command[4]) / f"pyodide-{module.VERSION}.tgz", "w:gz") as archive:
            for name in MEMBERS:
                archive.addfile(tarfile.TarInfo(f"package/{name}"), BytesIO(b""))
        return subprocess.CompletedProcess(command, 0, "", "")

    monkeypatch.setattr(module.subprocess, "run", packs)
    monkeypatch.setattr(module.shutil, "which", lambda name: name)
    with pytest.raises(Refused, match="not what this version was made with"):
        module.make_parts(nowhere)
    assert not nowhere.exists()


def test_no_network_is_told(nowhere: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    failed = subprocess.CompletedProcess(["npm"], 1, "", "npm error network\nnpm error getaddrinfo EAI_AGAIN\n")
    monkeypatch.setattr(module.subprocess, "run", lambda *_, **__: failed)
    monkeypatch.setattr(module.shutil, "which", lambda name: name)
    with pytest.raises(Refused, match="EAI_AGAIN"):
        module.make_parts(nowhere)


def test_what_is_compiled_of_this_machine_never_goes_along() -> None:
    names = sources()
    assert "profilesmith/browser/door.py" in names
    assert "profilesmith/knowledge/vocabulary.toml" in names
    assert "jinja2/environment.py" in names
    assert not [name for name in names if name.endswith((".so", ".pyd", ".pyc")) or "/cli/" in name]


def test_what_is_reached() -> None:
    """Static imports, those inside of functions, relative ones and the packages above; what is never needed stays
    away.
    """
    sources = {
        "a.py": b"def f():\n    import b.c\n    import unittest.mock\n",
        "b/__init__.py": b"from . import d\n",
        "b/c.py": b"from .e import x\nfrom sys import path\n",
        "b/d.py": b"",
        "b/e.py": b"",
        "b/not_needed.py": b"",
        "unittest/mock.py": b"",
    }
    assert "unittest" in NEVER
    assert reached(["a"], modules_of(sources), sources) == set(sources) - {"b/not_needed.py", "unittest/mock.py"}
    assert list(imported(b"from ..x import y", "p.q.r", False)) == ["p.x", "p.x.y"]


def test_the_policy_fits_the_file() -> None:
    """The one script that runs is the one whose hash stands in the policy, and the policy comes before all of it."""
    page = make_page(FAKE, gather(None))
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', page)
    assert policy is not None
    assert page.index("Content-Security-Policy") < page.index("<style>") < page.index("<script")
    code = re.findall(r"<script>(.*?)</script>", page, re.DOTALL)
    assert len(code) == 1
    digest = base64.b64encode(hashlib.sha256(code[0].encode()).digest()).decode()
    assert f"script-src 'sha256-{digest}' 'wasm-unsafe-eval';" in policy[1]
    assert policy[1].startswith("default-src 'none'; ")
    assert not re.search(r"unsafe-inline|unsafe-eval'(?<!wasm-unsafe-eval')|https?:|\*", policy[1])
    worker = gzip.decompress(base64.b64decode(re.findall(r'id="part-script">([^<]*)<', page)[0])).decode()
    assert not re.search(r"^\s*(export|import)\b", worker, re.MULTILINE)
    assert make_page(FAKE, gather(None)) == page, "the same file each time"


def test_a_library_of_strangers_stays_data(tmp_path: Path) -> None:
    """Whatever a recipe says, it cannot end the element that it lies in."""
    (tmp_path / "recipes").mkdir()
    (tmp_path / "library.toml").write_text('format = 1\n[library]\nname = "</script><b>club"\n', encoding="utf-8")
    evil = "</script><script>window.pwned=1</script>"
    (tmp_path / "recipes" / "evil.toml").write_text(
        f'format = 1\n[recipe]\nname = "evil"\nversion = "1.0.0"\ntitle = "{evil}"\n'
        '[[rule]]\nsetting = "layer.height"\ncap = "0.2 mm"\n',
        encoding="utf-8",
    )
    page = make_page(FAKE, gather(tmp_path))
    assert "window.pwned" in page
    assert evil not in page
    harmless = make_page(FAKE, gather(None))
    assert page.count("<script") == harmless.count("<script")
    assert page.count("</script>") == harmless.count("</script>")


def test_the_page_stands_beside_a_catalogue(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The index leads to it; without it nothing of the catalogue changes."""
    monkeypatch.setenv("PROFILESMITH_LIBRARY", str(shipped()))
    assert write_catalogue(None, tmp_path / "plain", "page").files
    write_catalogue(None, tmp_path / "pages", "page", derive="<p>the page</p>")
    assert (tmp_path / "pages" / "derive.html").read_text(encoding="utf-8") == "<p>the page</p>"
    assert 'href="derive.html"' in (tmp_path / "pages" / "index.html").read_text(encoding="utf-8")
    assert "derive.html" not in (tmp_path / "plain" / "index.html").read_text(encoding="utf-8")


def test_the_parts_as_a_wheel(tmp_path: Path) -> None:
    """Every file is on its record with its hash, as installers ask (packaging.python.org, binary distribution
    format).
    """
    name, raw = wheel("some_parts", {"a.zip": b"one", "b.mjs": b"two"})
    with zipfile.ZipFile(BytesIO(raw)) as archive:
        record = archive.read(f"{name.removesuffix('-py3-none-any.whl')}.dist-info/RECORD").decode()
        assert archive.read("some_parts/a.zip") == b"one"
        listed = {line.split(",")[0] for line in record.splitlines()}
        assert listed == set(archive.namelist())
    digest = base64.urlsafe_b64encode(hashlib.sha256(b"one").digest()).decode().rstrip("=")
    assert f"some_parts/a.zip,sha256={digest},3" in record
