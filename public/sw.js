// Keeps one whole version of the app for use without a network and serves nothing else.
// The build fills in the version, a hash of the final bytes, and the list of files. A new
// worker waits until the page says "skip-waiting": it never takes over a session, and no
// cache is deleted because a load failed, for it may be the only copy.

const VERSION = "%version%";
const FILES = %files%;

const SCOPE = registration.scope;
// Other apps, and other copies of this one, may share the origin: the path tells them apart.
const OWN = `weekloom ${new URL(SCOPE).pathname} `;
const CACHE = OWN + VERSION;
// The page is kept as the folder's own address, "./" in the list: some hosts redirect
// index.html to it, and a browser refuses a redirected answer to a navigation.
const NAMED_INDEX = new URL("index.html", SCOPE).href;
const KEPT = new Set(FILES.map((file) => new URL(file, SCOPE).href));

addEventListener("install", (event) => event.waitUntil(keepAll()));
addEventListener("activate", (event) => event.waitUntil(dropOlder()));
addEventListener("message", (event) => {
  if (event.data === "skip-waiting") skipWaiting();
});
addEventListener("notificationclick", (event) => {
  event.notification.close();
  event.waitUntil(comeBack());
});
addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  url.search = url.hash = "";
  if (request.method !== "GET") return;
  if (url.href === SCOPE || url.href === NAMED_INDEX) event.respondWith(shell(request));
  else if (KEPT.has(url.href)) event.respondWith(kept(url.href, request));
  else if (request.mode === "navigate") event.respondWith(elsewhere(request));
});

// All or nothing: one file that fails fails the install, and the old version stays.
async function keepAll() {
  const cache = await caches.open(CACHE);
  await cache.addAll([...KEPT].map((url) => new Request(url, { cache: "reload" })));
}

async function dropOlder() {
  const names = await caches.keys();
  const older = names.filter((name) => name.startsWith(OWN) && name !== CACHE);
  await Promise.all(older.map((name) => caches.delete(name)));
}

// The kept page, as long as everything it needs is kept too. Should the browser have
// dropped a part, the network gives a page and its files that belong together.
async function shell(request) {
  let index;
  try {
    const cache = await caches.open(CACHE);
    index = await cache.match(SCOPE);
    const stored = new Set((await cache.keys()).map((key) => key.url));
    if (index && [...KEPT].every((url) => stored.has(url))) return index;
  } catch (cause) {
    console.warn("the kept copy cannot be read:", cause);
  }
  return fetch(request).catch(() => index ?? Response.error());
}

// A full or broken store must not stand between the app and the network.
async function kept(url, request) {
  try {
    const found = await (await caches.open(CACHE)).match(url);
    if (found) return found;
  } catch (cause) {
    console.warn("the kept copy cannot be read:", cause);
  }
  return fetch(request);
}

// A tap on the notice that a rest is over leads to the window with the session.
async function comeBack() {
  const windows = await clients.matchAll({ type: "window", includeUncontrolled: true });
  const own = windows.find((window) => window.url.startsWith(SCOPE));
  return own ? own.focus() : clients.openWindow(SCOPE);
}

// A mistyped or foreign address below our path: offline, lead back to the app.
async function elsewhere(request) {
  return fetch(request).catch(() => Response.redirect(SCOPE));
}
