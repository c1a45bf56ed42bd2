"""The program's help: commands in the groups in which a person looks for them."""

from __future__ import annotations

from typing import Any

from typer.core import TyperGroup

TOPICS = {
    "Start": ("demo", "keymap", "guide"),
    "Make": ("derive", "rederive", "batch", "distil"),
    "After a print": ("mend", "coupon", "evidence"),
    "Look": ("review", "explain", "check", "compare", "motion"),
    "Share": ("recipe", "library", "browser"),
    "Look up": ("vocabulary", "materials", "schema"),
}
"""Every command once; a test holds it."""


class GroupedHelp(TyperGroup):
    """Lists commands under TOPICS; one that is in none of them comes last, under no name of its own."""

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
