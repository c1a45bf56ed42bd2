"""One function per user goal. They load, call the rooms in order and raise ``Refused``; they hold no rules of their own."""

from __future__ import annotations

from importlib import import_module
from typing import Any

_WHERE = {
    "read": "read", "derive": "derive", "write": "derive", "compare": "compare", "explain": "explain",
    "check_key_map": "keymap", "Request": "request",
}  # fmt: skip


def __getattr__(name: str) -> Any:
    if name in _WHERE:
        return getattr(import_module(f"profilesmith.workflows.{_WHERE[name]}"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
