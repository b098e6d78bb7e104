// Keeps the files of one version of the page, and serves them without asking the network.
// A newer version is fetched whole beside it and takes over only when the page says so.

/** @type {{ version: string, files: string[] } | null} */
const packed = null;

const scope = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
// Two folders on one site, such as Workshop and Showroom, keep apart.
const PREFIX = `crestrail-${new URL(scope.registration.scope).pathname}-`;
const { version, files } = packed ?? { version: 'unpacked', files: [] };
const own = PREFIX + version;

scope.addEventListener('install', (event) => event.waitUntil(fetchAll()));
scope.addEventListener('activate', (event) => event.waitUntil(takeOver()));
scope.addEventListener('message', (event) => {
  if (event.data === 'take over') scope.skipWaiting();
});
scope.addEventListener('fetch', (event) => {
  const { method, url } = event.request;
  if (method === 'GET' && new URL(url).origin === scope.location.origin) event.respondWith(answer(event.request));
});

/** All or nothing: `addAll` fails as a whole, and then the older version stays. */
async function fetchAll() {
  const cache = await caches.open(own);
  await cache.addAll(files.map((file) => new Request(file, { cache: 'no-cache' })));
}

async function takeOver() {
  const names = await caches.keys();
  const older = names.filter((other) => other.startsWith(PREFIX) && other !== own);
  await Promise.all(older.map((other) => caches.delete(other)));
  await scope.clients.claim();
}

/** @param {Request} request */
async function answer(request) {
  const cache = await caches.open(own);
  const ours = await cache.match(request, { ignoreSearch: request.mode === 'navigate' });
  return ours ?? fetch(request);
}
