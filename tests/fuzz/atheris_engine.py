"""The same targets under atheris, which is guided by the coverage of the package's bytecode. It need not be
installed.
"""

from __future__ import annotations

import argparse
import importlib
import sys
import tempfile
from pathlib import Path
from typing import Any

from tests.fuzz.engine import LARGEST, Target


def run_atheris(target: Target, options: argparse.Namespace) -> int:
    """Run one target until the time is over or the executions are done; atheris ends the process itself at a
    finding.
    """
    try:
        atheris: Any = importlib.import_module("atheris")
    except ImportError:
        print("atheris is not installed: pip install atheris", file=sys.stderr)
        return 2
    atheris.instrument_all()
    place = options.keep / target.name
    place.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="corpus.") as name:
        corpus = Path(name)
        for number, seed in enumerate(target.seeds()):
            (corpus / str(number)).write_bytes(seed)
        words = corpus / "tokens.dict"
        words.write_text("".join(f'"{_escaped(token)}"\n' for token in target.tokens() if token), encoding="ascii")
        arguments = [
            sys.argv[0],
            str(corpus),
            f"-dict={words}",
            f"-max_len={LARGEST}",
            f"-artifact_prefix={place}/",
            f"-seed={options.seed}",
        ]
        arguments += (
            [f"-max_total_time={round((options.minutes or 1) * 60)}"]
            if options.executions is None
            else [f"-runs={options.executions}"]
        )
        atheris.Setup(arguments, target.one_input)
        atheris.Fuzz()
    return 0


def _escaped(token: bytes) -> str:
    return "".join(f"\\x{byte:02x}" for byte in token)
