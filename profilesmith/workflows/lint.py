"""Lint: named files, or a whole library, by the numbered rules."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.foundation.read_file import no_such_file
from profilesmith.library.find import KINDS, find
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.lint_file import lint_file
from profilesmith.lint.lint_library import lint_folder
from profilesmith.lint.names import COUPON_LOG, COUPONS, EVIDENCE, LibraryNames, names_around


def lint_files(files: Sequence[str], library: Path | None = None, strict: bool = False) -> list[LintFinding]:
    """The findings of files (or of a recipe by its name), in their order. A folder is taken for a library.

    What kind a file is follows from its folder (``keymaps``, ``facts``, ``evidence``, ``coupons``); any other is a recipe.
    Raises Refused for a file that does not exist.
    """
    found: list[LintFinding] = []
    problems: list[Problem] = []
    around: dict[Path, LibraryNames] = {}  # a folder is walked once, however many of its files are named
    for text in files:
        if os.path.isdir(text):
            found += lint_folder(Path(text), strict)
            continue
        path, problem = find(text, "recipe", library)
        if path is None or not os.path.isfile(path):
            problems.append(problem or no_such_file(text))
        else:
            folder = path.absolute().parent
            if folder not in around:
                around[folder] = names_around(path)
            found += lint_file(path, kind_of(path), around[folder], strict)
    refuse_if(problems)
    return found


def kind_of(path: Path) -> str:
    """``keymaps/shop.toml`` is a key map, ``slow.toml`` a recipe."""
    folder = path.absolute().parent.name
    if path.name.endswith(COUPON_LOG):
        return "coupon log"
    if folder == COUPONS:
        return "coupon"
    if path.suffix == EVIDENCE[1] or folder == EVIDENCE[0]:
        return "evidence"
    return next((kind for kind, parts in KINDS.items() if folder in parts and kind != "recipe"), "recipe")
