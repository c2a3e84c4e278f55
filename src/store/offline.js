// The service worker: keeps one whole version of the page, so that it starts with the network gone.

// Both lines are filled in when the page is built (src/bin/finish_dist.rs), so the bytes of this file change
// exactly when any file of the page does, and that is how the browser notices a new version.
const VERSION = "";
const FILES = {};

// The page itself is known by its folder: many hosts redirect index.html there, and a redirected answer
// may not open a page.
const PAGE = "./";

// Caches are shared by everything on the same host, so a name carries the folder it belongs to.
const OWN = `pourwright ${registration.scope} `;
const CACHE = OWN + VERSION;

const address = (path) => new URL(path, registration.scope).href;

async function sha256(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// A fresh answer from the same bytes: it has forgotten any redirect, and that it was compressed on its way.
function answer(bytes, response) {
  const type = response.headers.get("content-type") ?? "application/octet-stream";
  return new Response(bytes, { headers: { "content-type": type } });
}

// The file from an earlier version's cache if its bytes are still the right ones, else from the network.
// The bytes are checked there too: a host in the middle of an update hands out files of two versions.
async function obtain(path, hash, earlier) {
  for (const cache of earlier) {
    const kept = await cache.match(address(path));
    if (!kept) continue;
    const bytes = await kept.arrayBuffer();
    if ((await sha256(bytes)) === hash) return answer(bytes, kept);
  }
  const response = await fetch(address(path), { cache: "reload" });
  if (!response.ok) throw new Error(`${path}: the host answered ${response.status}`);
  const bytes = await response.arrayBuffer();
  if ((await sha256(bytes)) !== hash) throw new Error(`${path}: not the file this version was built with`);
  return answer(bytes, response);
}

async function ownCaches() {
  return (await caches.keys()).filter((name) => name.startsWith(OWN));
}

// All or nothing: a failure here leaves the earlier version in charge, and the browser tries again later.
async function install() {
  const earlier = await Promise.all((await ownCaches()).map((name) => caches.open(name)));
  const files = await Promise.all(
    Object.entries(FILES).map(async ([path, hash]) => [path, await obtain(path, hash, earlier)]),
  );
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(files.map(([path, response]) => cache.put(address(path), response)));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

async function activate() {
  // While a still newer version is being fetched, its cache is among the others. Its own start tidies up.
  if (!registration.installing && !registration.waiting) {
    const old = (await ownCaches()).filter((name) => name !== CACHE);
    await Promise.all(old.map((name) => caches.delete(name)));
  }
  // The very first visit too is then served from here, without a reload.
  await clients.claim();
}

// The address under which a request is kept, or nothing. What follows "?" does not change a file.
function keptAddress(request) {
  if (request.method !== "GET" || !request.url.startsWith(registration.scope)) return undefined;
  const path = new URL(request.url).pathname.slice(new URL(registration.scope).pathname.length);
  if (path === "" || path === "index.html") return address(PAGE);
  return Object.hasOwn(FILES, path) ? address(path) : undefined;
}

async function serve(request, kept) {
  const cache = await caches.open(CACHE);
  return (await cache.match(kept)) ?? fetch(request);
}

addEventListener("install", (event) => event.waitUntil(install()));
addEventListener("activate", (event) => event.waitUntil(activate()));

// An address that is not the page's goes to the network, also when typed: every link in the page is relative,
// so the page would not work there.
addEventListener("fetch", (event) => {
  const kept = keptAddress(event.request);
  if (kept) event.respondWith(serve(event.request, kept));
});

// A new version waits until the page says so: never in the middle of somebody's typing.
addEventListener("message", (event) => {
  if (event.data === "skip-waiting") skipWaiting();
});
