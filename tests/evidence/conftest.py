"""A record to start from."""

from __future__ import annotations

from typing import Any

import pytest

from profilesmith.evidence.record import Record


@pytest.fixture
def record() -> Record:
    return Record(
        date="2030-01-31",
        recipe="slow",
        version="1.0.0",
        outcome="worked",
        judged={"adhesion": "good", "stringing": "fair"},
        facts={"machine.drive": "remote", "spool.nozzle_window": "210 °C to 220 °C", "spool.hardness": "92 Shore A"},
        values={"outer_wall.speed": "40 mm/s", "raft.on": "on", "nozzle.temperature": ("210 °C", "215 °C")},
        mark="0a1b2c3d",
        note='Gaiter with "teeth", came off well.',
    )


@pytest.fixture
def others(record: Record) -> Any:
    """Records that differ by their mark alone: ``others(5)``."""
    return lambda count: [record._replace(mark=f"{number:08x}") for number in range(count)]
