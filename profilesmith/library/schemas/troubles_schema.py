"""What the vocabulary adds to ``troubles.schema.json``. Whether a step fits its setting the loader says, with its
line.
"""

from __future__ import annotations

from profilesmith.library.schemas.shapes import Schema, choice_of, texts
from profilesmith.mend.load_troubles import USUAL
from profilesmith.vocabulary.setting import Vocabulary


def fill(schema: Schema, vocabulary: Vocabulary) -> None:
    """Fill the template in place."""
    cause = schema["$defs"]["cause"]["properties"]
    cause["setting"]["enum"] = ["", *vocabulary.settings]
    cause["along"] |= texts(choice_of(vocabulary.settings))
    schema["properties"]["doing"]["items"]["properties"]["usual"]["enum"] = list(USUAL)
