"""A regular expression that is compiled when it is first asked: compiling costs more than most runs ever ask of one."""

from __future__ import annotations

import re
from typing import Any, cast

_WAYS = ("match", "fullmatch", "search", "split", "findall", "finditer", "sub", "subn")


class _Late:
    """Stands for a pattern. Once asked, its methods are the pattern's own and cost nothing more."""

    def __init__(self, text: str) -> None:
        self.pattern = text

    def __getattr__(self, name: str) -> Any:
        if name not in _WAYS:
            raise AttributeError(name)
        compiled = re.compile(self.pattern)
        self.__dict__.update({way: getattr(compiled, way) for way in _WAYS})
        return getattr(compiled, name)


def late(text: str) -> re.Pattern[str]:
    """``re.compile``, put off. For patterns that a plain derivation never asks."""
    return cast("re.Pattern[str]", _Late(text))
