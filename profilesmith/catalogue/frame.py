"""The review page's frame, style and rows, with the catalogue's own templates beside them."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import Any

from profilesmith.review.render.html.frame import asset, filled

OWN = ("index.html", "recipe.html", "catalogue.css", "index.js")


def fill(template: str, script: str = "", **values: Any) -> str:
    """A whole file under the same content policy as the review page: its own style and script, and nothing else."""
    return filled(template, ("base.css", "page.css", "catalogue.css"), script, source, values)


@cache
def source(name: str) -> str:
    """A template of ours, else one of the review page's."""
    return files(__package__).joinpath("templates", name).read_text(encoding="utf-8") if name in OWN else asset(name)
