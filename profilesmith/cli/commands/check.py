"""``check``: what the settings of one profile do."""

from __future__ import annotations

import typer

from profilesmith.cli import options as opt
from profilesmith.cli.terminal import look, say


def check(
    bases: opt.Bases,
    keymap: opt.MapIfUnknown = "",
    facts: opt.FactFiles = None,
    motion: opt.Motion = "",
    words: opt.MotionWords = "",
    form: opt.Form = "terminal",
    full: opt.Full = False,
    quiet: opt.Quiet = False,
    sources: opt.Sources = False,
    library: opt.Library = None,
) -> None:
    """Judge a profile: flow, heat, time, softness, finish.

    With what is known of machine, spool and part. Exit 1 when a caution or a stop was found.

    \b
    Example:
      profilesmith check base.settings --keymap keymap.toml --facts machine.toml --facts spool.toml
    """
    from profilesmith.cli.forms import form_called
    from profilesmith.cli.terminal import busy
    from profilesmith.review.consequences import alarming
    from profilesmith.review.render import render
    from profilesmith.workflows.check import check as run

    shown = form_called(form)
    request = opt.request(bases, keymap, facts=facts, library=library)
    with busy("checking", quiet):
        review = run(opt.measured(request, motion, words, old=False))
    if not quiet:
        say(render(review, shown, look(full)._replace(sources=sources)))
    if alarming(review):
        raise typer.Exit(1)
