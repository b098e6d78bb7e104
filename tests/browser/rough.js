// A host that has what hosts and networks have wrong with them, file by file.
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { TYPES } from './site.js';

/** What a network sends that wants its visitors to sign in first. */
const SIGN_IN = '<!doctype html><title>Welcome</title><p>Please sign in to use this network.';
/** Parts that a slow line brings, and what lies between two of them in milliseconds. */
const [DROPS, PAUSE] = [12, 100];

/** @typedef {'absent' | 'cut' | 'sign-in' | 'gzip' | 'hangs' | 'slow'} Fault */

const faults = {
  absent: (response) => response.writeHead(404, { 'Content-Type': 'text/html' }).end('<p>There is no such page.'),
  'sign-in': (response, bytes, head) => response.writeHead(200, { ...head, 'Content-Type': 'text/html' }).end(SIGN_IN),
  // As a host that rewrites every answer.
  'sign-in as script': (response, bytes, head) => response.writeHead(200, { ...head, 'Content-Type': 'text/javascript' }).end(SIGN_IN),
  gzip: (response, bytes, head) => response.writeHead(200, { ...head, 'Content-Encoding': 'gzip' }).end(bytes),
  cut: (response, bytes, head) => {
    response.writeHead(200, { ...head, 'Content-Length': bytes.length });
    response.write(bytes.subarray(0, bytes.length / 2), () => response.destroy());
  },
  hangs: (response, bytes, head) => {
    response.writeHead(200, { ...head, 'Content-Length': bytes.length });
    response.write(bytes.subarray(0, bytes.length / 2));
  },
  slow: async (response, bytes, head) => {
    response.writeHead(200, { ...head, 'Content-Length': bytes.length });
    const drop = Math.ceil(bytes.length / DROPS);
    for (let at = 0; at < bytes.length && !response.destroyed; at += drop) {
      response.write(bytes.subarray(at, at + drop));
      await new Promise((done) => setTimeout(done, PAUSE));
    }
    response.end();
  },
};

/**
 * Serves a folder below a path of a free port of the loopback address. All of what is given back may be changed while it serves:
 * `folder`; `wrong`, faults by file name; `once`, faults that pass with the first answer; `headers` of every answer; `types`, media types
 * by ending, an empty one for none.
 * @param {string} folder
 * @param {string} [path] begins and ends with /
 */
export async function roughHost(folder, path = '/') {
  const host = { folder, address: '', wrong: {}, once: {}, headers: {}, types: {}, asked: [] };
  const server = createServer(async (request, response) => {
    const asked = decodeURIComponent(new URL(request.url ?? '/', 'http://host').pathname);
    const name = asked.startsWith(path) ? normalize(asked.slice(path.length) || 'index.html') : '..';
    host.asked.push(name);
    const type = host.types[extname(name)] ?? TYPES[extname(name)] ?? 'application/octet-stream';
    const head = { ...host.headers, ...(type && { 'Content-Type': type }) };
    const fault = host.once[name] ?? host.wrong[name];
    delete host.once[name];
    const bytes = name.startsWith('..') ? undefined : await readFile(join(host.folder, name)).catch(() => undefined);
    if (bytes === undefined) return faults.absent(response);
    if (fault) return faults[fault](response, bytes, head);
    response.writeHead(200, head).end(bytes);
  });
  await new Promise((settle) => server.listen(0, '127.0.0.1', settle));
  host.address = encodeURI(`http://127.0.0.1:${server.address().port}${path}`);
  return Object.assign(host, {
    async stop() {
      server.closeAllConnections();
      await new Promise((settle) => server.close(settle));
    },
  });
}
