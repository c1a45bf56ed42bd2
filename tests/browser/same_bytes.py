"""Every derive case and dialect by the engine as WebAssembly, held against the command line: ``python -m
tests.browser.same_bytes``.

The very archive and engine that a page holds run in Node.js, through the same door. Needs the parts
(``python -m profilesmith.browser.parts``) and node; some minutes.
"""

from __future__ import annotations

import base64
import hashlib
import json
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from profilesmith.browser.parts import cache, fingerprint, load_parts
from profilesmith.engine import suggest as proposing
from profilesmith.engine.read import Source
from profilesmith.foundation.problem import Refused
from tests.browser.as_page import (
    CASES,
    Files,
    Job,
    calls,
    derived_files,
    files_of,
    jobs,
    later_calls,
    later_of_command_line,
    of_command_line,
)

RUN = """
import { readFileSync, writeFileSync } from "node:fs";
const [, , engine, archive, asked, told] = process.argv;
const { loadPyodide } = await import(engine + "/pyodide.mjs");
const python = await loadPyodide({ indexURL: engine + "/", stdLibURL: archive });
const door = python.pyimport("profilesmith.browser.door");
const { createHash } = await import("node:crypto");
const out = JSON.parse(readFileSync(asked)).map((calls) => {
  let last = null;
  for (const [name, data, raws] of calls) {
    const answer = door.call(name, JSON.stringify(data), raws.map((raw) => new Uint8Array(Buffer.from(raw, "base64"))));
    const [text, files] = answer.toJs({ create_pyproxies: true });
    const bytes = (raw) => raw instanceof Uint8Array ? raw : raw.toJs();
    const hashes = [...files].map((raw) => createHash("sha256").update(bytes(raw)).digest("hex"));
    last = { data: JSON.parse(text), files: hashes };
    answer.destroy();
    if (last.data.refused) break;
  }
  return last;
});
writeFileSync(told, JSON.stringify({ out, heap: python._module.HEAP8.length }));
"""


def told_by_wasm(asked: list[Any]) -> dict[str, Any]:
    load_parts()
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        (folder / "run.mjs").write_text(RUN, encoding="utf-8")
        (folder / "asked.json").write_text(json.dumps(asked), encoding="utf-8")
        words = ["node", "run.mjs", str(cache()), str(cache() / f"{fingerprint()}.zip"), "asked.json", "told.json"]
        run = subprocess.run(words, cwd=folder, capture_output=True, text=True, check=False)
        if run.returncode:
            raise SystemExit(run.stderr[-2000:])
        found: dict[str, Any] = json.loads((folder / "told.json").read_text(encoding="utf-8"))
        return found


def packed(one: list[Any]) -> list[Any]:
    return [(name, data, [base64.b64encode(raw).decode() for raw in raws]) for name, data, raws in one]


def hashed(files: dict[str, bytes]) -> dict[str, str]:
    """A refusal has codes and no bytes."""
    return {name: hashlib.sha256(raw).hexdigest() if raw else "" for name, raw in files.items()}


def _texts(files: dict[str, Any]) -> dict[str, str]:
    return {name: digest or "" for name, digest in files.items()}


def dialects() -> list[Path]:
    """The settings texts that key maps are proposed for."""
    return sorted(
        path for path in (CASES / "dialects").rglob("*") if path.is_file() and path.suffix not in (".toml", ".md")
    )


def suggested(path: Path) -> dict[str, str]:
    """The map that the command line would write, as a hash."""
    try:
        text, _ = proposing.map_text(proposing.suggest([Source(path.name, path.read_bytes())], path.stem))
    except Refused as refused:
        return {item.code: "" for item in refused.problems}
    return {"map": hashlib.sha256(text.encode()).hexdigest()}


class Tally:
    """Outputs that were compared, and those that are the same."""

    def __init__(self) -> None:
        self.outputs = self.same = 0

    def hold(self, name: str, got: dict[str, str], wanted: dict[str, str]) -> None:
        self.outputs += len(wanted)
        for file, digest in wanted.items():
            self.same += got.get(file) == digest
            if got.get(file) != digest:
                print(f"differs: {name}: {file}")
        if got.keys() - wanted.keys():
            print(f"too many: {name}: {sorted(got.keys() - wanted.keys())}")
            self.outputs += 1


def by_command(job: Job, folder: Path) -> tuple[Files, list[Files]]:
    """What the command line makes of a case: of the texts, and after the print."""
    try:
        files = of_command_line(job, folder)
    except Refused as refused:
        return {problem.code: b"" for problem in refused.problems}, []
    derived = job.outputs[0] in files
    return files, later_of_command_line(job, folder, derived_files(job, files)) if derived else []


def main() -> int:
    cases, texts = jobs(), dialects()
    wanted: list[tuple[Job, Files, list[Files]]] = []
    for job in cases:
        with tempfile.TemporaryDirectory() as scratch:
            wanted.append((job, *by_command(job, Path(scratch))))
    asked = [packed(calls(job)) for job in cases]
    asked += [
        packed(one)
        for job, files, later in wanted
        for one in (later_calls(job, derived_files(job, files))[: len(later)] if later else ())
    ]
    empty = {"recipes": [], "maps": [], "facts": []}
    for path in texts:
        read = ("read", {"names": [path.name]}, [path.read_bytes()])
        asked.append(packed([("begin", empty, []), read, ("suggest", {}, []), ("answer", {"answers": {}}, [])]))
    told = told_by_wasm(asked)
    answers, tally = iter(told["out"]), Tally()
    for job, files, _ in wanted:
        mine = next(answers)
        tally.hold(job.name, _texts(files_of(mine["data"], mine["files"])), hashed(files))
    for job, _, later in wanted:
        for files, last in zip(later, ("open", "advise", "take_mended"), strict=False):
            mine = next(answers)
            tally.hold(f"{job.name}, {last}", _texts(files_of(mine["data"], mine["files"], last)), hashed(files))
    for path, mine in zip(texts, answers, strict=True):
        refused = {item["code"]: "" for item in mine["data"].get("refused", ())}
        tally.hold(path.name, refused or {"map": mine["files"][0]}, suggested(path))
    heap = told["heap"] / 2**20
    print(
        f"{len(cases)} derivations with their reviews and mends, {len(texts)} dialects: "
        f"{tally.same} of {tally.outputs} outputs are the same bytes; heap {heap:.0f} MB"
    )
    return tally.same != tally.outputs


if __name__ == "__main__":
    sys.exit(main())
