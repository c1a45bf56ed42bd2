"""Profilesmith turns one printer's settings profile into another by a shareable recipe.

The public face, lazily: ``read``, ``derive``, ``compare``, ``write`` and ``Refused``.
"""

from __future__ import annotations

from importlib import import_module

TYPE_CHECKING = False  # as type checkers know it: typing is loaded when the collector waits longer (cli/__init__.py)
if TYPE_CHECKING:
    from typing import Any

__version__ = "0.1.0"
__all__ = ["Refused", "Request", "__version__", "check", "compare", "derive", "read", "write"]
_WHERE = {
    "read": "read",
    "derive": "derive",
    "write": "derive",
    "compare": "compare",
    "check": "check",
    "Request": "request",
}


def __getattr__(name: str) -> Any:
    if name == "Refused":
        from profilesmith.foundation.problem import Refused

        return Refused
    if name in _WHERE:
        # By its module: once imported, profilesmith.workflows.derive is that module itself.
        return getattr(import_module(f"profilesmith.workflows.{_WHERE[name]}"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
