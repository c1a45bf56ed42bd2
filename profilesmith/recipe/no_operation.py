"""What to say of a rule that has no operation: which one was meant, where a key is only misspelled."""

from profilesmith.foundation.problem import nearest
from profilesmith.foundation.toml_table import TomlTable
from profilesmith.recipe.operations import BY_NAME

OTHER_KEYS = ("setting", "except", "why", "source", "when")
ALIKE = 0.75  # "value" is no misspelled "scale"


def no_operation(table: TomlTable) -> None:
    """One problem, and not two, where the operation is there and only misspelled."""
    unknown = (key for key in table.content if key not in OTHER_KEYS)
    meant = {key: near for key in unknown if (near := nearest(key, BY_NAME, ALIKE))}
    for key, near in meant.items():
        table.raw(key)
        table.complain("unknown-operation", f"{key!r} is not an operation.", key, f"Did you mean {near!r}?", near)
    if not meant:
        table.complain("no-operation", "The rule has no operation.", "", f"Give one of {', '.join(BY_NAME)}.")
