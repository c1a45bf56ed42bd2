"""Where a derived file's ledger lies: beside it."""

from pathlib import Path

LEDGER = ".ledger.json"


def ledger_beside(derived: Path) -> Path:
    """The ledger of a derived file."""
    return derived.with_name(derived.name + LEDGER)
