"""``distil``: before/after pairs to the recipe that explains them."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import look, say, say_error

# An option with two values cannot be repeated here, so the second one is taken as an argument: "--pair BASE TUNED".
Bases = Annotated[
    list[str],
    typer.Option(
        "--pair",
        metavar="BASE TUNED",
        help="A settings text and its hand-tuned version. May be given several times.",
        show_default=False,
    ),
]
Tuned = Annotated[list[str] | None, typer.Argument(metavar="(--pair BASE TUNED)...", hidden=True, show_default=False)]
KeyMaps = Annotated[
    list[str],
    typer.Option(
        "--keymap",
        metavar="K",
        help="The key map: one for all pairs, or one for each pair in their order.",
        show_default=False,
    ),
]
PairFacts = Annotated[
    list[str] | None,
    typer.Option(
        "--facts",
        metavar="[N=]F",
        help="Facts: a file or a name, for all pairs; 2=FILE for the second pair only, 1,3=FILE for two of them."
        " Pairs with the same map and the same facts count as one machine's.",
        show_default=False,
    ),
]


def distil(
    bases: Bases,
    keymap: KeyMaps,
    tuned: Tuned = None,
    facts: PairFacts = None,
    name: Annotated[
        str,
        typer.Option("--name", metavar="NAME", help="The recipe's name; else that of the file.", show_default=False),
    ] = "",
    out: Annotated[
        str, typer.Option("-o", "--out", metavar="RECIPE", help="The recipe file to write.", show_default=False)
    ] = "",
    tweaks: Annotated[
        str,
        typer.Option(
            "--tweaks",
            metavar="FILE",
            help=(
                "Write what one machine alone shows as a recipe of its own; for several machines, FILE "
                "gets each one's name."
            ),
            show_default=False,
        ),
    ] = "",
    licence: Annotated[
        str, typer.Option("--licence", metavar="L", help="The licence to write into the recipe.")
    ] = "CC0-1.0",
    form: Annotated[str, typer.Option("--as", metavar="FORM", help="How to show it: terminal or json.")] = "terminal",
    quiet: opt.Quiet = False,
    overwrite: opt.Overwrite = False,
    library: opt.Library = None,
) -> None:
    """Get a recipe out of profiles tuned by hand.

    From texts before and after, of one or several machines. Every rule says which of them speak for it, and every
    change that no rule explains is named. Exit 1: no rule was found.

    \b
    Example:
      profilesmith distil --pair base.settings soft.settings --keymap keymap.toml
    """
    from pathlib import Path

    from profilesmith.cli.forms import form_called
    from profilesmith.cli.terminal import busy
    from profilesmith.reports.distil import FORMS, show
    from profilesmith.workflows.distil import distil as run
    from profilesmith.workflows.distil import write
    from profilesmith.workflows.pairs import PairsRequest, pairs_of

    form = form_called(form, FORMS)
    request = PairsRequest(pairs_of(bases, tuned or []), tuple(keymap), tuple(facts or ()), library)
    with busy("distilling", quiet):
        result = run(request, name or (Path(out).stem if out else "distilled"), licence, tweaks)
    written = write(result, out, tweaks, overwrite)
    if not quiet:
        say(show(result, form, look().width))
        for path in written:
            say_error(f"wrote {path}")
        if not out and result.text:
            say_error("No recipe was written: name it with -o RECIPE.")
    if not result.text:
        raise typer.Exit(1)
