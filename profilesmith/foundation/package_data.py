"""The package's own data files, through whatever has loaded the package: a folder, an archive, a page in a browser.

The one way to a file that the engine has; it reads what the package is made of and nothing else.
"""

from __future__ import annotations

from importlib.util import find_spec
from typing import Any


def package_text(name: str) -> str:
    """A data file as text. name: below the package's folder, as ``knowledge/vocabulary.toml``."""
    spec: Any = find_spec("profilesmith")
    raw: bytes = spec.loader.get_data(f"{spec.submodule_search_locations[0]}/{name}")
    return raw.decode("utf-8")
