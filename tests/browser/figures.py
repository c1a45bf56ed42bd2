"""Figures of the page, measured in Chromium: ``python -m tests.browser.figures PAGE.html``. Ratios are of one run.

Sizes; ready from a disk against the same page without the package (the engine alone); derive and review of a text of
150 keys after the first; the engine's heap after derive and suggest; the longest pause of the page meanwhile.
"""

from __future__ import annotations

import gzip
import os
import statistics
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from profilesmith.library.find import shipped
from tests.browser.conftest import FLAGS

ROAD = """async (raw) => {
  const bytes = new TextEncoder().encode(raw);
  const told = {};
  let pause = 0, before = performance.now();
  const tick = () => {
    const now = performance.now();
    pause = Math.max(pause, now - before);
    before = now;
    timer = setTimeout(tick, 1);
  };
  let timer = setTimeout(tick, 1);
  const time = async (name, data, raws = []) => {
    const began = performance.now();
    await engine.call(name, data, raws);
    return performance.now() - began;
  };
  await time("read", { names: ["bench.settings"] }, [bytes.buffer]);
  told.use = await time("use", { word: "keymap.toml" });
  const answers = { "machine.drive": "remote" };
  const asked = { recipes: ["flexible-pla", "part-soft"], facts: [], answers, follow: false, shares: "" };
  told.first = await time("derive", asked);
  told.next = [];
  for (let at = 0; at < 7; at += 1) {
    const other = { "machine.drive": at % 2 ? "direct" : "remote" };
    told.next.push(await time("derive", { ...asked, answers: other }));
  }
  told.suggest = await time("suggest", {});
  told.heap = engine.heap;
  clearTimeout(timer);
  told.pause = pause;
  return told;
}"""


def ready(browser: Any, path: Path) -> float:
    context = browser.new_context(offline=True)
    page = context.new_page()
    began = time.perf_counter()
    page.goto(path.as_uri())
    page.evaluate(
        "new Promise((done) => { const look = () => document.getElementById('state').dataset.step "
        "in { ready: 1, idle: 1, busy: 1 } ? done() : setTimeout(look, 5); look(); })"
    )
    took = time.perf_counter() - began
    context.close()
    return took


def main(path: Path) -> None:
    from playwright.sync_api import sync_playwright

    raw = path.read_bytes()
    text = (shipped() / "demo" / "base.settings").read_text(encoding="utf-8")
    text += "[bench]\n" + "".join(f"spare_{number} = {number}\n" for number in range(150 - 129))
    print(
        f"load {os.getloadavg()[0]:.1f}; file {len(raw) / 1e6:.2f} MB; gzipped "
        f"{len(gzip.compress(raw, 9)) / 1e6:.2f} MB"
    )
    with sync_playwright() as play, tempfile.TemporaryDirectory() as scratch:
        bare = Path(scratch) / "bare.html"
        bare.write_text(raw.decode().replace('<html lang="en">', '<html lang="en" data-bare="1">', 1), encoding="utf-8")
        browser = play.chromium.launch(executable_path="/usr/bin/chromium", args=FLAGS)
        times = [(ready(browser, path), ready(browser, bare)) for _ in range(5)]
        whole, engine = (statistics.median(column) for column in zip(*times, strict=True))
        print(
            f"ready {whole:.2f} s; the engine alone {engine:.2f} s; ratio "
            f"{statistics.median(a / b for a, b in times):.2f}"
        )
        page = browser.new_page()
        page.goto(path.as_uri())
        page.wait_for_selector("html[data-ready='1']", timeout=120_000)
        told = page.evaluate(ROAD, text)
        print(
            f"derive and review of 150 keys: first {told['first']:.0f} ms, then "
            f"{statistics.median(told['next']):.0f} ms"
        )
        print(
            f"suggest {told['suggest']:.0f} ms; heap {told['heap'] / 1e6:.1f} MB; longest pause of the "
            f"page {told['pause']:.0f} ms"
        )
        browser.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
