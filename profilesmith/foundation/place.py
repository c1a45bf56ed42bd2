"""Where something was written: a file, a line, a path inside a TOML file."""

from profilesmith.foundation.named_tuple import NamedTuple

SHIPPED = "shipped/"
"""How the name of a file begins that came with the package."""


class Place(NamedTuple):
    """A spot that a message can point at.

    file: the file as the user named it; "" when there is none.
    line: counted from 1; None when it is not known.
    path: the path inside a TOML file, such as ``rule 3, cap``; "" when there is none.
    """

    file: str = ""
    line: int | None = None
    path: str = ""

    @property
    def is_own(self) -> bool:
        """Whether it is a file of the user's: where the package lies is nobody's matter."""
        return bool(self.file) and not self.file.startswith(SHIPPED)

    def __str__(self) -> str:
        spot = self.file if self.line is None else f"{self.file}:{self.line}"
        return f"{spot} ({self.path})" if self.path and spot else spot or self.path
