"""The frame of a self-contained HTML file: templates, style and script in one text under a strict content policy.

Jinja2 fills the templates: it escapes every value, a missing value is an error, and the page's shape can be read in
one file that looks like the page. It is imported only when a page is asked for (70 ms). Nothing is fetched: the policy
allows this very style and this very script, by their SHA-256, and nothing else; so no style or handler that a
stranger's text might smuggle in could ever run.
"""

from __future__ import annotations

import hashlib
from base64 import b64encode
from collections.abc import Callable, Mapping
from functools import cache
from typing import TYPE_CHECKING, Any

from profilesmith.foundation.package_data import package_text
from profilesmith.review.wording import visible

if TYPE_CHECKING:
    from jinja2 import Environment


def fill(template: str, style: tuple[str, ...], script: str, **values: Any) -> str:
    """A whole file. style, script: names of templates' neighbours; values: for the template."""
    return filled(template, style, script, asset, values)


def filled(
    template: str, style: tuple[str, ...], script: str, source: Callable[[str], str], values: Mapping[str, Any]
) -> str:
    """As ``fill``, of files that ``source`` gives by their names: another room's templates beside these."""
    from markupsafe import Markup

    # All are the package's own files, so they are markup as they stand.
    css, js = "".join(source(name) for name in style), source(script) if script else ""
    page = _environment(source).get_template(template)
    html = page.render(style=Markup(css), script=Markup(js), policy=policy(css, js), **values)
    return html.rstrip("\n") + "\n"


def policy(css: str, js: str) -> str:
    """The content security policy of a file with this style and script (W3C CSP Level 3, hashes of inline elements)."""
    scripts = f"'sha256-{digest(js)}'" if js else "'none'"
    return (
        f"default-src 'none'; style-src 'sha256-{digest(css)}'; script-src {scripts}; base-uri "
        "'none'; form-action 'none'"
    )


def digest(text: str) -> str:
    return b64encode(hashlib.sha256(text.encode()).digest()).decode()


@cache
def asset(name: str) -> str:
    """One of the files in ``templates``."""
    return package_text(f"review/render/html/templates/{name}")


@cache
def _environment(source: Callable[[str], str]) -> Environment:
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


def place(value: float) -> str:
    """A place in a drawing, as short as it may be."""
    return f"{value:.2f}".rstrip("0").rstrip(".")
