// node compile.mjs RUNTIME TARGET COMPILING SOURCES CORE: has the page's own Python compile what it is to run.
import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [runtime, target, compiling, sources, core] = process.argv.slice(2).map((name) => path.resolve(name));
const { loadPyodide } = await import(pathToFileURL(path.join(runtime, "pyodide.mjs")));
const python = await loadPyodide({ indexURL: runtime + path.sep, env: { PYTHONHASHSEED: "0", HOME: "/home" } });
python.FS.writeFile("/sources.zip", fs.readFileSync(sources));
python.FS.writeFile("/core.so", fs.readFileSync(core));
try {
  python.runPython(fs.readFileSync(compiling, "utf8"));
  python.runPython("compile_all('/sources.zip', '/target.zip', '/core.so')");
  fs.writeFileSync(target, python.FS.readFile("/target.zip"));
} catch (error) {
  console.error(error.message); // of the rest, node would show the whole source
  process.exitCode = 1;
}
