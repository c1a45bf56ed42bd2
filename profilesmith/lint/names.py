"""Which names a library holds, gathered once for all of its files: so that no rule walks the folder again for each."""

import os
from collections import defaultdict
from collections.abc import Mapping
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.library.find import KINDS, shipped
from profilesmith.library.library import DESCRIPTION
from profilesmith.lint.head_commit import HeadCommit, commit_of, head_commit

EVIDENCE = ("evidence", ".jsonl")
COUPONS, COUPON_LOG = "coupons", ".log.jsonl"
FOLDERS = {
    "evidence": ((EVIDENCE[0],), EVIDENCE[1]),
    "coupon": ((COUPONS,), ".toml"),
    "coupon log": ((COUPONS,), COUPON_LOG),
    "troubles": (("troubles",), ".toml"),
}


class LibraryNames(NamedTuple):
    """recipes: by name without its case, the files that claim it. shipped: names of the recipes of the package.

    head: what git's last commit, or the revision that was asked for, holds of the library.
    """

    folder: Path
    recipes: Mapping[str, tuple[Path, ...]] = {}
    key_maps: frozenset[str] = frozenset()
    facts: frozenset[str] = frozenset()
    shipped: Mapping[str, Path] = {}
    head: HeadCommit = HeadCommit({}, "no library was named")

    @property
    def is_shipped(self) -> bool:
        """Whether it is the package's own."""
        return self.folder.resolve() == shipped().resolve()

    def has_recipe(self, name: str) -> bool:
        """Whether a recipe of that very name is at hand."""
        here = any(path.stem == name for path in self.recipes.get(name.casefold(), ()))
        return here or name in self.shipped


def files_of(folder: Path, kind: str) -> list[Path]:
    """A library's files of a kind: ``recipe``, ``key map``, ``facts``, ``evidence``, ``coupon``, ``coupon log`` or
    ``troubles``; sorted. No pipes or folders.
    """
    parts, ending = FOLDERS[kind] if kind in FOLDERS else (KINDS[kind], ".toml")
    paths = [path for part in parts for path in sorted((folder / part).glob(f"*{ending}"))]
    return [path for path in paths if path.name != DESCRIPTION and path.is_file()]


def library_names(folder: Path, since: str | None = None) -> LibraryNames:
    """Walk a library once. One or two calls of git, whatever the number of files. since: a revision; None for the last
    commit.
    """
    claimed: dict[str, list[Path]] = defaultdict(list)
    for path in files_of(folder, "recipe"):
        claimed[path.stem.casefold()].append(path)
    return LibraryNames(
        folder=folder,
        recipes={name: tuple(paths) for name, paths in claimed.items()},
        key_maps=frozenset(path.stem for path in (*files_of(folder, "key map"), *files_of(shipped(), "key map"))),
        facts=frozenset(path.stem for path in (*files_of(folder, "facts"), *files_of(shipped(), "facts"))),
        shipped={path.stem: path for path in files_of(shipped(), "recipe")},
        head=head_commit(folder) if since is None else commit_of(folder, since),
    )


def names_around(path: Path) -> LibraryNames:
    """The names for a single file: those of the library that it lies in, else of its own folder alone."""
    folder = Path(os.path.abspath(path)).parent
    for near in (folder, folder.parent):
        if (near / DESCRIPTION).is_file():
            return library_names(near)
    return library_names(folder)
