"""A text file that grows while work goes on and stands at its place only once it is whole."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from profilesmith.foundation.problem import Refused
from profilesmith.write_files import cannot_write, write_whole


@contextmanager
def write_stream(path: Path, overwrite: bool) -> Iterator[Callable[[str], object]]:
    """Gives a function that takes pieces of text. Raises Refused; after any error the file is not there."""
    try:
        with tempfile.TemporaryFile("w+b", dir=path.parent) as stream:
            yield lambda text: stream.write(text.encode("utf-8", "backslashreplace"))
            stream.seek(0)
            problems = write_whole({path: stream.read()}, overwrite)
    except OSError as error:
        raise Refused([cannot_write(path, error)]) from error
    if problems:
        raise Refused(problems)
