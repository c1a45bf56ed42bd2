"""What the rules look at: one file, read once, with the names of its library."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from profilesmith.coupon.plan import Plan
from profilesmith.evidence.record import Record
from profilesmith.evidence.withdrawal import Withdrawal
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.library.library import Library
from profilesmith.library.run_examples import ExampleResult
from profilesmith.lint.names import LibraryNames
from profilesmith.mend.troubles import TroubleCause
from profilesmith.recipe.recipe import Recipe
from profilesmith.translation.key_map import KeyMap
from profilesmith.vocabulary.setting import Vocabulary

Lines = Mapping[tuple[str | int, ...], int]


class RecipeFile(NamedTuple):
    """results: of the recipe's examples, in order, each with its ledger. raw: the bytes of the file."""

    path: Path
    raw: bytes
    lines: Lines
    names: LibraryNames
    vocabulary: Vocabulary
    recipe: Recipe
    results: tuple[ExampleResult, ...] = ()


class KeyMapFile(NamedTuple):
    """A key map that reads."""

    path: Path
    lines: Lines
    key_map: KeyMap


class FactsFile(NamedTuple):
    """A facts file that reads. content: as TOML has it."""

    path: Path
    lines: Lines
    content: Mapping[str, Any]
    facts: Facts


class EvidenceFile(NamedTuple):
    """The records of a file that read."""

    path: Path
    names: LibraryNames
    records: tuple[Record, ...]
    withdrawals: tuple[Withdrawal, ...] = ()


class CouponPlan(NamedTuple):
    """A plan that reads."""

    path: Path
    lines: Lines
    names: LibraryNames
    plan: Plan


class TroublesFile(NamedTuple):
    """The causes of a file that reads."""

    path: Path
    causes: tuple[TroubleCause, ...]


class CouponLog(NamedTuple):
    """A log, whatever of it reads."""

    path: Path


class LibraryFolder(NamedTuple):
    """A library whose description reads."""

    library: Library
    names: LibraryNames
    lines: Lines
