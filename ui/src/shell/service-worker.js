// Keeps the app's own files for when Mitefall cannot be reached: the first page and what it names, by the hash in their
// names. Nothing that was answered is kept. FILES and VERSION are put in by vite.config.ts.
/* global self, caches, fetch, location, URL */
const files = FILES;
const prefix = 'mitefall-';
const mine = prefix + VERSION;

async function keepAll() {
  const cache = await caches.open(mine);
  await cache.addAll(files);
  await self.skipWaiting();
}

async function forgetOlder() {
  const all = await caches.keys();
  await Promise.all(
    all.filter((one) => one.startsWith(prefix) && one !== mine).map((one) => caches.delete(one)),
  );
  await self.clients.claim();
}

const kept = (path) => caches.match(path, { cacheName: mine });

/** The first page anew where it can be had, so that a new version is never missed. */
async function firstPage(request) {
  try {
    return await fetch(request);
  } catch (unreachable) {
    const page = await kept('/');
    if (page) return page;
    throw unreachable;
  }
}

self.addEventListener('install', (event) => event.waitUntil(keepAll()));
self.addEventListener('activate', (event) => event.waitUntil(forgetOlder()));
self.addEventListener('fetch', (event) => {
  const { pathname, origin } = new URL(event.request.url);
  if (event.request.method !== 'GET' || origin !== location.origin) return;
  if (pathname === '/') event.respondWith(firstPage(event.request));
  else if (files.includes(pathname))
    event.respondWith(kept(pathname).then((file) => file ?? fetch(event.request)));
});
