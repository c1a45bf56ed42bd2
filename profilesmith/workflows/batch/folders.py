"""Where the files of an order lie once links are followed: thousands of files lie in a few folders."""

import os
from pathlib import Path, PurePath


class Folders:
    """Where folders are once links are followed, each looked up once. top: the order's."""

    def __init__(self, top: Path) -> None:
        self.top = os.path.realpath(top)
        self._real: dict[str, str] = {}
        self._inside: dict[str, bool] = {}

    def in_folder(self, path: str) -> str:
        """A file's place once the links of its folder are followed."""
        folder, name = os.path.split(path)
        real = self._real.get(folder)
        if real is None:
            real = self._real[folder] = os.path.realpath(folder)
        return os.path.join(real, name)

    def place(self, path: str) -> str:
        """The same once all links are followed."""
        plain = self.in_folder(path)
        is_plain = os.path.basename(path) not in ("", os.curdir, os.pardir) and not os.path.islink(plain)
        return plain if is_plain else os.path.realpath(path)

    def inside(self, path: str) -> bool:
        """Whether a file lies in the order's folder, links of folders followed."""
        folder = os.path.dirname(path)
        if folder not in self._inside:
            self._inside[folder] = PurePath(os.path.dirname(self.in_folder(path))).is_relative_to(self.top)
        return self._inside[folder]
