// Trims and compiles Python sources with the very interpreter that will run them:
// node compile.mjs ENGINE OURS.zip trim.py OUT.zip
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
const [, , engine, ours, trim, to] = process.argv;
const { loadPyodide } = await import(pathToFileURL(`${engine}/pyodide.mjs`).href);
const python = await loadPyodide({ indexURL: `${engine}/` });
python.FS.writeFile("/ours.zip", readFileSync(ours));
python.FS.writeFile("/library.zip", readFileSync(`${engine}/python_stdlib.zip`));
python.FS.writeFile("/trim.py", readFileSync(trim));
try {
  python.runPython(`
import sys
sys.path.insert(0, "/")
import trim
trim.pack("/ours.zip", "/library.zip", "/to.zip")
`);
} catch (error) {
  process.stderr.write(`${error.message}\n`);
  process.exit(1);
}
writeFileSync(to, python.FS.readFile("/to.zip"));
