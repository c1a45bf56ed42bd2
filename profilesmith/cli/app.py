"""The typer program: the names of all commands in two literal tuples, and what becomes of errors.

A command's file is imported when it is called, or when all are shown; it imports its workflow when it runs. So a call
loads what it needs, and --help and completion stay quick. ``-q`` is on every command: one that has no use for it itself
runs with nothing said on standard output.
"""

import errno
import inspect
import os
import sys
from collections.abc import Callable
from functools import wraps
from importlib import import_module
from typing import Annotated, Any, get_type_hints

import typer

from profilesmith.cli.grouped_help import GroupedHelp, NearCommands
from profilesmith.cli.options import Quiet
from profilesmith.cli.terminal import (
    Stopped,
    fail,
    heard,
    hushed,
    new_run,
    say_error,
    say_written,
    to_nowhere,
)
from profilesmith.foundation.problem import Refused

UNHEARD = (errno.ENOSPC, errno.EIO, errno.EFBIG, errno.EPIPE, errno.EBADF)
"""How a system says that it takes no more words."""
COMMANDS = (
    "demo",
    "derive",
    "rederive",
    "batch",
    "compare",
    "explain",
    "review",
    "vocabulary",
    "check",
    "materials",
    "distil",
    "browser",
    "mend",
    "schema",
    "guide",
)
"""Each is the function of this name in the file of this name."""
GROUPS = ("keymap", "recipe", "library", "evidence", "motion", "coupon")
"""Each is the ``app`` in the file of this name."""


def program(first: str = "") -> typer.Typer:
    """The typer program. first: the first word of a call; when it is a command, only that one is built."""
    called = {first} & {*COMMANDS, *GROUPS}
    app = typer.Typer(
        name="profilesmith",
        add_completion=not called,  # options of the program itself: behind a command they are unknown anyhow
        cls=GroupedHelp,
        no_args_is_help=True,
        pretty_exceptions_enable=False,
        rich_markup_mode=None,
        context_settings={"help_option_names": ["-h", "--help"]},
        help="Turn one printer's settings profile into another by a shareable recipe.\n\nNew here? profilesmith demo",
    )
    app.callback()(_top)
    for name in COMMANDS:
        if not called or name in called:
            app.command(name)(with_quiet(getattr(_file_of(name), name)))
    for name in GROUPS:
        if not called or name in called:
            make_quiet(_file_of(name).app)
            app.add_typer(_file_of(name).app, name=name, cls=NearCommands)
    return app


def _file_of(command: str) -> Any:
    """The module of a command: only what is called is imported."""
    return import_module(f"profilesmith.cli.commands.{command}")


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


def _version(value: bool) -> None:
    if value:
        from profilesmith import __version__

        typer.echo(f"profilesmith {__version__}")
        raise typer.Exit


def _top(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Options of the program itself."""


def main() -> None:
    """Run the program. No traceback reaches a user; PROFILESMITH_TRACEBACK=1 shows it to a contributor.

    It ends with SystemExit, always, and may be called again.
    """
    with new_run():
        sys.exit(_exit_code(sys.argv[1] if len(sys.argv) > 1 else ""))


def _exit_code(first: str) -> int:
    """Of a run whose first word is known."""

    try:
        program(first)()
    except SystemExit as ended:
        return heard(ended.code if isinstance(ended.code, int) else 0 if ended.code is None else 1)
    except Refused as refused:
        return heard(fail(refused))
    except (Stopped, KeyboardInterrupt):
        say_error("Stopped; nothing was left half written.")
        return 130
    except Exception as error:
        if os.environ.get("PROFILESMITH_TRACEBACK"):
            raise
        return _fault(error)
    return heard(0)


def _fault(error: Exception) -> int:
    """What nobody foresaw: help that a full disk does not take, or a fault of ours. Returns the exit code."""
    if isinstance(error, OSError) and error.errno in UNHEARD:
        say_error(f"error: Standard output cannot be written: {error.strerror}.")
        to_nowhere(sys.stdout)
        return 2
    if isinstance(error, OSError) and error.errno in (errno.ENAMETOOLONG, errno.ELOOP):
        say_error(
            f"error: {str(error.filename)[:60]}: The name cannot be used: {error.strerror}.\n  Choose another one."
        )
        return 2
    say_error(f"profilesmith has a fault: {type(error).__name__}: {error}")
    say_error("Please report it; PROFILESMITH_TRACEBACK=1 shows where it happened.")
    say_written()
    return 70
