"""``coupon``: thresholds, screens and pairs with few prints."""

from __future__ import annotations

from typing import Annotated

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.asked import StartBlock
from profilesmith.cli.terminal import say, say_error
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused

app = typer.Typer(
    no_args_is_help=True,
    rich_markup_mode=None,
    help="Find out with few prints how far a setting can go.",
)
Plan = Annotated[str, typer.Argument(metavar="PLAN", help="A plan's file; its log lies beside it.", show_default=False)]
Date = Annotated[str, typer.Option("--date", metavar="DAY", help="The day, such as 2030-01-31.", show_default="today")]


@app.command()
def plan(
    kind: Annotated[str, typer.Argument(metavar="threshold|screen|pair", help="What is to be found out.")],
    factor: Annotated[
        list[str],
        typer.Option(
            "--factor",
            metavar="SETTING=LOW to HIGH",
            help=(
                "What is varied: the range that is searched, the two levels of a screen, or A and B. "
                "Several for screen and pair."
            ),
            show_default=False,
        ),
    ],
    judged: Annotated[
        str, typer.Option("--judged", metavar="WORDS", help="What is looked at, such as stringing.", show_default=False)
    ],
    out: Annotated[str, typer.Option("-o", "--out", metavar="PLAN", help="The plan's file.", show_default=False)],
    recipe: opt.Recipes = None,
    worse: Annotated[
        str, typer.Option("--worse", metavar="high|low", help="At which end prints get worse.", show_default=False)
    ] = "",
    within: Annotated[
        str,
        typer.Option("--within", metavar="WIDTH", help="How near is near enough: 10 % or 2 °C.", show_default=False),
    ] = "",
    sure: Annotated[str, typer.Option("--sure", metavar="CHANCE", help="How sure.", show_default="90 %")] = "",
    most: Annotated[
        int | None,
        typer.Option("--most", metavar="N", help="Prints at most; pairs, where they are blind.", show_default=False),
    ] = None,
    blind: Annotated[bool, typer.Option("--blind", help="Pairs side by side, not told which is which.")] = False,
    base: Annotated[
        list[str] | None,
        typer.Option(
            "--base", metavar="FILE", help="What is derived: 'next' then writes an order.", show_default=False
        ),
    ] = None,
    keymap: opt.KeyMap = "",
    facts: opt.FactFiles = None,
    start_block: StartBlock = "",
    overwrite: opt.Overwrite = False,
    library: opt.Library = None,
    quiet: opt.Quiet = False,
) -> None:
    """Plan few prints that find out the most.

    A threshold, a screen of several settings, or a pair; it says beforehand what that can tell at best.

    \b
    Example:
      profilesmith coupon plan threshold --factor "outer_wall.speed=12 mm/s to 60 mm/s" --judged stringing -o walls.toml
    """
    from profilesmith.reports.coupon.prints import plan_lines
    from profilesmith.workflows.coupon.plan import Wish, make_plan

    wish = Wish(
        kind=kind,
        factors=tuple(factor),
        judged=judged,
        recipes=tuple(recipe or ()),
        worse=worse,
        within=within,
        sure=sure,
        most=most,
        blind=blind,
        bases=tuple(base or ()),
        key_map=keymap,
        facts=tuple(facts or ()),
        start_block=start_block,
        library=library,
    )
    made = make_plan(wish, out, overwrite)
    if not quiet:
        say("\n".join(plan_lines(made, out, library)) + "\n")


@app.command("next")
def next_print(
    plan: Plan,
    count: Annotated[int, typer.Option("--count", metavar="N", help="How many are wanted on one plate.", min=1)] = 1,
    anyway: Annotated[
        bool, typer.Option("--anyway", help="Also where it is known well enough, or will not be.")
    ] = False,
    date: Date = "",
    library: opt.Library = None,
    quiet: opt.Quiet = False,
) -> None:
    """Say which print tells most now.

    And write its recipe beside the plan. Exit 1: no further print is worth it.

    \b
    Example:
      profilesmith coupon next walls.toml
    """
    from profilesmith.reports.coupon.prints import next_lines
    from profilesmith.workflows.coupon.next import next_of

    result = next_of(plan, count, anyway, library, date)
    if not quiet:
        say("\n".join(next_lines(result, library)) + "\n")
    if not result.prints:
        raise typer.Exit(1)


@app.command()
def judge(
    plan: Plan,
    grade: Annotated[
        str, typer.Argument(metavar="GRADE", help="good, fair or poor; of a blind pair left, right or tie.")
    ],
    number: Annotated[
        int | None,
        typer.Option("--print", metavar="N", help="Which print, where several are open.", show_default=False),
    ] = None,
    value: Annotated[
        str,
        typer.Option(
            "--value", metavar="VALUE", help="What was printed, if it was not what was asked.", show_default=False
        ),
    ] = "",
    note: Annotated[str, typer.Option("--note", metavar="TEXT", help="Your own words.", show_default=False)] = "",
    date: Date = "",
    quiet: opt.Quiet = False,
) -> None:
    """Write a print's grade into the log.

    good, fair or poor; of a blind pair left, right or tie.

    \b
    Example:
      profilesmith coupon judge walls.toml good
    """
    from profilesmith.reports.coupon.prints import judged_lines
    from profilesmith.workflows.coupon.judge import judge_print
    from profilesmith.workflows.coupon.tell import told_of

    graded = judge_print(plan, grade, number, value, note, date)
    if not quiet:
        say("\n".join(judged_lines(graded, told_of(graded.coupon))) + "\n")


@app.command()
def tell(
    plan: Plan,
    out: Annotated[
        str, typer.Option("-o", "--out", metavar="RECIPE", help="Write the rule as a recipe.", show_default=False)
    ] = "",
    form: Annotated[str, typer.Option("--as", metavar="FORM", help="terminal or json.")] = "terminal",
    overwrite: opt.Overwrite = False,
    quiet: opt.Quiet = False,
) -> None:
    """Say what the prints tell, and what they cannot.

    With the rule that they are worth; -o writes it as a recipe.

    \b
    Example:
      profilesmith coupon tell walls.toml
    """
    from profilesmith.ledger.json_text import json_text
    from profilesmith.reports.coupon.results import tell_json, tell_lines
    from profilesmith.workflows.coupon.tell import tell_of, write_rule

    if form not in ("terminal", "json"):
        raise Refused([Problem("form", f"A coupon has no form {form!r}.", Place("--as"), "Known: terminal, json.")])
    result = tell_of(plan)
    if not quiet:
        say(json_text(tell_json(result)) if form == "json" else "\n".join(tell_lines(result)) + "\n")
    if out:
        write_rule(result, out, overwrite)
        if not quiet:
            say_error(f"wrote {out}")
