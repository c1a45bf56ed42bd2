"""New files and folders on the disk: written through to it, with the rights that new ones have."""

import os
from collections.abc import Mapping, Sequence
from pathlib import Path

FLUSHES = 8  # at a time, where many files are written together: more take their time in handing over
PLACED: list[str] = []
"""What this process has put in place so far, in order. Whoever can say nothing more can still say this."""


def umask() -> int:
    """The rights that this process withholds from new files."""
    mask = os.umask(0)
    os.umask(mask)
    return mask


def write_new(path: Path, content: bytes) -> None:
    """A file that is not there yet, flushed. Raises OSError."""
    with path.open("xb") as stream:
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())


def stage_folder(files: Mapping[str, bytes], beside: Path, prefix: str) -> Path:
    """A hidden folder in ``beside`` that holds all files, to be moved into place. Raises OSError; then it is gone
    again.
    """
    import shutil  # not at every start: a folder is seldom written
    import tempfile

    stage = Path(tempfile.mkdtemp(prefix=prefix, suffix=".part", dir=beside))
    try:
        for place, content in files.items():
            (stage / place).parent.mkdir(parents=True, exist_ok=True)
            write_new(stage / place, content)
        stage.chmod(0o777 & ~umask())
    except BaseException:
        shutil.rmtree(stage, ignore_errors=True)
        raise
    return stage


def flush_all(files: Sequence[str]) -> dict[str, OSError]:
    """Flush several files at once; the errors of those that could not be."""
    from concurrent.futures import ThreadPoolExecutor

    # Each thread has its share from the start: handing over one file takes more than all else that is done for it.
    shares = [share for at in range(FLUSHES) if (share := files[at::FLUSHES])]
    with ThreadPoolExecutor(FLUSHES) as pool:
        return {path: error for broken in pool.map(flush, shares) for path, error in broken.items()}


def flush(files: Sequence[str]) -> dict[str, OSError]:
    """Flush one file after the other; the errors of those that could not be."""
    broken = {}
    for path in files:
        try:
            handle = os.open(path, os.O_RDWR)  # some systems flush only what is open for writing
            try:
                os.fsync(handle)
            finally:
                os.close(handle)
        except OSError as error:
            broken[path] = error
    return broken
