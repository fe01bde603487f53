// Shows the program, which runs in a worker of this page: links and forms go there, and the answer becomes the document.
// The address of a screen stands after the stroke of the page's own address, so that any web space and any disk will do.
"use strict";
(() => {
  const WORDS = {{ words | tojson }};
  const HERE = "https://page.invalid/";
  const root = document.documentElement;
  const files = document.querySelectorAll("script[data-part]"); // a page in one file has all of it in itself
  const LAST = `${new URL("./", location.href.split(/[?#]/)[0])} last {{ version }}`;
  let address = root.dataset.address || "", touched = false, asked = 0, shown = 0;

  // --- the worker, and another one where it breaks down: what was kept is kept
  const parts = files.length ? Object.fromEntries([...files].map((one) => [one.dataset.part, bytesOf(one.textContent)])) : null;
  for (const one of files) one.remove();
  const brought = parts || navigator.serviceWorker?.controller; // everything is here, and nothing has to come
  let program = begin();

  function begin() {
    const code = parts ? URL.createObjectURL(new Blob([parts.worker], { type: "text/javascript" })) : "worker.js";
    const worker = new Worker(code), waiting = new Map();
    const broken = (why) => { for (const [, no] of waiting.values()) no(new Error(why)); waiting.clear(); };
    let count = 0;
    worker.onmessage = ({ data: [id, got, why] }) => {
      const [ok, no] = waiting.get(id) || [];
      waiting.delete(id);
      if (ok) why ? no(new Error(why)) : ok(got);
    };
    worker.onerror = (event) => { event.preventDefault(); broken(event.message || "worker"); };
    const send = (what, given) => new Promise((ok, no) => { waiting.set(++count, [ok, no]); worker.postMessage([count, what, given]); });
    root.dataset.python = "starting";
    const name = `boats ${location.pathname.replace(/[^/]*$/, "")}`;
    const given = parts && Object.fromEntries(Object.entries(parts).filter(([part]) => part !== "worker"));
    const started = send("start", { name, parts: given }).then(({ keeps }) => {
      root.dataset.python = "ready";
      tell(keeps ? "" : WORDS.keeps_nothing);
    });
    started.catch((error) => { root.dataset.python = "failed"; tell(WORDS.no_start); report(error); });
    return { started, ask: (what) => started.then(() => send("ask", what)), end: () => { worker.terminate(); broken("ended"); } };
  }

  async function ask(what) {
    const running = program;
    try {
      return await running.ask(what);
    } catch (error) {
      if (root.dataset.python === "failed") throw error;
      if (running === program) {
        report(error);
        program = begin();
        running.end();
      }
      const because = /CannotWork: (.*)/.exec(error.message);
      const told = because ? because[1] : what.method === "POST" ? WORDS.not_kept : WORDS.again;
      const got = what.method === "POST" ? null : await program.ask(what);
      tell(told);
      if (!got) throw error;
      return got;
    }
  }

  // --- what is shown
  async function go(method, to, { kind, body, push = true, quiet = false } = {}) {
    const turn = ++asked;
    root.setAttribute("aria-busy", "true");
    if (root.dataset.python === "starting" && !quiet) tell(brought ? WORDS.starting : WORDS.first_time);
    try {
      const got = await ask({ method, address: to, kind, body });
      if (turn !== asked) return;
      if (!got.type.startsWith("text/html")) return give(got);
      if (root.dataset.python === "ready" && !quiet) tell("");
      await show(new TextDecoder().decode(got.answer), got.address, push, quiet);
    } catch {
      // it was told above; what was written still stands in its place
    } finally {
      if (turn === asked) root.removeAttribute("aria-busy");
    }
  }

  async function show(text, to, push, quiet) {
    const own = []; // taken out before they are parsed: the policy lets in no style that stands in a page
    const rest = text.replace(/<style[^>]*>([^]*?)<\/style>/g, (_, sheet) => { own.push(sheet); return ""; });
    const next = new DOMParser().parseFromString(rest, "text/html");
    await bringPictures(next, to);
    const same = to === address && next.title === document.title;
    const focused = document.activeElement && document.activeElement.id;
    if (push && to !== address) history.pushState(null, "", `#/${to}`);
    address = root.dataset.address = to;
    dress(next, own);
    document.title = next.title;
    root.lang = next.documentElement.lang || root.lang;
    document.body.replaceWith(document.adoptNode(next.body));
    touched = false;
    const stay = (same || quiet) && focused && document.getElementById(focused);
    if (stay) stay.focus({ preventScroll: true });
    else if (!quiet) settle();
    shown++;
    root.dataset.shown = shown;
    document.dispatchEvent(new CustomEvent("shown"));
    keepScreen();
  }

  // A report brings its own style sheet, and is no screen: it is given a way back, and may be passed on.
  function dress(next, own) {
    const plain = own.length > 0 && !next.querySelector("link[rel=stylesheet]");
    for (const sheet of document.styleSheets) if (sheet.ownerNode && !("always" in sheet.ownerNode.dataset)) sheet.disabled = plain;
    document.adoptedStyleSheets = own.map((text) => { const sheet = new CSSStyleSheet(); sheet.replaceSync(text); return sheet; });
    if (plain) next.body.prepend(bar());
  }

  function bar() {
    const made = document.createElement("nav");
    made.className = "page-bar";
    for (const [act, word] of [["back", WORDS.back], ["share", navigator.share ? WORDS.share : WORDS.keep_file]]) {
      const button = made.appendChild(document.createElement("button"));
      button.dataset.page = act;
      button.textContent = word;
    }
    return made;
  }

  async function bringPictures(next, to) {
    for (const picture of next.querySelectorAll("img[src], image[href]")) {
      const named = picture.matches("img") ? "src" : "href";
      const from = picture.getAttribute(named);
      if (/^(data|blob):/.test(from)) continue;
      picture.removeAttribute(named);
      const got = await ask({ method: "GET", address: new URL(from, HERE + to).href });
      picture.setAttribute(named, await new Promise((ok) => {
        const reader = new FileReader();
        reader.onload = () => ok(reader.result);
        reader.readAsDataURL(new Blob([got.answer], { type: got.type }));
      }));
    }
  }

  function settle() {
    const heading = document.querySelector("[autofocus], h1");
    if (heading) {
      if (heading.tagName === "H1") heading.tabIndex = -1;
      heading.focus({ preventScroll: true });
    }
    scrollTo(0, 0);
  }

  function tell(sentence) {
    let line = document.getElementById("page-tells");
    if (!line) {
      line = root.appendChild(document.createElement("p"));
      line.id = "page-tells";
      line.setAttribute("role", "status");
    }
    line.textContent = sentence;
    line.hidden = !sentence;
  }

  const report = (error) => console.warn(error.message);

  // The last screen, for the service worker to show at once the next time.
  async function keepScreen() {
    if (root.dataset.offline !== "ready") return;
    const kept = root.cloneNode(true);
    for (const told of ["shown", "offline", "python"]) delete kept.dataset[told]; // they are of this opening, not of the next
    kept.removeAttribute("aria-busy");
    const text = `<!doctype html>\n${kept.outerHTML}`;
    await (await caches.open(LAST)).put("./", new Response(text, { headers: { "content-type": "text/html; charset=utf-8" } }));
  }

  // --- a file goes to whom the person wants, or onto the disk
  async function give({ answer, type, name, address: from }) {
    const called = /filename="?([^";]+)/.exec(name)?.[1] || from.split(/[?#]/)[0].split("/").pop();
    const file = new File([answer], called, { type });
    if (matchMedia("(pointer: coarse)").matches && navigator.canShare?.({ files: [file] })) {
      await navigator.share({ files: [file] }).catch(() => {});
      return;
    }
    const link = document.createElement("a");
    link.href = URL.createObjectURL(file);
    link.download = called;
    link.dataset.page = "file";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  }

  async function pass() {
    give({ ...(await ask({ method: "GET", address: HERE + address })), name: "" });
  }

  // --- what the person does
  function within(link, attribute) {
    const told = link.getAttribute(attribute) ?? "";
    if (/^(data|blob|mailto|tel|https?):/i.test(told)) return null;
    return new URL(told, HERE + address);
  }

  addEventListener("click", (event) => {
    const button = event.target.closest?.("button[data-page]");
    if (button) return button.dataset.page === "back" ? history.back() : pass();
    const link = event.target.closest?.("a[href]");
    if (!link || link.target || link.dataset.page || event.button || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    const url = within(link, "href");
    if (!url) return;
    event.preventDefault();
    if (url.hash && link.getAttribute("href").startsWith("#")) {
      document.getElementById(decodeURIComponent(url.hash.slice(1)))?.scrollIntoView();
      return;
    }
    go("GET", url.href);
  }, true);

  addEventListener("submit", async (event) => {
    const form = event.target;
    event.preventDefault();
    const url = within(event.submitter?.hasAttribute("formaction") ? event.submitter : form, event.submitter?.hasAttribute("formaction") ? "formaction" : "action");
    const data = new FormData(form, event.submitter);
    if (form.method !== "post") {
      url.search = new URLSearchParams(data);
      return go("GET", url.href);
    }
    const packed = new Request(HERE, { method: "POST", body: form.enctype === "multipart/form-data" ? data : new URLSearchParams(data) });
    go("POST", url.href, { kind: packed.headers.get("content-type"), body: await packed.arrayBuffer() });
  }, true);

  addEventListener("input", () => { touched = true; }, true);

  addEventListener("popstate", (event) => {
    event.stopImmediatePropagation();
    go("GET", HERE + asIn(location.hash), { push: false });
  }, true);

  const asIn = (hash) => (hash.startsWith("#/") ? hash.slice(2) : "");

  function bytesOf(text) {
    if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
    return Uint8Array.from(atob(text.trim()), (one) => one.charCodeAt(0));
  }

  // --- the first screen stands already; when Python is there it is made anew, unless somebody has begun to write
  async function first() {
    if (location.hash.startsWith("#/")) {
      if (asIn(location.hash) !== address) return go("GET", HERE + asIn(location.hash), { push: false });
    } else if (address) history.replaceState(null, "", `#/${address}`);
    await program.started;
    if (asked) return; // somebody was quicker, and does not wait for this
    const got = await ask({ method: "GET", address: HERE + address });
    if (!touched && !asked && got.type.startsWith("text/html")) await show(new TextDecoder().decode(got.answer), got.address, false, true);
  }
  window.page = { ask };
  first().catch(report).finally(() => {
    if (parts || !navigator.serviceWorker) return;
    navigator.storage?.persist?.();
    navigator.serviceWorker.register("sw.js").then(() => navigator.serviceWorker.ready).then(() => { root.dataset.offline = "ready"; return keepScreen(); }).catch(report);
  });
})();
