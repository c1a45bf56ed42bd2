"""``-q`` on every command: one that has no use for it itself runs with nothing said on standard output."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from functools import wraps
from typing import Any, get_type_hints

import typer

from profilesmith.cli.options import Quiet
from profilesmith.cli.terminal import hushed


def with_quiet(function: Callable[..., Any]) -> Callable[..., Any]:
    """The command with ``--quiet``; itself, where it has that."""
    if "quiet" in function.__annotations__:
        return function
    signature = inspect.signature(function)

    @wraps(function)
    def run(*args: Any, quiet: bool = False, **named: Any) -> Any:
        with hushed(quiet):
            return function(*args, **named)

    # Their names are the command's own, so they are looked up where it stands.
    hints = {**get_type_hints(function, include_extras=True), "quiet": Quiet}
    own = [item.replace(annotation=hints[item.name]) for item in signature.parameters.values()]
    added = inspect.Parameter("quiet", inspect.Parameter.KEYWORD_ONLY, default=False, annotation=Quiet)
    run.__signature__ = signature.replace(parameters=[*own, added])  # type: ignore[attr-defined]
    run.__annotations__ = hints
    return run


def make_quiet(group: typer.Typer) -> None:
    """All commands of a group."""
    for command in group.registered_commands:
        if command.callback is not None:
            command.callback = with_quiet(command.callback)
