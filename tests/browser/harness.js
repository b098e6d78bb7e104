// What every browser test needs: the packed page behind the packer's own server, a browser, and a
// watch on everything that a page must not do.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { after, before } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { browse } from './engines.js';

export { browse };

const root = join(dirname(fileURLToPath(import.meta.url)), '../..');
export const dist = join(root, 'tests/out/dist');
/** The single file as an address. */
export const single = pathToFileURL(join(dist, 'crestrail.html')).href;

/** A phone held upright, and a desk. */
export const sizes = { phone: { width: 390, height: 844 }, desk: { width: 1440, height: 900 } };

/** How long a page may take to be ready on a busy machine; the speed run prints what it really takes. */
const PATIENCE = 15_000;

/** Serves the packed page on a free port of the loopback address. */
export async function serve() {
  assert.ok(existsSync(join(dist, 'index.html')), 'nothing is packed: run `npm test`, which packs first');
  const serving = ['serve', '--no-build', '--port', '0', '--out', dist];
  // A packer that is built already starts at once; cargo first looks whether it is.
  const [program, command] = process.env.PACKER ? [process.env.PACKER, serving] : ['cargo', ['run', '--quiet', '--', ...serving]];
  const server = spawn(program, command, { cwd: root, stdio: ['ignore', 'pipe', 'inherit'] });
  const ended = new Promise((settle) => server.once('exit', settle));
  const address = await new Promise((settle, fail) => {
    let said = '';
    server.stdout.on('data', (text) => {
      said += text;
      const found = /http:\/\/127\.0\.0\.1:\d+\//.exec(said);
      if (found) settle(found[0]);
    });
    ended.then((code) => fail(new Error(`the server ended with ${code} before it gave its address`)));
  });
  return {
    address,
    async stop() {
      server.kill();
      await ended;
    },
  };
}

/** A browser and the packed page's server for all tests of a file: `browser` and `server` of what is given back. */
export function together() {
  const both = {};
  before(async () => {
    [both.browser, both.server] = await Promise.all([browse(), serve()]);
  });
  after(async () => {
    await both.browser.close();
    await both.server.stop();
  });
  return both;
}

/**
 * Opens an address in a browser profile of its own and waits for the page to be ready.
 * `faults` collects errors, violations of the policy, and requests that leave the origin.
 */
export async function open(browser, address, { viewport = sizes.desk, ...options } = {}) {
  const context = await browser.newContext({ viewport, locale: 'en-GB', ...options });
  const faults = [];
  watch(context, new URL(address), faults);
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE);
  await page.goto(address);
  await ready(page);
  return { page, context, faults };
}

/** Waits until the first report is on screen, and a picture of the size that there is room for. */
export async function ready(page) {
  try {
    await page.locator('html[data-ready]').waitFor({ timeout: PATIENCE });
    await page.waitForFunction(() => {
      const [frame, drawing] = [document.querySelector('#picture'), document.querySelector('#picture > svg')];
      return drawing?.getAttribute('width') === String(Math.round(frame.getBoundingClientRect().width));
    });
  } catch (error) {
    const shown = await page.locator('body').innerText();
    throw new Error(`the page is not ready; it shows: ${shown.slice(0, 600)}`, { cause: error });
  }
}

function watch(context, home, faults) {
  context.on('weberror', (error) => faults.push(`error: ${error.error().message}`));
  context.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) faults.push(`${message.type()}: ${message.text()} (${message.location().url})`);
  });
  context.on('request', (request) => {
    const url = new URL(request.url());
    const inside = ['data:', 'blob:'].includes(url.protocol);
    const own = home.protocol === 'file:' ? url.pathname === home.pathname : url.origin === home.origin;
    if (!inside && !own) faults.push(`left the origin: ${request.url()}`);
  });
}

/** The value at a share of the sorted values, by the nearest rank. */
export function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)];
}
