// The service worker: keeps one whole version of the page, so that it starts with the network gone.

// Both lines are filled in when the page is built (src/bin/finish_dist.rs), so the bytes of this file change
// exactly when any file of the page does, and that is how the browser notices a new version.
const VERSION = "";
const FILES = {};

// The page itself is known by its folder: many hosts redirect index.html there, and a redirected answer
// may not open a page.
const PAGE = "./";

// Caches are shared by everything on the same host, so a name carries the folder it belongs to.
const ALL = "pourwright ";
const OWN = `${ALL}${registration.scope} `;
const CACHE = OWN + VERSION;

const address = (path) => new URL(path, registration.scope).href;

async function sha256(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// What is kept of an answer: its bytes, if they are those of the list, and nothing of what the host says about them.
// A redirect is forgotten, that they were compressed on their way, and a type that would keep a program from starting.
async function checked(path, answer) {
  const { length, sum, type } = FILES[path];
  if (answer.status !== 200) throw new Error(`${path}: the host answered ${answer.status}`);
  const bytes = await answer.arrayBuffer();
  if (bytes.byteLength !== length || (await sha256(bytes)) !== sum) {
    throw new Error(`${path}: not the file this version was built with`);
  }
  return new Response(bytes, { headers: { "content-type": type } });
}

// The file from a cache, mostly an earlier version's, if its bytes are the right ones; else from the network.
// The bytes are checked there too: a host in the middle of an update hands out files of two versions.
async function obtain(path, own) {
  for (const cache of own) {
    const kept = await cache.match(address(path));
    const right = kept && (await checked(path, kept).catch(() => undefined));
    if (right) return right;
  }
  return checked(path, await fetch(address(path), { cache: "reload" }));
}

async function ownCaches() {
  return (await caches.keys()).filter((name) => name.startsWith(OWN));
}

const open = (names) => Promise.all(names.map((name) => caches.open(name)));

// Nothing is kept before all of these are there.
async function keep(paths) {
  const own = await open(await ownCaches());
  const files = await Promise.all(paths.map(async (path) => [path, await obtain(path, own)]));
  const cache = await caches.open(CACHE);
  await Promise.all(files.map(([path, file]) => cache.put(address(path), file)));
}

// All or nothing: a failure here leaves the earlier version in charge, and the browser tries again later.
async function install() {
  try {
    await keep(Object.keys(FILES));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

// What is not here any more: a browser short of room drops caches, and asks nobody.
async function dropped() {
  const cache = await caches.open(CACHE);
  const kept = new Set((await cache.keys()).map((request) => request.url));
  return Object.keys(FILES).filter((path) => !kept.has(address(path)));
}

let healing;

// Fetches what was dropped; tells whether all of the page is here then.
function heal() {
  healing ??= dropped()
    .then((paths) => paths.length === 0 || keep(paths))
    .then(() => true, () => false)
    .finally(() => (healing = undefined));
  return healing;
}

// Drops the caches of earlier versions, but for those that a tab was opened from: it may still want parts of its own
// version, and holds a lock by its cache's name as long as it lives (src/page/boot.js).
async function tidy() {
  // While a still newer version is being fetched, its cache is among the others. Its own start tidies up.
  if (registration.installing || registration.waiting) return;
  const { held } = (await navigator.locks?.query()) ?? { held: [] };
  const inUse = new Set([CACHE, ...held.map((lock) => lock.name)]);
  await Promise.all((await ownCaches()).filter((name) => !inUse.has(name)).map((name) => caches.delete(name)));
}

async function activate() {
  await tidy();
  // The very first visit too is then served from here, without a reload.
  await clients.claim();
}

// The page, from here if all of it is here. Where something was dropped it could stop half way, and the host may
// have a newer one by now: then the host is asked first, and not what the browser remembers of it.
async function servePage(request) {
  const kept = await (await caches.open(CACHE)).match(address(PAGE));
  if (kept && (await dropped()).length === 0) return kept;
  const fresh = fetch(request, { cache: "no-cache" });
  if (!kept) return fresh;
  return fresh.then((fresh) => (fresh.ok ? fresh : kept), () => kept);
}

// A file of this version, or one of another that a tab was opened from, or whatever the host has there.
async function serveFile(request, path) {
  const names = Object.hasOwn(FILES, path) ? [CACHE] : await ownCaches();
  for (const cache of await open(names)) {
    const kept = await cache.match(address(path));
    if (kept) return kept;
  }
  return fetch(request);
}

// What the page asks before it promises anything.
async function state() {
  const whole = await heal();
  await tidy();
  const others = (await caches.keys()).filter((name) => name.startsWith(ALL) && !name.startsWith(OWN));
  const neighbours = [...new Set(others.map((name) => name.split(" ")[1]))].join(", ");
  return { version: VERSION, whole, neighbours };
}

addEventListener("install", (event) => event.waitUntil(install()));
addEventListener("activate", (event) => event.waitUntil(activate()));

// What follows "?" does not change a file. An address that is not the page's goes to the network, also when typed:
// every link in the page is relative, so the page would not work there.
addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(registration.scope)) return;
  const path = new URL(request.url).pathname.slice(new URL(registration.scope).pathname.length);
  if (path === "" || path === "index.html") event.respondWith(servePage(request));
  // The host's own service worker is what tells its version.
  else if (Object.hasOwn(FILES, path) || (request.mode !== "navigate" && path !== "offline.js")) {
    event.respondWith(serveFile(request, path));
  }
});

addEventListener("message", (event) => {
  // A new version waits until the page says so: never in the middle of somebody's typing.
  if (event.data === "skip-waiting") skipWaiting();
  if (event.data === "state") event.waitUntil(state().then((state) => event.ports[0].postMessage(state)));
});
