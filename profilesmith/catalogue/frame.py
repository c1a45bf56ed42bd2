"""The review page's frame, style and rows, with the catalogue's own templates beside them."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from profilesmith.review.render.html.frame import asset, place, policy
from profilesmith.review.wording import visible

if TYPE_CHECKING:
    from jinja2 import Environment

OWN = ("index.html", "recipe.html", "catalogue.css", "index.js")


def fill(template: str, script: str = "", **values: Any) -> str:
    """A whole file under the same content policy as the review page: its own style and script, and nothing else."""
    from markupsafe import Markup

    css = asset("base.css") + asset("page.css") + source("catalogue.css")
    js = source(script) if script else ""
    html = (
        _environment()
        .get_template(template)
        .render(style=Markup(css), script=Markup(js), policy=policy(css, js), **values)
    )
    return html.rstrip("\n") + "\n"


@cache
def source(name: str) -> str:
    """A template of ours, else one of the review page's."""
    return files(__package__).joinpath("templates", name).read_text(encoding="utf-8") if name in OWN else asset(name)


@cache
def _environment() -> Environment:
    from jinja2 import Environment, FunctionLoader, StrictUndefined

    environment = Environment(
        loader=FunctionLoader(source),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=_shown,
        auto_reload=False,
    )
    environment.filters["n"] = place
    return environment


def _shown(value: Any) -> Any:
    """Every text that a template writes: control characters and direction marks are shown, not obeyed."""
    return visible(value) if type(value) is str else value
