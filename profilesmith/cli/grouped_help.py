"""The program's help: commands in the groups in which a person looks for them."""

from __future__ import annotations

from typing import Any

import typer
from typer.core import TyperGroup

from profilesmith.foundation.problem import did_you_mean, nearest

UsageError: Any = typer.BadParameter.__base__
"""What typer raises for every call that it does not understand."""

TOPICS = {
    "Start": ("demo", "keymap", "guide"),
    "Make": ("derive", "rederive", "batch", "distil"),
    "After a print": ("mend", "coupon", "evidence"),
    "Look": ("review", "explain", "check", "compare", "motion"),
    "Share": ("recipe", "library", "browser"),
    "Look up": ("vocabulary", "materials", "schema"),
}
"""Every command once; a test holds it."""


def _way_on(error: Any) -> str:
    """Which commands have an option that was given to another, and an example of the command."""
    option = getattr(error, "option_name", "")
    others = _commands_with(option)
    lines = [f"It is an option of: {', '.join(others)}."] if others else []
    if option == "--report" and error.ctx and any("--as" in item.opts for item in error.ctx.command.params):
        lines.append("Here a form is shown with --as, and your shell puts it into a file: --as html > page.html")
    example = (error.ctx.command.help or "").partition("Example:")[2].strip() if error.ctx else ""
    lines += [f"Such as: {example}"] if example else []
    return "".join(f"\n  {line}" for line in lines)


def _only_near(error: Any) -> None:
    """Of the options that an unknown one may be, only those that it is like."""
    possible = getattr(error, "possibilities", None) or ()
    if possible:
        error.possibilities = [option for option in possible if nearest(error.option_name, [option])]


def _commands_with(option: str) -> list[str]:
    """The commands that have an option. Only a call that went wrong builds them all."""
    from profilesmith.cli.app import program

    every: Any = typer.main.get_command(program()) if option.startswith("-") else None
    named = every.commands if every else {}
    return [name for name, command in named.items() if any(option in item.opts for item in command.params)]


class NearCommands(TyperGroup):
    """A group that holds an unknown command against its own ones as all other names are."""

    def __init__(self, **named: Any) -> None:
        super().__init__(**named)
        self.suggest_commands = False  # typer's own guess offers what is only somewhat alike

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """Find the command that is called. Raises a usage error that names the nearest one."""
        try:
            return super().resolve_command(ctx, args)
        except UsageError as error:
            error.message = f"{error.message} {did_you_mean(args[0], self.list_commands(ctx))}".rstrip()
            raise


class GroupedHelp(NearCommands):
    """Lists commands under TOPICS; one that is in none of them comes last, under no name of its own."""

    def invoke(self, ctx: Any) -> Any:
        """Run a command. A call that it does not understand is told with an example of how it is called."""
        try:
            return super().invoke(ctx)
        except UsageError as error:
            _only_near(error)
            raise UsageError(f"{error.format_message()}{_way_on(error)}", error.ctx) from None

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        listed = {name for names in TOPICS.values() for name in names}
        rest = tuple(name for name in self.list_commands(ctx) if name not in listed)
        for topic, names in (*TOPICS.items(), ("Other", rest)):
            rows = [
                (name, command.get_short_help_str(limit=70))
                for name in names
                if (command := self.get_command(ctx, name)) is not None
            ]
            if rows:
                with formatter.section(topic):
                    formatter.write_dl(rows, col_max=12)
