// Keeps the files of one version of the page, and serves them without asking the network.
// A newer version is fetched whole beside it and takes over only when the page says so.

/** @type {{ version: string, files: string[], digests: Record<string, string> } | null} */
const packed = null;

const scope = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
// Two folders on one site, such as Workshop and Showroom, keep apart.
const PREFIX = `crestrail-${new URL(scope.registration.scope).pathname}-`;
const { version, files, digests } = packed ?? { version: 'unpacked', files: [], digests: /** @type {Record<string, string>} */ ({}) };
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

/**
 * All or nothing: while one file is missing or is not of this version, as on a host where a new version is still being copied, or where
 * something else is answered in its place, the older version stays.
 */
async function fetchAll() {
  const cache = await caches.open(own);
  try {
    await Promise.all(files.map((file) => fetchOne(cache, file)));
  } catch (why) {
    await caches.delete(own);
    throw why;
  }
}

/** @param {Cache} cache @param {string} file */
async function fetchOne(cache, file) {
  const response = await fetch(new Request(file, { cache: 'no-cache' }));
  if (!response.ok) throw new Error(`${file}: ${response.status}`);
  const wanted = digests[file];
  if (wanted !== undefined && wanted !== (await digest(response.clone()))) throw new Error(`${file} is of another version`);
  await cache.put(file, response);
}

/** The first 16 figures of SHA-256, as the packer writes them. @param {Response} response */
async function digest(response) {
  const bytes = new Uint8Array(await crypto.subtle.digest('SHA-256', await response.arrayBuffer()));
  return Array.from(bytes.subarray(0, 8), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

async function takeOver() {
  const names = await caches.keys();
  const older = names.filter((other) => other.startsWith(PREFIX) && other !== own);
  await Promise.all(older.map((other) => caches.delete(other)));
  await scope.clients.claim();
}

/** @param {Request} request */
async function answer(request) {
  const ours = await kept(request);
  return ours ?? fetch(request);
}

/** @param {Request} request */
async function kept(request) {
  try {
    const cache = await caches.open(own);
    return await cache.match(request, { ignoreSearch: request.mode === 'navigate' });
  } catch {
    // A store that the browser cannot read any more; the network has it all.
    return undefined;
  }
}
