// Runs in a worker that is made from a blob, so that the page's policy binds it too: there is no way to any network.
const bytesOf = new Map();
const kinds = { wasm: "application/wasm", zip: "application/zip" };
const unpacked = (packed) => new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip")));

// The engine asks for its own two files only, and gets them from memory.
self.fetch = async (asked) => {
  const name = String(asked).split("/").pop();
  if (!bytesOf.has(name)) throw new TypeError("Nothing is fetched.");
  const headers = { "Content-Type": kinds[name.split(".").pop()] || "application/octet-stream" };
  return new Response(unpacked(bytesOf.get(name)).body, { headers });
};

let door = null;

async function start(parts) {
  bytesOf.set("pyodide.asm.wasm", parts.engine);
  bytesOf.set("python_stdlib.zip", parts.archive);
  const python = await loadPyodide({
    indexURL: "memory:///",
    lockFileContents: parts.lock,
    createPyodideModule,
    env: { HOME: "/", PYTHONDONTWRITEBYTECODE: "1" },
    stdout: () => {},
    stderr: () => {},
  });
  bytesOf.clear();
  postMessage({ step: "engine" });
  if (parts.bare) return;
  door = python.pyimport("profilesmith.browser.door");
  self.heap = () => python._module.HEAP8.length;
}

function carryOut({ id, name, data, raws }) {
  const given = raws.map((raw) => new Uint8Array(raw));
  const answer = door.call(name, JSON.stringify(data), given);
  const [text, out] = answer.toJs({ create_pyproxies: true });
  const files = [...out].map((raw) => (raw instanceof Uint8Array ? raw.slice() : raw.toJs().slice()));
  answer.destroy();
  postMessage({ id, data: JSON.parse(text), files, heap: self.heap() }, files.map((file) => file.buffer));
}

self.onmessage = async ({ data: message }) => {
  try {
    if (message.parts) {
      await start(message.parts);
      postMessage({ step: "ready" });
    } else carryOut(message);
  } catch (error) {
    postMessage({ id: message.id, fatal: String((error && error.message) || error) });
  }
};
