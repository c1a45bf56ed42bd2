"""``guide``: the pages that explain, by topic."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli.options import offered
from profilesmith.cli.terminal import say


def guide(
    topic: Annotated[
        str,
        typer.Argument(
            metavar="[TOPIC]", autocompletion=offered("guide_pages"), help="A page; without one they are listed."
        ),
    ] = "",
) -> None:
    """Print a page of the guide.

    \b
    Example:
      profilesmith guide keymap
    """
    from profilesmith.workflows.guide import page, pages

    if topic:
        say(page(topic).text)
        return
    for item in pages():
        say(f"  {item.topic:<10} {item.title}")
    say("\nprofilesmith guide TOPIC prints one of them.")
