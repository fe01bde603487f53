// The program: Python answers here, and what it changes is kept before anybody sees the answer.
const HERE = "https://page.invalid/";
const PAUSE = 60; // ms
const RECORDS = "records", STAMP = "stamp";

// --- what is kept: a record for each visit and each photograph, and a stamp that tells when another window wrote
const done = (request) => new Promise((ok, no) => { request.onsuccess = () => ok(request.result); request.onerror = () => no(request.error); });
const whole = (work) => new Promise((ok, no) => { work.oncomplete = ok; work.onabort = work.onerror = () => no(work.error); });

async function openStore(name) {
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => request.result.createObjectStore(RECORDS);
  const store = await done(request);
  return {
    stamp: () => done(store.transaction(RECORDS).objectStore(RECORDS).get(STAMP)),
    async all() {
      const records = store.transaction(RECORDS).objectStore(RECORDS);
      const [names, bodies] = await Promise.all([done(records.getAllKeys()), done(records.getAll())]);
      return new Map(names.map((key, index) => [key, bodies[index]]).filter(([key]) => key !== STAMP));
    },
    async keep(changed, stamp) {
      const work = store.transaction(RECORDS, "readwrite", { durability: "strict" }), records = work.objectStore(RECORDS);
      for (const [key, body] of changed) body ? records.put(body, key) : records.delete(key);
      records.put(stamp, STAMP);
      await whole(work);
    },
  };
}

// --- a request at a time, in this window and in all others
let program, store, stamp;
const alone = (work) => (navigator.locks ? navigator.locks.request("boats", work) : work());

async function start({ name, parts }) {
  const bytes = async (file) => new Uint8Array(await (await own(file)).arrayBuffer());
  const opened = openStore(name).catch(() => null); // a browser may keep nothing, and says so here
  program = await startPython(parts ? unpacked(parts) : {
    machine: own("machine.wasm"), library: bytes("library.zip"), core: bytes("core.bin"), knowledge: bytes("knowledge.bin"), templates: bytes("templates.json"),
  });
  store = await opened;
  if (!store) program.held(new Map());
  return { keeps: Boolean(store) };
}

async function own(file) {
  const response = await fetch(file);
  if (!response.ok) throw new Error(`${file}: ${response.status}`);
  const wasm = file.endsWith(".wasm") && response.headers.get("content-type") !== "application/wasm";
  return wasm ? new Response(response.body, { headers: { "content-type": "application/wasm" } }) : response;
}

function unpacked(parts) {
  const body = (part) => new Response(part).body.pipeThrough(new DecompressionStream("gzip"));
  const open = ([name, part]) => [name, new Response(body(part)).arrayBuffer().then((bytes) => new Uint8Array(bytes))];
  return Object.fromEntries(Object.entries(parts).map(open));
}

async function ask({ method, address, kind, body }) {
  for (let turn = 0; turn < 9; turn++) {
    const url = new URL(address, HERE);
    const [status, headers, answer, changed] = told(method, url, kind, body);
    if (changed.size && store) await store.keep(changed, (stamp = `${Date.now()} ${Math.random()}`));
    const on = headers.get("location");
    const at = url.pathname.slice(1) + url.search + url.hash;
    if (!on) return { status, address: at, type: headers.get("content-type") || "", name: headers.get("content-disposition") || "", answer, changed: changed.size };
    [method, address, kind, body] = ["GET", new URL(on, url).href, "", undefined];
  }
  throw new Error("sent on and on");
}

function told(method, url, kind, body) {
  const proxy = program.answer(method, decodeURIComponent(url.pathname.slice(1)), url.search.slice(1), kind || "", new Uint8Array(body || 0));
  try {
    const [status, headers, answer, changed] = proxy.toJs();
    return [status, new Map(headers), answer, new Map(changed)];
  } finally {
    proxy.destroy();
  }
}

async function fresh() {
  const now = store && (await store.stamp());
  if (store && (now ?? null) !== stamp) {
    program.held(await store.all());
    stamp = now ?? null;
  }
}

const work = { start, ask: (what) => alone(async () => { await fresh(); return ask(what); }) };
let turn = Promise.resolve(), waiting = 0, cold = true;
self.onmessage = ({ data: [id, what, given] }) => {
  waiting++;
  turn = turn.then(() => work[what](given)).then((got) => self.postMessage([id, got]), (error) => self.postMessage([id, null, String((error && error.stack) || error)])).finally(() => { waiting--; later(); });
};

// While nobody asks, what the next screens need is worked out, a step at a time.
function later() {
  if (cold && !waiting) setTimeout(warm, PAUSE);
}

function warm() {
  if (!cold || waiting) return;
  try {
    cold = program.warm();
  } catch {
    cold = false; // whoever asks for it will be told
  }
  later();
}
