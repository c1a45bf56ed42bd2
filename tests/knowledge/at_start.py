"""``python -m tests.knowledge.at_start``: what every derivation reads of the package's own data, as JSON.

TOML stays the one statement. JSON is read in an eighth of the time and carries the sum of the text that it was made
of: where that text was changed since, the text itself is read.
"""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from zlib import crc32

KNOWLEDGE = Path(__file__).resolve().parents[2] / "profilesmith" / "knowledge"
PLACE = KNOWLEDGE / "at_start.json"
NAMES = ("vocabulary.toml", "facts.toml", "limits.toml", "materials.toml", "cautions.toml")


def made_anew() -> str:
    """The file as it is to be."""
    texts = {name: (KNOWLEDGE / name).read_text(encoding="utf-8") for name in NAMES}
    kept = {
        name: {"crc32": crc32(text.encode()), "tables": tomllib.loads(text)} for name, text in sorted(texts.items())
    }
    return json.dumps(kept, ensure_ascii=False, indent=1) + "\n"


if __name__ == "__main__":
    PLACE.write_text(made_anew(), encoding="utf-8", newline="\n")
    print(f"wrote {PLACE.name}")
