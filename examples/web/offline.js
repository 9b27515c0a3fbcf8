// A service worker: keeps the page on the device, so that it opens without a connection.
const CACHE = "tautwork";
const FILES = [
  "./",
  "answer.js",
  "app.js",
  "calculators.js",
  "dom.js",
  "icon.svg",
  "kestrel-gap.toml",
  "planner.js",
  "style.css",
  "tautwork/js/errors.js",
  "tautwork/js/models.js",
  "tautwork/js/web.js",
  "tautwork/pkg/tautwork.js",
  "tautwork/pkg/tautwork_bg.wasm",
];

addEventListener("install", (event) => {
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(FILES)));
});

// The network first, so that a new version wins; what is kept if it does not answer in time.
addEventListener("fetch", (event) => {
  if (event.request.method !== "GET") return;
  event.respondWith(answer(event.request));
});

async function answer(request) {
  const cache = await caches.open(CACHE);
  const fresh = fetch(request).then((response) => {
    if (response.ok) cache.put(request, response.clone());
    return response;
  });
  const kept = await cache.match(request);
  if (!kept) return fresh;
  const late = new Promise((done) => setTimeout(done, 3000, kept));
  return Promise.race([fresh.catch(() => kept), late]);
}
