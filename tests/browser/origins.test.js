// Nothing in what is packed or published names another place to ask.
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { test } from 'node:test';

const out = fileURLToPath(new URL('../out/', import.meta.url));
const TEXTS = ['.html', '.js', '.css', '.json', '.svg', '.webmanifest'];
/** Names, not places: the namespaces of SVG. In comments: where a sentence is from. */
const NAMES = /^http:\/\/www\.w3\.org\//;

for (const folder of ['dist', 'published']) {
  test(`no file of ${folder} names another origin`, () => {
    const files = readdirSync(join(out, folder), { recursive: true }).filter((name) => TEXTS.includes(extname(name)));
    assert.ok(files.length > 20, 'nothing is packed');
    const found = [];
    for (const name of files) {
      const text = readFileSync(join(out, folder, name), 'utf8').replace(/^\s*(\/\/|\*|\/\*).*$/gm, '');
      for (const [address] of text.matchAll(/(?:https?|wss?|ftp):\/\/[\w.-]+[^\s'"`<>)]*/g)) if (!NAMES.test(address)) found.push(`${name}: ${address}`);
      for (const [address] of text.matchAll(/(?:src|href|url|action)\s*[=(]\s*["']?\/\/[\w.-]+/g)) found.push(`${name}: ${address}`);
    }
    assert.deepEqual(found, []);
  });
}
