// Starts Python in this worker from bytes at hand: the loader, which would fetch by itself, is given them.
const HOME = "/lib/python3.14/site-packages/";
const LIBRARY = "/lib/python314.zip"; // where the loader puts it
const CORE = `${HOME}pydantic_core/_pydantic_core.so`;
const OUTSIDE = "https://page.invalid/"; // whatever is asked for there is at hand, or never comes

async function startPython(parts) {
  let given = await allOf(parts);
  const fetched = self.fetch;
  self.fetch = (url) => (String(url) === `${OUTSIDE}library` ? Promise.resolve(new Response(new Uint8Array(0))) : new Promise(() => {}));
  const python = await loadPyodide({
    indexURL: OUTSIDE,
    packageBaseUrl: OUTSIDE,
    stdLibURL: `${OUTSIDE}library`,
    lockFileContents: { info: {{ lock | tojson }}, packages: {} },
    enableRunUntilComplete: false,
    env: { HOME: "/home", PYTHONHASHSEED: "0", RAPIDFUZZ_IMPLEMENTATION: "python", PYDANTIC_DISABLE_PLUGINS: "__all__", TRIAGE_CACHE_DIR: "", TRIAGE_TEMPLATES_DIR: "/templates", TRIAGE_TEMPLATES_COMPILED: `${LIBRARY}/compiled` },
    createPyodideModule: (settings) => _createPyodideModule(machineFrom(settings, given.machine)),
    fsInit: async (FS) => {
      while (!FS.analyzePath(LIBRARY).exists) await new Promise((ok) => setTimeout(ok));
      FS.writeFile(LIBRARY, given.library, { canOwn: true }); // the loader would keep a second one
      FS.mkdirTree(CORE.slice(0, CORE.lastIndexOf("/")));
      FS.writeFile(CORE, given.core, { canOwn: true });
      FS.writeFile("/knowledge.bin", given.knowledge, { canOwn: true });
      for (const [name, text] of Object.entries(JSON.parse(new TextDecoder().decode(given.templates)))) {
        FS.mkdirTree(`/templates/${name}`.replace(/\/[^/]*$/, ""));
        FS.writeFile(`/templates/${name}`, text);
      }
    },
  });
  self.fetch = fetched;
  given = null; // the loader holds on to what it was told, and these bytes with it
  python.runPython(`
import os
from triage.page import patterns, starting
starting.prepare("${CORE}")
starting.take_methods("${LIBRARY}")
patterns.take_patterns("${LIBRARY}")
from triage.page.phone import Phone, knowledge
kb = knowledge("/knowledge.bin")
os.remove("/knowledge.bin")
os.remove("${CORE}")
def held(records):
    global phone
    phone = Phone(kb, {name: bytes(body) for name, body in records.to_py().items()})
def answer(method, path, query, kind, body):
    status, headers, answer, changed = phone.answer(method, path, query, kind, body.to_bytes())
    return status, list(headers.items()), answer, list(changed.items())
from triage.page.warming import warming
steps = warming(kb)
def warm():
    return next(steps, None) is not None
`);
  return { held: python.globals.get("held"), answer: python.globals.get("answer"), warm: python.globals.get("warm"), python };
}

// Apart from what starts it, so that nothing holds on to the parts.
async function allOf({ machine, ...parts }) {
  const all = await Promise.all(Object.entries(parts).map(async ([name, part]) => [name, await part]));
  return { machine: { arrives: machine }, ...Object.fromEntries(all) };
}

// The machine is compiled while it arrives where it can be.
function machineFrom(settings, machine) {
  settings.instantiateWasm = (imports, done) => {
    const none = Symbol();
    imports.env.Jsv_GetError_import = () => none;
    imports.env.JsvError_Check = (one) => one === none;
    (async () => {
      const from = await machine.arrives;
      delete machine.arrives;
      const made = from instanceof Response ? WebAssembly.instantiateStreaming(from, imports) : WebAssembly.instantiate(from, imports);
      const { instance, module } = await made;
      done(instance, module);
    })();
    return {};
  };
  return settings;
}
