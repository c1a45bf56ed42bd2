"""The page as a file."""

from __future__ import annotations

from pathlib import Path

from profilesmith.browser.gather import gather
from profilesmith.browser.make_page import make_page
from profilesmith.browser.parts import load_parts
from profilesmith.foundation.problem import refuse_if
from profilesmith.write_files import write_whole


def write_page(out: Path, library: Path | None, overwrite: bool = False) -> Path:
    """Write it, whole or not at all. Raises Refused, also where the parts are missing."""
    text = page_text(library)
    refuse_if(write_whole({out: text.encode()}, overwrite))
    return out


def page_text(library: Path | None) -> str:
    """The page with a library in it, and what ships. Raises Refused."""
    return make_page(load_parts(), gather(library))
