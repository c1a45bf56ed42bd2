"""``python -m tests.benchmarks.batch_stages [COUNT]``: where the computing of a batch's derivations goes.

Both sorts of ``tests.benchmarks.batch``, in this process. A stage's time is processor time without that of the stages
inside it; in brackets its share. The last line is against ``configparser`` on the same texts, as there.
"""

from __future__ import annotations

import gc
import importlib
import os
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from profilesmith.workflows.batch.batch import LOOK
from profilesmith.workflows.batch.plan import plan
from profilesmith.workflows.batch.work import work
from profilesmith.workflows.shelf import Shelf
from tests.benchmarks.batch import SORTS, lay_out, peer

CHUNK = 32
WASTE = "collect waste"
STAGES = (
    ("read the text", "workflows.shelf", "read_documents"),
    ("translate in", "engine.read", "translate"),
    ("apply recipes", "engine.derive", "apply_recipes"),
    ("translate out", "engine.derive", "write_ledger"),
    ("start blocks", "engine.derive", "contradictions"),
    ("audit: read text", "audit", "read_document"),
    ("audit: read values", "audit", "read_again"),
    ("audit: second reader", "audit", "_second_reader"),
    ("audit: the rest", "engine.derive", "audit"),
    ("judge", "engine.derivation_review", "judge"),
    ("judge: figures", "checks.judge", "figures_of"),
    ("judge: cautions", "checks.judge", "_cautions"),
    ("ledger's file", "engine.derive", "derivation_file"),
    ("ledger's text", "engine.ledger_file", "file_bytes"),
    ("write beside", "workflows.batch.work", "ManyFiles.add"),
    ("flush, rename", "workflows.batch.work", "ManyFiles.place"),
    ("all the rest", "workflows.batch.work", "carry_out"),
)


class Clock:
    """Seconds of each stage, without those of the stages inside it."""

    def __init__(self) -> None:
        self.spent = dict.fromkeys((*(name for name, _, _ in STAGES), WASTE), 0.0)
        self.inner: list[float] = []

    def around(self, name: str, function: Callable[..., Any]) -> Callable[..., Any]:
        def timed(*given: Any, **named: Any) -> Any:
            self.inner.append(0.0)
            start = time.process_time()
            try:
                return function(*given, **named)
            finally:
                whole = time.process_time() - start
                self.spent[name] += whole - self.inner.pop()
                if self.inner:
                    self.inner[-1] += whole

        return timed

    @contextmanager
    def on_all_stages(self) -> Iterator[None]:
        held = [_owner(room, attribute) for _, room, attribute in STAGES]
        plain = [getattr(module, attribute) for module, attribute in held]
        for (module, attribute), (name, _, _), function in zip(held, STAGES, plain, strict=True):
            setattr(module, attribute, self.around(name, function))
        try:
            yield
        finally:
            for (module, attribute), function in zip(held, plain, strict=True):
                setattr(module, attribute, function)


def _owner(room: str, attribute: str) -> tuple[Any, str]:
    """What holds a function, and its name there: a module, or a class in it."""
    *outer, name = attribute.split(".")
    owner = importlib.import_module(f"profilesmith.{room}")
    for part in outer:
        owner = getattr(owner, part)
    return owner, name


def measure(folder: Path, count: int) -> None:
    clock, shelf = Clock(), Shelf()
    tasks = plan(str(folder / "order.toml"), None, overwrite=True).tasks
    gc.disable()  # as in a batch, which looks for waste in every eighth chunk
    with clock.on_all_stages():
        for at in range(0, count, CHUNK):
            results = work(tasks[at : at + CHUNK], True, shelf)
            assert not any(result.code for result in results), results
            if at // CHUNK % LOOK == 0:
                clock.around(WASTE, gc.collect)()
            gc.freeze()
    gc.enable()
    whole = sum(clock.spent.values())
    for name, spent in clock.spent.items():
        print(f"  {name:<22} {spent / count * 1000:6.2f} ms ({spent / whole:4.0%})")
    print(f"  {'together':<22} {whole / count * 1000:6.2f} ms; / configparser {whole / peer(folder):.1f}")


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 320
    print(f"{count} derivations; load {', '.join(f'{value:.1f}' for value in os.getloadavg())}")
    for sort in SORTS:
        with tempfile.TemporaryDirectory(prefix="batch-") as name:
            lay_out(Path(name), count, sort)
            print(sort)
            measure(Path(name), count)


if __name__ == "__main__":
    main()
