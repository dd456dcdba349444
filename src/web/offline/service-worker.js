// Keeps the files of one build, so that the page opens with the network off. Never keeps anything a person typed.
const VERSION = "veinwright-__VERSION__";
const FILES = __FILES__;

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(VERSION).then((cache) => cache.addAll(FILES)));
});

self.addEventListener("activate", (event) => {
  const old = caches
    .keys()
    .then((names) => Promise.all(names.filter((name) => name !== VERSION).map((name) => caches.delete(name))));
  event.waitUntil(old.then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== self.location.origin || url.pathname.startsWith("/api/")) return;
  const wanted = event.request.mode === "navigate" ? "/" : url.pathname;
  event.respondWith(
    caches
      .open(VERSION)
      .then((cache) => cache.match(wanted))
      .then((kept) => kept ?? fetch(event.request)),
  );
});
