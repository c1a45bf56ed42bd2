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
from profilesmith.engine.source import Source
from profilesmith.foundation.problem import Refused
from tests.browser.as_page import CASES, OUT, calls, jobs, of_command_line

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


def main() -> int:
    cases, texts = jobs(), dialects()
    empty = {"recipes": [], "maps": [], "facts": []}
    asked = [packed(calls(job)) for job in cases]
    asked += [
        packed(
            [
                ("begin", empty, []),
                ("read", {"name": path.name}, [path.read_bytes()]),
                ("suggest", {}, []),
                ("answer", {"answers": {}}, []),
            ]
        )
        for path in texts
    ]
    told = told_by_wasm(asked)
    outputs = same = 0
    for job, mine in zip(cases, told["out"], strict=False):
        with tempfile.TemporaryDirectory() as scratch:
            wanted = {
                name: hashlib.sha256(raw).hexdigest() for name, raw in of_command_line(job, Path(scratch)).items()
            }
        got = dict(zip(mine["data"].get("names", ()), mine["files"], strict=True))
        if OUT not in wanted:  # refused by both
            outputs, same = outputs + 1, same + (OUT not in got)
            continue
        outputs += len(wanted)
        same += sum(got.get(name) == digest for name, digest in wanted.items())
        for name in wanted:
            if got.get(name) != wanted[name]:
                print(f"differs: {job.name}: {name}")
    for path, mine in zip(texts, told["out"][len(cases) :], strict=True):
        wanted = suggested(path)
        got = (
            {"map": mine["files"][0]}
            if mine["files"]
            else {item["code"]: "" for item in mine["data"].get("refused", ())}
        )
        outputs, same = outputs + 1, same + (got == wanted)
        if got != wanted:
            print(f"differs: {path.name}: {sorted(got)} {sorted(wanted)}")
    print(
        f"{len(cases)} derivations, {len(texts)} dialects: {same} of {outputs} outputs are the same "
        f"bytes; heap {told['heap'] / 2**20:.0f} MB"
    )
    return same != outputs


if __name__ == "__main__":
    sys.exit(main())
