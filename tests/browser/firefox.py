"""The road in Firefox: ``python -m tests.browser.firefox PAGE.html``, by WebDriver BiDi (W3C), with the network off.

Needed: Debian's ``firefox-esr`` and the Python package ``websockets``. Prints what came of each step, and times.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

PORT = 9237
# A network that leads nowhere: every request is told to go by a proxy that is not there.
PREFERENCES = """user_pref("network.proxy.type", 1);
user_pref("network.proxy.http", "127.0.0.1"); user_pref("network.proxy.http_port", 9);
user_pref("network.proxy.ssl", "127.0.0.1"); user_pref("network.proxy.ssl_port", 9);
user_pref("datareporting.policy.dataSubmissionEnabled", false); user_pref("app.update.enabled", false);
"""
ROAD = """async () => {
  const wait = async (test, what) => {
    for (let at = 0; at < 1200; at += 1) { if (test()) return; await new Promise((done) => setTimeout(done, 100)); }
    throw new Error("waited in vain for " + what);
  };
  const told = {};
  const began = performance.now();
  await wait(() => document.documentElement.dataset.ready === "1", "the engine");
  told.ready_s = (performance.now() - began) / 1000;
  [...document.querySelectorAll("button")].find((node) => node.textContent === "Try an example").click();
  await wait(() => state.reading, "the reading");
  told.read = state.reading.values.length + " settings with " + state.reading.map;
  document.getElementById("recipe-flexible-pla").click();
  await wait(() => state.outcome, "the review");
  await wait(() => engine.waiting.size === 0, "rest");
  told.headline = state.outcome.headline;
  const first = performance.now();
  state.answers["machine.drive"] = "remote";
  await changed();
  told.answer_ms = Math.round(performance.now() - first);
  const frame = () => document.querySelector("iframe");
  await wait(() => frame() && frame().contentDocument.querySelector("h1"), "the frame");
  told.frame = document.querySelector("iframe").contentDocument.querySelector("h1").textContent;
  const taken = await engine.call("take", { name: "soft.settings" });
  told.files = taken.names.map((name, at) => name + " " + taken.files[at].length + " bytes");
  const digest = await crypto.subtle.digest("SHA-256", taken.files[0]);
  told.sha256 = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  await afterThis();
  await wait(() => after.review, "the review after the print");
  await see("stringing", "poor");
  const moved = (move) => move.setting + " " + move.before + " to " + move.after;
  told.mend = after.advice.doings.map((item) => item.name).join("; ");
  told.mend += "; " + after.advice.changes.flatMap((item) => item.moves.map(moved)).join("; ");
  told.fetch = await fetch("https://example.org/").then(() => "left", () => "held");
  told.heap_mb = Math.round(engine.heap / 1048576);
  return JSON.stringify(told);
}"""


class Bidi:
    """A session of WebDriver BiDi: commands by name, answers as data."""

    def __init__(self, port: int) -> None:
        from websockets.sync.client import connect

        for _ in range(120):
            try:
                self.socket = connect(f"ws://127.0.0.1:{port}/session", max_size=None).__enter__()
                break
            except OSError:
                time.sleep(0.5)
        self.number = 0
        self.send("session.new", {"capabilities": {}})

    def send(self, method: str, parameters: dict[str, Any]) -> Any:
        self.number += 1
        self.socket.send(json.dumps({"id": self.number, "method": method, "params": parameters}))
        while True:
            message = json.loads(self.socket.recv(timeout=300))
            if message.get("id") == self.number:
                if message["type"] == "error":
                    raise RuntimeError(f"{method}: {message['message']}")
                return message["result"]


def walk(page: Path) -> dict[str, Any]:
    """Start a Firefox of its own, walk the road, and end it."""
    with tempfile.TemporaryDirectory() as profile:
        (Path(profile) / "user.js").write_text(PREFERENCES, encoding="utf-8")
        command = ["firefox-esr", "--headless", "--no-remote", "--profile", profile, f"--remote-debugging-port={PORT}"]
        firefox = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        try:
            bidi = Bidi(PORT)
            context = bidi.send("browsingContext.getTree", {})["contexts"][0]["context"]
            bidi.send(
                "browsingContext.navigate", {"context": context, "url": page.resolve().as_uri(), "wait": "complete"}
            )
            asked = {"functionDeclaration": ROAD, "target": {"context": context}, "awaitPromise": True}
            done = bidi.send("script.callFunction", asked)
            if done["type"] != "success":
                raise RuntimeError(done["exceptionDetails"]["text"])
            told: dict[str, Any] = json.loads(done["result"]["value"])
            return told
        finally:
            firefox.terminate()
            firefox.wait(20)


if __name__ == "__main__":
    for name, value in walk(Path(sys.argv[1])).items():
        print(f"{name}: {value}")
