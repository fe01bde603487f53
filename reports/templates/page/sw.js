// Keeps the files of the page, all of one version, so that it opens without a network; the last screen is shown at once.
"use strict";
const SCOPE = self.registration.scope, SHELL = "index.html";
const FILES = `${SCOPE} files {{ version }}`, LAST = `${SCOPE} last {{ version }}`;
const NAMES = {{ names | tojson }};

self.addEventListener("install", (event) => event.waitUntil(
  caches.open(FILES).then((cache) => cache.addAll(NAMES.map((name) => new Request(name, { cache: "no-cache" })))),
));

self.addEventListener("activate", (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith(`${SCOPE} `) && name !== FILES && name !== LAST) await caches.delete(name);
  await self.clients.claim();
})()));

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || !url.href.startsWith(SCOPE)) return;
  const page = event.request.mode === "navigate" && (url.href.split(/[?#]/)[0] === SCOPE || url.pathname.endsWith(`/${SHELL}`));
  event.respondWith((async () => {
    const last = page && (await caches.match(new URL("./", SCOPE), { cacheName: LAST }));
    const kept = last || (await caches.match(page ? SHELL : event.request, { cacheName: FILES, ignoreSearch: true }));
    return kept || fetch(event.request);
  })());
});
