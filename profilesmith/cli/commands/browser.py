"""``browser``: the page that derives in a browser, as one file."""

from pathlib import Path
from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import say


def browser(
    out: Annotated[Path, typer.Option("-o", "--out", metavar="FILE", help="Write the page here.", show_default=False)],
    library: opt.Library = None,
    open_it: Annotated[bool, typer.Option("--open", help="Open it in the browser of this machine.")] = False,
    overwrite: opt.Overwrite = False,
) -> None:
    """Make a page that derives in a browser.

    One file for people without a terminal: opened from a disk, a stick or a club's own pages, it asks nothing of a
    network.

    \b
    Example:
      profilesmith browser -o derive.html
    """
    from profilesmith.browser.write_page import write_page

    say(f"wrote {write_page(out, library, overwrite)}")
    if open_it:
        typer.launch(str(out.resolve()))
