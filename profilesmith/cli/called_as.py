"""How this program was called, so that the calls which it proposes work in the shell that called it."""

from __future__ import annotations

import os
import shlex
import shutil
import sys


def called_as() -> str:
    """``profilesmith`` where the shell finds this very program under that name; else as it was typed."""
    typed = sys.argv[0]
    if os.path.basename(typed) == "__main__.py":
        return f"{shlex.quote(sys.executable)} -m profilesmith"
    on_path = shutil.which("profilesmith")
    if not os.path.exists(typed) or (on_path and os.path.samefile(on_path, typed)):
        return "profilesmith"
    return shlex.quote(typed)
