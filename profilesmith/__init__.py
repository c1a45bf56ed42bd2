"""Profilesmith turns one printer's settings profile into another by a shareable recipe.

The public face, lazily: ``read``, ``derive``, ``compare``, ``write`` and ``Refused``.
"""

from __future__ import annotations

from typing import Any

__version__ = "0.1.0"
__all__ = ["Refused", "__version__", "compare", "derive", "read", "write"]


def __getattr__(name: str) -> Any:
    if name == "Refused":
        from profilesmith.foundation.problem import Refused

        return Refused
    if name in __all__:
        from profilesmith import workflows

        return getattr(workflows, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
