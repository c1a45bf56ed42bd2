"""What comes in at a door: some bytes under the name by which people know them."""

from profilesmith.foundation.named_tuple import NamedTuple


class Source(NamedTuple):
    """A text, a key map, a recipe or a facts file."""

    name: str
    raw: bytes
