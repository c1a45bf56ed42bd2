"""``motion``: the file that goes to the printer, held against the ledger. It is read only."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import look, say

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="Check the motion file that goes to the printer.")
File = Annotated[
    str, typer.Argument(metavar="FILE", help="The motion file (G and M words) for the printer.", show_default=False)
]
Words = Annotated[
    str,
    typer.Option("--words", metavar="W", help="What remarks and words mean in your files (TOML).", show_default=False),
]


Record = Annotated[bool, typer.Option("--record", help="Note the check in the ledger, by the file's hash.")]


@app.command()
def check(
    file: File,
    ledger: Annotated[
        str,
        typer.Option(
            "--ledger",
            metavar="L",
            help="A derived file, or the ledger beside it: what was promised.",
            show_default=False,
        ),
    ] = "",
    words: Words = "",
    facts: opt.FactFiles = None,
    record: Record = False,
    form: opt.Form = "terminal",
    full: opt.Full = False,
    quiet: opt.Quiet = False,
    sources: opt.Sources = False,
    library: opt.Library = None,
) -> None:
    """Hold a motion file against a ledger.

    Setting by setting: kept, broken, or not judged and why; then hours, metres, grams and pulls. Exit 1 when something
    was found.

    \b
    Example:
      profilesmith motion check soft.motion --ledger soft.settings --words words.toml
    """
    from profilesmith.cli.forms import form_called
    from profilesmith.cli.terminal import counted
    from profilesmith.review.consequences import alarming
    from profilesmith.review.render import render
    from profilesmith.workflows.motion.check import MotionOrder
    from profilesmith.workflows.motion.check import check as run

    shown = form_called(form)
    order = MotionOrder(ledger, words, tuple(facts or ()), library)
    with counted("reading", quiet) as tell:
        review = run(file, order, full, tell, record)
    if not quiet:
        say(render(review, shown, look(full)._replace(sources=sources)))
    if alarming(review):
        raise typer.Exit(1)


@app.command()
def compare(
    old: Annotated[str, typer.Argument(metavar="RIGID", help="One motion file.", show_default=False)],
    new: Annotated[str, typer.Argument(metavar="SOFT", help="The other motion file.", show_default=False)],
    words: Words = "",
    facts: opt.FactFiles = None,
    form: opt.Form = "terminal",
    full: opt.Full = False,
    quiet: opt.Quiet = False,
    sources: opt.Sources = False,
    library: opt.Library = None,
) -> None:
    """Put two motion files side by side.

    Hours, metres, grams, pulls and speeds; the ratio of the times first.

    \b
    Example:
      profilesmith motion compare rigid.motion soft.motion --words words.toml
    """
    from profilesmith.cli.forms import form_called
    from profilesmith.cli.terminal import counted
    from profilesmith.review.render import render
    from profilesmith.workflows.motion.check import MotionOrder
    from profilesmith.workflows.motion.check import compare as run

    shown = form_called(form)
    with counted("reading", quiet) as tell:
        review = run(old, new, MotionOrder("", words, tuple(facts or ()), library), tell)
    if not quiet:
        say(render(review, shown, look(full)._replace(sources=sources)))


@app.command()
def suggest(
    file: File,
    out: Annotated[
        Path | None, typer.Option("-o", "--out", metavar="W", help="Write the words map here.", show_default=False)
    ] = None,
    overwrite: opt.Overwrite = False,
) -> None:
    """Propose a words map for a motion file.

    Which remark stands before which kind of line, guessed from the shape of what follows. Every guess is commented out
    until you accept it.

    \b
    Example:
      profilesmith motion suggest soft.motion -o proposed.toml
    """
    from profilesmith.workflows.motion.suggest import suggest as run

    text = run(file, out, overwrite)
    say(f"Written: {out}" if out else text)
