// node run.mjs RUNTIME TARGET SCRIPT GIVEN...: has the page's own Python make the target, by a script's `make`.
import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [runtime, target, script, ...given] = process.argv.slice(2).map((name) => path.resolve(name));
const { loadPyodide } = await import(pathToFileURL(path.join(runtime, "pyodide.mjs")));
const env = { PYTHONHASHSEED: "0", HOME: "/home", RAPIDFUZZ_IMPLEMENTATION: "python", TRIAGE_CACHE_DIR: "" };
const python = await loadPyodide({ indexURL: runtime + path.sep, env });
const there = given.map((file) => {
  const name = `/${path.basename(file)}`;
  python.FS.writeFile(name, fs.readFileSync(file));
  return name;
});
try {
  python.runPython(fs.readFileSync(script, "utf8"));
  python.globals.get("make")("/target", ...there);
  fs.writeFileSync(target, python.FS.readFile("/target"));
} catch (error) {
  console.error(error.message); // of the rest, node would show the whole source
  process.exitCode = 1;
}
