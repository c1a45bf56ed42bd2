"""The schemas in a list."""

from __future__ import annotations

from profilesmith.library.schemas.load_schema import SCHEMAS, title_of

ONE = "'profilesmith schema NAME > NAME.json' writes one; '#:schema ./NAME.json' tells an editor of it."


def schemas_list() -> str:
    """One line for each, and how one is written."""
    return "\n".join([*(f"{known:<10} {title_of(known)}" for known in SCHEMAS), "", ONE]) + "\n"
