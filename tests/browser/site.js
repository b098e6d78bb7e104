// A host such as a maker may have: files at an address of its own choice, and media types that may be wrong.
import { createServer } from 'node:http';
import { readFile } from 'node:fs/promises';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { dist } from './harness.js';

export const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css',
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.wasm': 'application/wasm',
};

/**
 * Serves folders and single files on a free port of the loopback address.
 * @param {Record<string, string>} mounts a path that begins and ends with / leads to a folder, any other to a file
 * @param {Record<string, string>} [types] media types that this host gets wrong, by ending
 */
export async function host(mounts, types = {}) {
  /** Pages that this host makes up, by path. @type {Map<string, string>} */
  const pages = new Map();
  const server = createServer(async (request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://host').pathname);
    const file = pages.has(path) ? path : found(path, mounts);
    try {
      const bytes = pages.get(path) ?? (await readFile(file));
      response.writeHead(200, { 'Content-Type': types[extname(file)] ?? TYPES[extname(file)] ?? 'application/octet-stream' });
      response.end(bytes);
    } catch {
      response.writeHead(404, { 'Content-Type': 'text/html' });
      response.end('<p>There is no such page.');
    }
  });
  await new Promise((settle) => server.listen(0, '127.0.0.1', settle));
  const address = `http://127.0.0.1:${server.address().port}`;
  return {
    address,
    pages,
    async stop() {
      server.closeAllConnections();
      await new Promise((settle) => server.close(settle));
    },
  };
}

/** The packed page at the root, and in `modules/` the modules that it was put together from. */
export function withModules() {
  return host({ '/': `${dist}/`, '/modules/': fileURLToPath(new URL('../../www/page/', import.meta.url)) });
}

function found(path, mounts) {
  if (mounts[path] && !path.endsWith('/')) return mounts[path];
  const at = Object.keys(mounts).filter((mount) => mount.endsWith('/') && path.startsWith(mount)).sort((a, b) => b.length - a.length)[0];
  if (at === undefined) return '';
  const within = normalize(path.slice(at.length) || 'index.html');
  return within.startsWith('..') ? '' : join(mounts[at], within.endsWith('/') ? `${within}index.html` : within);
}
