// The engine in its worker: started, asked, ended. Only one call runs at a time; what is asked earlier waits for "ready".
const PATIENCE = 90_000; // ms without a sign of life

function packedOf(id) {
  const text = document.getElementById(id).textContent.trim();
  if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
  const letters = atob(text);
  const raw = new Uint8Array(letters.length);
  for (let at = 0; at < letters.length; at += 1) raw[at] = letters.charCodeAt(at);
  return raw;
}

// A page may not be allowed to run WebAssembly, or be too old for it: then nothing else would ever say so.
async function canRun() {
  if (typeof WebAssembly !== "object" || typeof DecompressionStream !== "function" || typeof Worker !== "function") return false;
  try {
    await WebAssembly.instantiate(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0]));
    return true;
  } catch {
    return false;
  }
}

class Engine {
  constructor(tell) {
    this.tell = tell;
    this.waiting = new Map();
    this.next = 1;
    this.ready = null;
  }

  async start() {
    this.tell({ step: "unpack", part: 0 });
    if (!(await canRun())) {
      this.tell({ step: "cannot" });
      return;
    }
    const unpacked = new Blob([packedOf("part-script")]).stream().pipeThrough(new DecompressionStream("gzip"));
    const script = await new Response(unpacked).blob();
    const url = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
    this.tell({ step: "unpack", part: 1 });
    await new Promise((resolve) => setTimeout(resolve));
    const archive = packedOf("part-archive");
    this.tell({ step: "unpack", part: 2 });
    await new Promise((resolve) => setTimeout(resolve));
    const engine = packedOf("part-engine");
    this.tell({ step: "unpack", part: 3 });
    this.worker = new Worker(url);
    this.ready = new Promise((resolve) => {
      this.arrived = resolve;
    });
    this.worker.onmessage = ({ data }) => this.hear(data);
    this.worker.onerror = (event) => this.hear({ fatal: event.message || "the worker could not start" });
    this.watch();
    const lock = document.getElementById("part-lock").textContent;
    const bare = document.documentElement.dataset.bare === "1";
    this.worker.postMessage({ parts: { engine, archive, lock, bare } }, [engine.buffer, archive.buffer]);
  }

  watch() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.tell({ step: "slow" }), PATIENCE);
  }

  hear(message) {
    clearTimeout(this.timer);
    if (message.fatal) return this.fail(message.fatal);
    if (message.step) {
      if (message.step === "ready") this.arrived();
      else this.watch();
      return this.tell(message);
    }
    const { resolve } = this.waiting.get(message.id) || {};
    this.waiting.delete(message.id);
    this.heap = message.heap;
    if (!this.waiting.size) this.tell({ step: "idle" });
    if (resolve) resolve({ ...message.data, files: message.files });
  }

  fail(reason) {
    this.end();
    this.tell({ step: "fatal", reason });
  }

  // Ends the worker, whatever it is at. Who waits for an answer gets none.
  end() {
    clearTimeout(this.timer);
    if (this.worker) this.worker.terminate();
    this.worker = null;
    this.ready = null;
    this.waiting.clear();
  }

  async call(name, data = {}, raws = []) {
    await this.ready;
    const id = this.next;
    this.next += 1;
    return new Promise((resolve) => {
      this.waiting.set(id, { resolve });
      if (!this.worker) return;
      if (name !== "warm") this.tell({ step: "busy" });
      this.watch();
      this.worker.postMessage({ id, name, data, raws });
    });
  }
}
