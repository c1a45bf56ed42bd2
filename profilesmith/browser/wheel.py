"""The parts as a wheel, for a machine without npm or a network (the binary distribution format of
packaging.python.org).
"""

from __future__ import annotations

import hashlib
import zipfile
from base64 import urlsafe_b64encode
from collections.abc import Mapping
from io import BytesIO

from profilesmith import __version__


def wheel(package: str, files: Mapping[str, bytes]) -> tuple[str, bytes]:
    """Its file name and its bytes: a package that holds nothing but these files."""
    info = f"{package}-{__version__}.dist-info"
    licence = (
        "The files are Pyodide (MPL-2.0) and Python (PSF-2.0) with what profilesmith compiled: see the page's notices."
    )
    metadata = f"Metadata-Version: 2.1\nName: {package.replace('_', '-')}\nVersion: {__version__}\nSummary: {licence}\n"
    contents = {
        f"{package}/__init__.py": b'"""Parts of a page that derives in a browser."""\n',
        **{f"{package}/{name}": raw for name, raw in files.items()},
        f"{info}/METADATA": metadata.encode(),
        f"{info}/WHEEL": b"Wheel-Version: 1.0\nGenerator: profilesmith\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    record = "".join(f"{name},sha256={_digest(raw)},{len(raw)}\n" for name, raw in contents.items())
    contents[f"{info}/RECORD"] = f"{record}{info}/RECORD,,\n".encode()
    stream = BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, raw in contents.items():
            archive.writestr(zipfile.ZipInfo(name, (2020, 1, 1, 0, 0, 0)), raw, zipfile.ZIP_DEFLATED)
    return f"{package}-{__version__}-py3-none-any.whl", stream.getvalue()


def _digest(raw: bytes) -> str:
    return urlsafe_b64encode(hashlib.sha256(raw).digest()).decode().rstrip("=")
