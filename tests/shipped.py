"""What ships, as tests that are about other things see it: so that a recipe may get a new version."""

from __future__ import annotations

import tomllib
from pathlib import Path

RECIPES = Path(__file__).resolve().parents[1] / "recipes"


def version(recipe: str) -> str:
    """The version that a shipped recipe has now."""
    found: str = tomllib.loads((RECIPES / f"{recipe}.toml").read_text(encoding="utf-8"))["recipe"]["version"]
    return found


def cautions(recipe: str) -> int:
    """How many cautions it has."""
    return len(tomllib.loads((RECIPES / f"{recipe}.toml").read_text(encoding="utf-8"))["recipe"]["cautions"])
