"""``library page``: a library as a folder of pages."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import say_error


def page(
    out: Annotated[
        Path,
        typer.Option(
            "-o", "--out", metavar="OUT_FOLDER", help="The folder of the pages; it is made.", show_default=False
        ),
    ],
    folder: Annotated[
        Path | None,
        typer.Argument(
            metavar="[FOLDER]",
            help="The library; else $PROFILESMITH_LIBRARY, else the folder you stand in.",
            show_default=False,
        ),
    ] = None,
    form: Annotated[str, typer.Option("--as", metavar="FORM", help="html or md.")] = "html",
    overwrite: Annotated[bool, typer.Option("--overwrite", help="Replace a folder of pages that exists.")] = False,
    with_derive: Annotated[
        bool, typer.Option("--with-derive", help="With a page that derives in the browser (html).")
    ] = False,
    quiet: opt.Quiet = False,
) -> None:
    """Write a library as pages for the club.

    An index, and for each recipe its rules, reasons, evidence, cautions and an example.

    \b
    Example:
      profilesmith library page club -o pages
    """
    from profilesmith.browser.write_page import page_text
    from profilesmith.cli.forms import form_called
    from profilesmith.cli.terminal import busy
    from profilesmith.review.render.command import command
    from profilesmith.workflows.catalogue import FORMS, write_catalogue
    from profilesmith.workflows.library.folder import library_folder

    with busy("writing pages", quiet):
        derive = page_text(library_folder(folder)) if with_derive else ""
        written = write_catalogue(folder, out, form_called(form, FORMS), overwrite, derive)
    if not quiet:
        say_error(f"wrote {written.files} pages to {written.folder}")
    why = command("library check", folder)
    for word in written.unread:
        say_error(f"cannot be read, and is told so on the index: {word} ('{why}' says why)")
    if written.unread:
        raise typer.Exit(1)
