"""``library``: lay out a club's library, list what it holds, check it."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.commands.library_page import page
from profilesmith.cli.options import offered
from profilesmith.cli.terminal import say

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="Keep a club's library of recipes.")

Folder = Annotated[
    Path | None,
    typer.Argument(
        metavar="[FOLDER]",
        help="The library; else $PROFILESMITH_LIBRARY, else the folder you stand in.",
        show_default=False,
    ),
]


@app.command()
def new(
    folder: Annotated[
        Path,
        typer.Argument(
            metavar="FOLDER", help="Where to put it. The folder must be absent or empty.", show_default=False
        ),
    ],
    name: Annotated[
        str,
        typer.Option(
            "--name", metavar="NAME", help="What the library is called; else as its folder.", show_default=False
        ),
    ] = "",
    licence: Annotated[
        str, typer.Option("--licence", metavar="LICENCE", help="The licence of what the library holds.")
    ] = "CC0-1.0",
    quiet: opt.Quiet = False,
) -> None:
    """Lay out a new library with an invented example.

    One starter recipe, a map, facts and a reference profile to try it on.

    \b
    Example:
      profilesmith library new club
    """
    from profilesmith.reports.library.changed import laid_out_text
    from profilesmith.workflows.library.new_library import new_library

    made = new_library(folder, name, licence)
    if not quiet:
        say(laid_out_text(made))


@app.command("without-example")
def without(folder: Folder = None, quiet: opt.Quiet = False) -> None:
    """Take the starter example out of a library.

    Its recipe, map, facts and reference profile, as far as nobody changed them.

    \b
    Example:
      profilesmith library without-example club
    """
    from profilesmith.reports.library.changed import taken_out_lines
    from profilesmith.workflows.library.without_example import without_example

    for text in taken_out_lines(without_example(folder)):
        if not quiet:
            say(text)


@app.command("list")
def list_all(folder: Folder = None) -> None:
    """List what a library holds.

    Recipes, key maps, facts and reference profiles.

    \b
    Example:
      profilesmith library list club
    """
    from profilesmith.reports.library.contents import contents_text
    from profilesmith.workflows.library.contents import contents_of

    say(contents_text(contents_of(folder), folder))


@app.command()
def rules(
    number: Annotated[
        str,
        typer.Argument(
            metavar="[NUMBER]", autocompletion=offered("rule_numbers"), help="One rule in full.", show_default=False
        ),
    ] = "",
) -> None:
    """List the rules that a library is held to.

    With a number: the reason and the fix of that rule.

    \b
    Example:
      profilesmith library rules R401
    """
    from profilesmith.reports.library.rules import rule_in_full, rules_list
    from profilesmith.workflows.library.rules import all_rules, rule_called

    say(rule_in_full(rule_called(number)) if number else rules_list(all_rules()))


@app.command()
def check(
    folder: Folder = None,
    strict: Annotated[bool, typer.Option("--strict", help="Hints are errors; all but T203.")] = False,
    form: Annotated[
        str,
        typer.Option(
            "--as", metavar="FORM", help="terminal, json, md for a pull request, or lines: one finding a line."
        ),
    ] = "terminal",
    since: Annotated[
        str | None,
        typer.Option(
            "--since",
            metavar="REV",
            help="Show what changed since the work left this git revision, such as main, and what that does.",
            show_default=False,
        ),
    ] = None,
    accept: Annotated[
        list[str] | None,
        typer.Option(
            "--accept",
            metavar="NUMBER",
            help="Let findings T4.. or T5.. pass; a commit since REV gives the reason.",
            show_default=False,
        ),
    ] = None,
    jobs: Annotated[
        int,
        typer.Option(
            "--jobs", metavar="N", help="Processes that work side by side; 0: one a core.", show_default=False
        ),
    ] = 0,
    anew: Annotated[
        bool, typer.Option("--anew", help="Take nothing from what earlier checks came to (.profilesmith-cache).")
    ] = False,
    quiet: opt.Quiet = False,
) -> None:
    """Try every recipe on every reference profile.

    And hold the files to the numbered rules. Exit 1 when an error was found.

    \b
    Example:
      profilesmith library check club --strict
    """
    from profilesmith.cli.forms import form_called
    from profilesmith.cli.terminal import counted
    from profilesmith.reports.library.check import FORMS, render_report
    from profilesmith.workflows.library.check import check_library

    form = form_called(form, FORMS)
    with counted("checking the library", quiet) as tell:
        report = check_library(folder, strict, jobs, tell, since, accept or (), False if anew else None)
    if not quiet:
        say(render_report(report, form))
    if report.errors:
        raise typer.Exit(1)


app.command()(page)
